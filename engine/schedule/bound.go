package schedule

import (
	"math/bits"
	"slices"
)

// lowerBound is a moment before which no plan is over: the longest path through
// links, lags and calendars when nobody ever waits for a person or a place,
// raised until the work between every release and every tail fits into the
// hours of every set of people and of every place.
func lowerBound(r *run) Minute {
	f := newFrame(r.n)
	f.steps = limitless
	f.reset()
	low := f.path()
	for step := Minute(480); low < limit && f.try(low, false); step *= 2 { // gallop, then halve
		from := low + 1
		if low += step; !f.try(low, false) {
			return f.refute(from, low, false)
		}
	}
	if low >= limit {
		return Never
	}
	return low
}

// limitless lets a frame work as long as it needs.
const limitless = 1 << 62

// path is the last finish by links alone.
func (f *frame) path() Minute {
	last := f.n.Now
	for _, j := range f.order {
		last = max(last, f.ef[j])
	}
	return last
}

// refute halves the span in which the first finish lies that is not refuted:
// at low or later, at high or before.
func (f *frame) refute(low, high Minute, deep bool) Minute {
	for low < high && !f.spent {
		mid := low + (high-low)/2
		if f.try(mid, deep) {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low
}

// raised is a lower bound of a search that has a plan with makespan high and
// the bound low: a destructive one [KleinScholl1999]. A trial finish is taken
// as a deadline; latest starts by a walk back through the calendars, what surely
// runs where and what must come first narrow all windows until one is empty or
// the work in one is more than the hours. steps bounds the work, in looks at an
// activity or a pair, not in time: same input and steps, same bound.
func raised(n *net, low, high Minute, steps int) Minute {
	if low >= high || high >= Never {
		return low
	}
	f := newFrame(n)
	f.steps = limitless
	f.reset()
	f.steps = steps
	return f.refute(low, high, true)
}

// boundSteps is what a search with a budget of schedules may spend on its bound:
// about a fifth of its time.
func boundSteps(n *net, schedules int) int {
	hi, steps := bits.Mul64(uint64(max(0, schedules)), 3*uint64(len(n.Activities)))
	if hi > 0 || steps > limitless {
		return limitless
	}
	return int(steps)
}

// Gap is by how many minutes the plan may still be beaten: its makespan less
// the lower bound. Zero is proved: no plan is over earlier.
func (r Result) Gap() Minute { return r.Makespan - r.LowerBound }

// soonest is when j could be over at best if it became ready at t.
func (r *run) soonest(j int, t Minute) Minute {
	a := &r.n.Activities[j]
	heads := r.n.heads(j)
	if a.Kind == Passive {
		return r.n.clock(a.Calendar).after(t, a.Work)
	}
	if heads == 0 || a.State == Done {
		return t
	}
	ends := make([]Minute, 0, len(a.Who))
	for _, p := range a.Who {
		ends = append(ends, r.until(p, j, r.fit(p, j, t)))
	}
	slices.Sort(ends)
	return ends[heads-1]
}

// topological orders the activities so that links point forward.
func (n *net) topological() []int {
	pend := make([]int, len(n.Activities))
	order := slices.Clone(n.sources)
	for j := range pend {
		pend[j] = len(n.in[j])
	}
	for i := 0; i < len(order); i++ {
		for _, l := range n.out[order[i]] {
			to := n.Links[l].To
			if pend[to]--; pend[to] == 0 {
				order = append(order, to)
			}
		}
	}
	return order
}
