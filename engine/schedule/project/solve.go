package project

import (
	"context"
	"sync"

	"fettle/fault"
)

// Options say how hard to look.
type Options struct {
	Seed      uint64
	Schedules int // budget in generated schedules; less than 1 counts as 1
	Workers   int // islands, 1 or 2; 0 is 1. Each gets its part of the budget
	Progress  func(done, budget int)
}

// Status says how good a result is known to be.
type Status uint8

// The outcomes.
const (
	BestFound   Status = iota // the budget is spent; LowerBound says what is still possible
	ProvedBest                // no schedule is shorter
	Interrupted               // the context ended before the budget; the best so far
)

// String is the outcome in words.
func (s Status) String() string {
	return [...]string{"best found", "proved best", "interrupted"}[s]
}

// Stats count the work done.
type Stats struct {
	Schedules int // starts given, forward and backward alike, by the activities of the project; rounded up
	Passes    int // generations begun: whole, resumed or cut short
	Cut       int // passes given up, as they could not have been taken
	Improved  int // times a better schedule was found
	Repeats   int // lists thrown away because they had been generated before
	Restarts  int // populations drawn anew
}

// Result is a schedule that has passed Check.
type Result struct {
	Starts     []int32 // n, in slots from zero
	Makespan   int32
	LowerBound int32 // no schedule is shorter than this
	Status     Status
	Stats      Stats
}

const rounds = 20 // exchanges between islands, and calls of Progress

// Solve looks for a short schedule. Bad input is a fault of kind Invalid that
// names the rule and the activity; every other outcome is a Status. The same
// problem, seed, budget and number of workers give the same result.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	n, err := compile(&p)
	if err != nil {
		return Result{}, err
	}
	o.Schedules, o.Workers = max(1, o.Schedules), min(2, max(1, o.Workers))
	islands := settle(n, o)
	bounds := newBounds(n)
	spread(islands, bounds.quick())
	for r := 1; r <= rounds; r++ {
		together(ctx, islands, r)
		exchange(islands)
		if r == 1 && !finished(islands) {
			spread(islands, bounds.refute(best(islands).last, boundSteps*o.Schedules))
		}
		if finished(islands) {
			break
		}
		if o.Progress != nil {
			o.Progress(total(islands).Schedules, o.Schedules)
		}
	}
	return result(n, islands)
}

func settle(n *net, o Options) []*island {
	search := max(1, o.Schedules-1) // one is kept back for forward
	islands := make([]*island, min(o.Workers, search))
	for w := range islands {
		share := (search + w) / len(islands)
		islands[w] = newIsland(n, o.Seed, w, share)
	}
	return islands
}

// together runs every island to the end of a round.
func together(ctx context.Context, islands []*island, round int) {
	var wait sync.WaitGroup
	for _, i := range islands {
		wait.Go(func() { i.run(ctx, max(i.net.n, i.limit*round/rounds)) })
	}
	wait.Wait()
}

// exchange gives each island the best plans of its neighbour.
func exchange(islands []*island) {
	if len(islands) < 2 || finished(islands) {
		return
	}
	var guests [2][2]*plan
	for w, i := range islands {
		for k := range i.pop {
			if len(i.pop[k].plans) > 0 {
				guests[1-w][k] = i.pop[k].plans[i.pop[k].best()]
			}
		}
	}
	for w, i := range islands {
		for k, g := range guests[w] {
			if g != nil && len(i.pop[k].plans) >= i.size {
				i.pop[k].offer(g.copy())
			}
		}
	}
}

func spread(islands []*island, lower int32) {
	for _, i := range islands {
		i.lower = max(i.lower, lower)
	}
}

func best(islands []*island) *island {
	b := islands[0]
	for _, i := range islands[1:] {
		if i.last < b.last {
			b = i
		}
	}
	return b
}

func finished(islands []*island) bool {
	for _, i := range islands {
		if i.done() {
			return true
		}
	}
	return false
}

func total(islands []*island) Stats {
	sum := Stats{}
	for _, i := range islands {
		sum.Schedules += (i.used + i.net.n - 1) / max(1, i.net.n)
		sum.Passes += i.stats.Passes
		sum.Cut += i.stats.Cut
		sum.Improved += i.stats.Improved
		sum.Repeats += i.stats.Repeats
		sum.Restarts += i.stats.Restarts
	}
	return sum
}

func result(n *net, islands []*island) (Result, error) {
	b := best(islands)
	b.forward()
	r := Result{Makespan: b.last * n.slot, LowerBound: b.lower * n.slot, Stats: total(islands)}
	r.Starts = n.starts(b.finish)
	switch {
	case b.last <= b.lower:
		r.Status = ProvedBest
	case b.cut:
		r.Status = Interrupted
	}
	if err := Check(*n.p, r.Starts); err != nil {
		return Result{}, fault.Wrap(fault.Internal, err, "check the schedule found")
	}
	return r, nil
}
