package schedule

import "slices"

// window is a maximum lag with remedial work for when it is missed.
type window struct {
	link int
	work []int // activities of its remedies
}

// mend finds the windows with remedies and makes the end of each wait for the
// remedial work. What leads into a fact has been kept or is past help.
func (n *net) mend() {
	at := map[int]int{}
	for _, m := range n.Remedies {
		to := n.Links[m.Link].To
		if n.Activities[to].State != Open {
			continue
		}
		w, known := at[m.Link]
		if !known {
			w = len(n.windows)
			at[m.Link] = w
			n.windows = append(n.windows, window{link: m.Link})
		}
		n.windows[w].work = append(n.windows[w].work, m.Activity)
		n.Links = append(slices.Clip(n.Links), Link{From: m.Activity, To: to, Calendar: -1})
	}
	if n.windows == nil {
		return
	}
	n.closing = make([][]int, len(n.Activities))
	for w, v := range n.windows {
		to := n.Links[v.link].To
		n.closing[to] = append(n.closing[to], w)
	}
}

// forget takes all remedial work out again.
func (r *run) forget() {
	clear(r.called)
	for _, m := range r.n.Remedies {
		r.skipped[m.Activity] = true
	}
}

// latest is the last moment at which the end of a window may start: Never as
// long as the window has not begun, where it is not needed, and once its
// remedy is called for.
func (r *run) latest(w int) Minute {
	l := r.n.windows[w].link
	k := &r.n.Links[l]
	if r.called[w] || r.skipped[k.From] || r.skipped[k.To] || r.finish[k.From] >= Never {
		return Never
	}
	return r.n.arrival(l, r.start[k.From], r.finish[k.From])
}

// lapse calls for the remedies of all windows that closed before t with their
// end not begun, and says whether there were any.
func (r *run) lapse(t Minute) bool {
	any := false
	for w := range r.n.windows {
		if r.start[r.n.Links[r.n.windows[w].link].To] < Never {
			continue
		}
		if at := r.latest(w); at < t {
			r.call(w, at)
			any = true
		}
	}
	return any
}

// nextLapse is the next moment at which a window closes.
func (r *run) nextLapse() Minute {
	next := Never
	for w := range r.n.windows {
		if r.start[r.n.Links[r.n.windows[w].link].To] >= Never {
			next = min(next, r.latest(w))
		}
	}
	return next
}

// late calls for the remedies of the windows that j would miss if it started
// when it is ready, and says whether there were any.
func (r *run) late(j int) bool { return r.misses(j, r.ready[j]) }

// misses does so for a start at t.
func (r *run) misses(j int, t Minute) bool {
	any := false
	if r.n.windows == nil {
		return false
	}
	for _, w := range r.n.closing[j] {
		if at := r.latest(w); at < t {
			r.call(w, at)
			any = true
		}
	}
	return any
}

// call puts the remedial work of a window in, which closed at a moment: the end
// of the window has to wait for it.
func (r *run) call(w int, closed Minute) {
	v := &r.n.windows[w]
	r.called[w] = true
	if to := r.n.Links[v.link].To; r.tied(to) >= 0 && r.n.blocks[r.tied(to)].members[0] != to {
		r.loosen(r.tied(to))
	}
	for _, j := range v.work {
		r.skipped[j] = false
		r.start[j], r.resume[j], r.finish[j] = Never, Never, Never
		r.ready[j] = max(r.ready[j], closed)
		for _, l := range r.n.out[j] {
			r.pend[r.n.Links[l].To]++
		}
	}
	r.waiting.drop(r.pos[r.n.Links[v.link].To])
	for _, j := range v.work {
		if r.pend[j] == 0 {
			r.arrive(j)
		}
	}
}

// byWindow explains remedial work by the window that closed.
func (r *run) byWindow(j int, b *Binding) {
	for _, v := range r.n.windows {
		k := &r.n.Links[v.link]
		if !slices.Contains(v.work, j) || r.skipped[j] {
			continue
		}
		if at := r.n.arrival(v.link, r.start[k.From], r.finish[k.From]); at > b.At && at <= r.resume[j] {
			b.Cause, b.At, b.Link, b.Activity = ByWindow, at, v.link, k.From
			if k.FromStart && r.n.Activities[k.From].State == Started {
				b.Activity = -1 // its start is a fact
			}
		}
	}
}
