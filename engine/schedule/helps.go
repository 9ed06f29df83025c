package schedule

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// HelpOptions steer Helps. The zero value asks for dates only, one thing at a time.
type HelpOptions struct {
	Runs    int      // of Odds for each, on one seed; 0 leaves chances out
	Seed    uint64   // of the odds
	Workers int      // of the odds
	Pairs   bool     // also try the best four two by two
	Longer  Minute   // what a person's days are made longer by; 0 means an hour
	Sooner  Minute   // what a release comes earlier by; 0 means a week
	Days    []Window // whole days outside the calendars that might be worked: Saturdays
	Most    int      // things to try; 0 means 50
}

// Help is what one relaxation wins, or two together. The plan without it can
// still be worked, so the dates never lose; a chance may, as a foreman does not
// plan ahead.
type Help struct {
	Of     []Relaxation
	Sooner Minute  // minutes the plan finishes earlier
	Late   Minute  // minutes it is less late
	Most   Minute  // minutes that any plan could win by it at most, by the bound; never below Sooner
	Chance float64 // added to the chance of meeting the goal, -1 to 1
	StdErr float64 // at most, of Chance: the same luck on both sides makes it less
	Price  int64   // of the overtime in it
}

// Limit is a wait on the chain that sets the date: the lag of a link, or a
// passive activity. Nothing in a problem tells a cure from a transport, so no
// wait is ever offered to be cut short: it is named as a limit.
type Limit struct {
	Activity int    // what waits; of a passive activity, itself
	Link     int    // -1 for a passive activity
	Length   Minute // on the wall
}

// Helped is the answer of Helps.
type Helped struct {
	Plan   Result  // without any help
	Chance float64 // of meeting the goal without any help; 0 without runs or goal
	StdErr float64
	Helps  []Help  // most first: by chance, then lateness, then finish
	Limits []Limit // last first
	Untold int     // relaxations not tried: Most was reached
}

// Helps answers "what would help": it plans, reads off the chain that sets the
// date what could be loosened, and plans again with each, on the same seed and
// budget. A chain names what binds this plan; something off it may help after
// another change. A context that ends is a fault of kind Interrupted where odds
// are played, otherwise the last plans are the best until then.
func Helps(ctx context.Context, p Problem, o Options, h HelpOptions) (Helped, error) {
	g := &helper{ctx: ctx, p: &p, o: o, h: h}
	base, chance, stdErr, err := g.solve(loosened{Problem: p, bought: o.Bought})
	if err != nil {
		return Helped{}, err
	}
	g.base, g.chance = base, chance
	out := Helped{Plan: base, Chance: chance, StdErr: stdErr}
	all, limits := relaxations(&p, base, h)
	out.Limits = limits
	most := cmp.Or(h.Most, 50)
	out.Untold = max(0, len(all)-most)
	for _, r := range all[:min(most, len(all))] {
		if err := g.add(&out, r); err != nil {
			return Helped{}, err
		}
	}
	out.sort()
	best := slices.Clone(out.Helps[:min(4, len(out.Helps))])
	for i := range best {
		for k := 0; h.Pairs && k < i; k++ {
			if err := g.add(&out, best[k].Of[0], best[i].Of[0]); err != nil {
				return Helped{}, err
			}
		}
	}
	out.sort()
	return out, nil
}

// Telling are the helps without the pairs that do no more than one of their two
// things does alone, most first.
func (h Helped) Telling() []Help {
	var list []Help
	for i, one := range h.Helps {
		alone := func(b Help) bool {
			return len(b.Of) == 1 && slices.Contains(one.Of, b.Of[0]) && b.Sooner >= one.Sooner && b.Late >= one.Late && b.Chance >= one.Chance
		}
		if len(one.Of) == 1 || !slices.ContainsFunc(h.Helps[:i], alone) {
			list = append(list, one)
		}
	}
	return list
}

// helper holds what every trial is compared with.
type helper struct {
	ctx    context.Context
	p      *Problem
	o      Options
	h      HelpOptions
	base   Result
	chance float64
}

func (g *helper) add(out *Helped, of ...Relaxation) error {
	t := loosenedOf(g.p, g.o.Bought)
	help := Help{Of: of}
	for _, r := range of {
		help.Price += r.Price
		t.loosen(r)
	}
	res, chance, stdErr, err := g.solve(t)
	if err != nil {
		return err
	}
	help.Sooner = max(0, g.base.Makespan-res.Makespan)
	help.Late = max(0, g.base.Lateness-res.Lateness)
	help.Most = g.base.Makespan - res.LowerBound
	if g.h.Runs > 0 && g.p.Goal > 0 {
		help.Chance = chance - g.chance
		help.StdErr = math.Sqrt(float64(stdErr*stdErr) + float64(out.StdErr*out.StdErr))
	}
	out.Helps = append(out.Helps, help)
	return nil
}

func (g *helper) solve(t loosened) (res Result, chance, stdErr float64, err error) {
	o := g.o
	o.Bought, o.Bound = t.bought, 0 // what bounds the problem does not bound it loosened
	if res, err = Solve(g.ctx, t.Problem, o); err != nil || g.h.Runs <= 0 || t.Goal <= 0 {
		return res, 0, 0, err
	}
	odds, err := Odds(g.ctx, t.Problem, res.Order, OddsOptions{Runs: g.h.Runs, Seed: g.h.Seed, Workers: g.h.Workers})
	chance, stdErr = odds.Chance(t.Goal)
	return res, chance, stdErr, err
}

func (h *Helped) sort() {
	slices.SortStableFunc(h.Helps, func(a, b Help) int {
		return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(b.Late, a.Late), cmp.Compare(b.Sooner, a.Sooner),
			cmp.Compare(len(a.Of), len(b.Of)), cmp.Compare(a.Price, b.Price))
	})
}
