package schedule

import (
	"context"
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

// Odds plays the plan many times with drawn durations, reserves, late parts,
// risks and absences. Each run is a parallel generation in list order (nil: the order of
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
	critical [][]int  // by worker, then group
}

// keys are the draw keys of one activity.
type keys struct{ work, extra, late drawKey }

// personKeys are those of one person.
type personKeys struct{ away, pace drawKey }

func newGame(n *net, order []int, o OddsOptions) *game {
	g := &game{n: n, o: o, order: order, ranges: rangesOf(&n.Problem), finishes: make([]Minute, o.Runs)}
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
