package schedule

import "slices"

// lowerBound is the longest path from now through links, lags and calendars
// when nobody ever waits for a person or a place. No plan finishes earlier.
func lowerBound(r *run) Minute {
	n := r.n
	times := make([]Window, len(n.Activities))
	last := n.Now
	for _, j := range n.topological() {
		a := &n.Activities[j]
		if n.optional[j] {
			continue
		}
		ready := max(n.Now, a.Release)
		if a.State != Open {
			ready = n.Now
		}
		for _, l := range n.in[j] {
			if n.optional[n.Links[l].From] {
				continue
			}
			t := times[n.Links[l].From]
			ready = max(ready, n.arrival(l, t.From, t.To))
		}
		times[j] = Window{ready, r.soonest(j, ready)}
		if a.State != Open {
			times[j].From = a.Start
		}
		if a.State == Done {
			times[j].To = a.Finish
		}
		last = max(last, times[j].To)
	}
	return last
}

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
