// Package longlay lays pieces out as long work: it tells the best layout so far
// and how far it is, and goes on from the best that was told when it was cut
// off.
//
// A run that is not cut off is that of nest.Solve with the same seed and steps.
// One that goes on depends on where it was cut off: it begins with the layout
// told then, spends what is left of the budget, and draws with another seed, so
// that it does not try the same again.
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
	From    []nest.Placement // what an earlier run told last; none begins anew
	Done    int              // the steps it had done by then
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

// Do lays out. Its result places no fewer copies than were told last. When ctx
// ends it returns the best so far.
func Do(ctx context.Context, w Work, tell Tell) (Result, error) {
	best, done := []nest.Placement(nil), 0
	o := nest.Options{Seed: w.Seed, Steps: w.Steps}
	if w.GoesOn() {
		best, done = w.From, w.Done
		o.Start, o.Steps = w.From, max(w.Steps-w.Done, 0)
		o.Seed += uint64(w.Done) << 32
	}
	o.Progress = func(p nest.Progress) {
		best = p.Placements
		tell(best, done+p.Steps)
	}
	o.Stepped = func(steps int) { tell(best, done+steps) }
	s, err := nest.Solve(ctx, w.Problem, o)
	if err != nil {
		return Result{}, err
	}
	r := Result{s.Placements, done + s.Stats.Steps, s.Status, s.Reason, s.SmallestGap}
	if len(r.Placements) >= len(best) {
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
