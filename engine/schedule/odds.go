package schedule

import (
	"context"
	"sync"

	"fettle/fault"
)

// OddsOptions steer Odds.
type OddsOptions struct {
	Runs    int          // 0 means 2,000
	Seed    uint64       // same seed, same luck: compare problems under one seed
	Workers int          // 0 means 1; the answer does not depend on it
	Starts  bool         // keep the starts of every run for Outlook.Start: 4 bytes an activity and run
	Bought  []int        // hours that are bought in every run: indices into Problem.Overtime
	Prefer  []Preference // who is waited for in every run: nil is nobody, whoever can first begins
}

// Odds plays the plan many times with drawn durations, reserves, late parts,
// risks and absences. Each run is a parallel generation in list order (nil: the order of
// Activities): nobody knows a duration before it is over [BallestinLeus2009].
// The answer depends on problem, order, runs and seed only. Bad input is a
// fault of kind Invalid, a context that ends one of kind Interrupted.
func Odds(ctx context.Context, p Problem, order []int, o OddsOptions) (Outlook, error) {
	g, err := prepare(p, order, o)
	if err != nil {
		return Outlook{}, err
	}
	if err := g.play(ctx); err != nil {
		return Outlook{}, err
	}
	return g.outlook(), nil
}

// prepare makes the game of a call, with the defaults of its options put in.
func prepare(p Problem, order []int, o OddsOptions) (*game, error) {
	n, err := compile(p)
	if err != nil {
		return nil, err
	}
	if err := checkOrder(&p, order); err != nil {
		return nil, err
	}
	for _, w := range o.Bought {
		if !inside(w, len(p.Overtime)) {
			return nil, broken(ruleIndex, "bought", "overtime %d of %d", w, len(p.Overtime))
		}
	}
	if err := checkPrefer(&p, o.Prefer); err != nil {
		return nil, err
	}
	if order == nil {
		order = natural(len(p.Activities))
	}
	if o.Runs <= 0 {
		o.Runs = 2000
	}
	o.Workers = min(max(1, o.Workers), o.Runs)
	return newGame(n, order, o), nil
}

// game is one call of Odds: what all workers read, and where each writes the
// results of its own runs.
type game struct {
	n        *net
	o        OddsOptions
	order    []int
	keys     []keys
	ranges   ranges
	factors  []drawKey
	people   []personKeys
	risks    []drawKey
	group    []int // by activity
	names    []string
	finishes []Minute
	starts   []Minute // by activity, then run
	lasted   []Minute // by group, then run; nil is not kept
	critical [][]int  // by worker, then group
	well     int      // a group whose own draws are all at; -1 is none
	at       float64
}

// keys are the draw keys of one activity.
type keys struct{ work, extra, late drawKey }

// personKeys are those of one person.
type personKeys struct{ away, pace drawKey }

func newGame(n *net, order []int, o OddsOptions) *game {
	g := &game{n: n, o: o, order: order, ranges: rangesOf(&n.Problem), well: -1, finishes: make([]Minute, o.Runs)}
	if o.Starts {
		g.starts = make([]Minute, o.Runs*len(n.Activities))
	}
	seen := map[string]int{}
	for j := range n.Activities {
		a := &n.Activities[j]
		g.keys = append(g.keys, keys{keyOf(a.ID, forWork), keyOf(a.ID, forExtra), keyOf(a.ID, forLate)})
		if _, known := seen[a.Group]; !known {
			seen[a.Group] = len(g.names)
			g.names = append(g.names, a.Group)
		}
		g.group = append(g.group, seen[a.Group])
	}
	for _, f := range n.Factors {
		g.factors = append(g.factors, keyOf(f.ID, forFactor))
	}
	for _, p := range n.People {
		g.people = append(g.people, personKeys{keyOf(p.ID, forAway), keyOf(p.ID, forPace)})
	}
	for _, r := range n.Risks {
		g.risks = append(g.risks, keyOf(r.ID, forRisk))
	}
	return g
}

// play shares the runs out by number: worker w takes w, w+workers, ... A
// context that ends is a fault of kind Interrupted.
func (g *game) play(ctx context.Context) error {
	g.critical = make([][]int, g.o.Workers)
	var wait sync.WaitGroup
	for w := range g.o.Workers {
		g.critical[w] = make([]int, len(g.names))
		wait.Go(func() {
			h := newHand(g, g.critical[w])
			h.prefer = g.n.wanted(g.o.Prefer)
			for i := w; i < g.o.Runs && ctx.Err() == nil; i += g.o.Workers {
				h.play(i)
			}
		})
	}
	wait.Wait()
	if err := ctx.Err(); err != nil {
		return fault.Wrap(fault.Interrupted, err, "playing the odds")
	}
	return nil
}

// bought says of each stretch of overtime whether it is.
func (g *game) bought() []bool {
	bought := make([]bool, len(g.n.Overtime))
	for _, w := range g.o.Bought {
		bought[w] = true
	}
	return bought
}
