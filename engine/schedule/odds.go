package schedule

import (
	"context"
	"math"
	"slices"
	"sync"

	"fettle/fault"
)

// OddsOptions steer Odds.
type OddsOptions struct {
	Runs    int    // 0 means 2,000
	Seed    uint64 // same seed, same luck: compare problems under one seed
	Workers int    // 0 means 1; the answer does not depend on it
	Starts  bool   // keep the starts of every run for Outlook.Start: 4 bytes an activity and run
}

// Outlook is what many played runs of a plan came to.
type Outlook struct {
	Finishes []Minute // last finish of every run, sorted; Never where the calendars ended first
	Groups   []Share  // in order of first appearance in Activities
	starts   []Minute // by activity, each sorted
}

// Share is how often a group lay on the chain that set the finish of a run.
type Share struct {
	Group string
	Part  float64 // of the runs, 0 to 1
}

// Odds plays the plan many times with drawn durations, reserves, late parts and
// absences. Each run is a parallel generation in list order (nil: the order of
// Activities): nobody knows a duration before it is over [BallestinLeus2009].
// The answer depends on problem, order, runs and seed only. Bad input is a
// fault of kind Invalid, a context that ends one of kind Interrupted.
func Odds(ctx context.Context, p Problem, order []int, o OddsOptions) (Outlook, error) {
	n, err := compile(p)
	if err != nil {
		return Outlook{}, err
	}
	if err := checkOrder(&p, order); err != nil {
		return Outlook{}, err
	}
	if order == nil {
		order = natural(len(p.Activities))
	}
	if o.Runs <= 0 {
		o.Runs = 2000
	}
	g := newGame(n, order, o)
	g.play(ctx, min(max(1, o.Workers), o.Runs))
	if err := ctx.Err(); err != nil {
		return Outlook{}, fault.Wrap(fault.Interrupted, err, "playing the odds")
	}
	return g.outlook(), nil
}

// Quantile is the finish that a part q of the runs met: the smallest finish
// with at least q of the runs at or before it.
func (o Outlook) Quantile(q float64) Minute { return quantile(o.Finishes, q) }

// Chance is the part of the runs that finished at or before t, with its
// standard error.
func (o Outlook) Chance(t Minute) (chance, stdErr float64) {
	if len(o.Finishes) == 0 {
		return 0, 0
	}
	met, _ := slices.BinarySearch(o.Finishes, t+1)
	runs := float64(len(o.Finishes))
	chance = float64(met) / runs
	return chance, math.Sqrt(chance * (1 - chance) / runs)
}

// Start is the start of an activity that a part q of the runs met. It needs
// OddsOptions.Starts and is Never without.
func (o Outlook) Start(activity int, q float64) Minute {
	runs := len(o.Finishes)
	if (activity+1)*runs > len(o.starts) {
		return Never
	}
	return quantile(o.starts[activity*runs:(activity+1)*runs], q)
}

func quantile(sorted []Minute, q float64) Minute {
	if len(sorted) == 0 {
		return Never
	}
	i := int(math.Ceil(q*float64(len(sorted)))) - 1
	return sorted[min(max(i, 0), len(sorted)-1)]
}

// game is one call of Odds: what all workers read, and where each writes the
// results of its own runs.
type game struct {
	n        *net
	o        OddsOptions
	order    []int
	keys     []keys
	factors  []drawKey
	people   []drawKey
	group    []int // by activity
	names    []string
	finishes []Minute
	starts   []Minute // by activity, then run
	critical [][]int  // by worker, then group
}

// keys are the draw keys of one activity.
type keys struct{ work, extra, late drawKey }

func newGame(n *net, order []int, o OddsOptions) *game {
	g := &game{n: n, o: o, order: order, finishes: make([]Minute, o.Runs)}
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
		g.people = append(g.people, keyOf(p.ID, forAway))
	}
	return g
}

// play shares the runs out by number: worker w takes w, w+workers, ...
func (g *game) play(ctx context.Context, workers int) {
	g.critical = make([][]int, workers)
	var wait sync.WaitGroup
	for w := range workers {
		g.critical[w] = make([]int, len(g.names))
		wait.Go(func() {
			h := newHand(g, g.critical[w])
			for i := w; i < g.o.Runs && ctx.Err() == nil; i += workers {
				h.play(i)
			}
		})
	}
	wait.Wait()
}

func (g *game) outlook() Outlook {
	out := Outlook{Finishes: g.finishes, starts: g.starts}
	slices.Sort(out.Finishes)
	for at := 0; at < len(g.starts); at += g.o.Runs {
		slices.Sort(g.starts[at : at+g.o.Runs])
	}
	for i, name := range g.names {
		met := 0
		for _, c := range g.critical {
			met += c[i]
		}
		out.Groups = append(out.Groups, Share{Group: name, Part: float64(met) / float64(g.o.Runs)})
	}
	return out
}
