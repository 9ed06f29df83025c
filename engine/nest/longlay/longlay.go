// Package longlay lays pieces out as long work: it tells the best layout so far
// and how far it is, and goes on from the best that was told when it was cut
// off.
//
// A run that is not cut off is that of nest.Solve with the same seed and steps.
// One that goes on depends on where it was cut off: it begins with the layout
// told then, spends what is left of the budget, and draws another way, so that
// it does not try the same again.
package longlay

import (
	"context"

	"fettle/engine/nest"
	"fettle/fault"
)

// Work is a layout to be worked out.
type Work struct {
	Problem nest.Problem
	Seed    uint64
	Steps   int              // budget of all runs together
	Done    int              // what earlier runs have done of it
	From    []nest.Placement // what was told last; none, or one that does not hold, begins anew
}

// Tell is told of the best layout so far and of the steps of all runs, on the
// goroutine of Do, several times a second at most. It must not change the list.
type Tell func(best []nest.Placement, steps int)

// GoesOn says whether there is anything to go on from: a layout that the exact
// checker passes.
func (w Work) GoesOn() bool {
	if len(w.From) == 0 {
		return false
	}
	_, err := nest.CheckPart(w.Problem, w.From)
	return err == nil
}

// Result is what Do came to; the exact checker has passed it.
type Result struct {
	Placements []nest.Placement
	Steps      int // of all runs
	Status     nest.Status
	Reason     string // why not all are placed, as nest.Result says it; may be empty
	Gap        float64
}

// Do lays out. Its result places no fewer copies than were told last, but in a
// knapsack, where value counts. When ctx ends it returns the best so far.
func Do(ctx context.Context, w Work, tell Tell) (Result, error) {
	var best []nest.Placement
	o := nest.Options{Seed: w.Seed + uint64(w.Done)<<32, Steps: max(w.Steps-w.Done, 0)}
	if w.GoesOn() {
		best, o.Start = w.From, w.From
	}
	o.Progress = func(p nest.Progress) {
		best = p.Placements
		tell(best, w.Done+p.Steps)
	}
	o.Stepped = func(steps int) { tell(best, w.Done+steps) }
	s, err := nest.Solve(ctx, w.Problem, o)
	if err != nil {
		return Result{}, err
	}
	r := Result{s.Placements, w.Done + s.Stats.Steps, s.Status, s.Reason, s.SmallestGap}
	if len(r.Placements) >= len(best) || w.Problem.Kind == nest.Knapsack {
		return r, nil
	}
	report, err := nest.CheckPart(w.Problem, best)
	if err != nil {
		return r, fault.Wrap(fault.Internal, err, "the engine told of a layout that its checker refuses")
	}
	if r.Placements, r.Reason, r.Gap = best, "", report.SmallestGap; report.Missing == 0 && r.Status == nest.Incomplete {
		r.Status = nest.BestFound
	}
	return r, nil
}
