package schedule

// waits are what a search may keep back: begun work and, where there are
// windows, what opens them, what comes before that, and all that needs people.
type waits struct {
	windows []int // links: maximum lags that may still be missed
	before  []int // activities
}

// holdable finds them.
func (n *net) holdable() waits {
	var w waits
	seen := make([]bool, len(n.Activities))
	var up func(j int)
	up = func(j int) {
		if seen[j] || !n.waits(j) {
			return
		}
		seen[j] = true
		w.before = append(w.before, j)
		for _, l := range n.in[j] {
			up(n.Links[l].From)
		}
	}
	for _, l := range n.maxLags {
		k := &n.Links[l]
		if n.Activities[k.To].State == Open && n.waits(k.From) {
			w.windows = append(w.windows, l)
			up(k.From)
		}
	}
	for j := range n.Activities {
		if n.Activities[j].State == Started || len(w.windows) > 0 && n.heads(j) > 0 {
			up(j)
		}
	}
	return w
}

// waits says that j can be kept back: it is open, or it is begun labour that
// stands in no place and fills no air. Other begun work goes on first.
func (n *net) waits(j int) bool {
	a := &n.Activities[j]
	return a.State == Open || a.State == Started && a.Kind == Labour && len(a.Uses) == 0 && !n.aired(j)
}

// shift keeps something back in half of the children: until it begins or ends at
// an event in the plan of a parent, or until a window closes no earlier than that.
func (i *island) shift(parent, c *candidate) {
	w := &i.waits
	if len(w.before) == 0 || i.rng.IntN(2) == 0 {
		return
	}
	if len(w.windows) > 0 && i.rng.IntN(2) == 0 {
		l := i.missed(parent)
		at := parent.start[i.n.Links[l].To]
		if i.rng.IntN(2) == 0 {
			at = i.event(parent)
		}
		c.hold[i.n.Links[l].From] = i.aim(l, at, parent)
		return
	}
	j := w.before[i.rng.IntN(len(w.before))]
	c.hold[j] = i.event(parent)
	if i.rng.IntN(2) == 0 {
		c.hold[j] = i.first(c.hold[j], func(at Minute) Minute { return i.end(j, at, parent) })
	}
}

// missed draws a window, and draws again for a while until a plan misses it.
func (i *island) missed(c *candidate) int {
	w := i.waits.windows
	l := w[i.rng.IntN(len(w))]
	for range w {
		if i.n.over(l, c.start, c.finish) > 0 {
			break
		}
		l = w[i.rng.IntN(len(w))]
	}
	return l
}

// aim is the earliest start of a window's beginning by which the window closes
// at a moment or later, with the people of a plan.
func (i *island) aim(l int, to Minute, c *candidate) Minute {
	from := i.n.Links[l].From
	return i.first(to, func(at Minute) Minute { return i.n.arrival(l, at, i.end(from, at, c)) })
}

// event is a moment at which something begins, ends or opens in a plan.
func (i *island) event(c *candidate) Minute {
	k := i.rng.IntN(len(c.start))
	at := c.finish[k]
	switch i.rng.IntN(3) {
	case 0:
		at = c.start[k]
	case 1:
		if who := i.n.who[k]; len(who) > 0 {
			at = i.run.clocks[who[i.rng.IntN(len(who))]].opening(c.start[k])
		}
	}
	if at >= Never {
		return 0
	}
	return at
}

// first is the earliest start that leads to a moment or beyond. Where a minute
// more takes it past closed hours it is a full hour: nobody plans by such a minute.
func (i *island) first(t Minute, leads func(start Minute) Minute) Minute {
	lo, hi := i.n.Now, t
	for lo < hi {
		if mid := lo + (hi-lo)/2; leads(mid) >= t {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	if lo > i.n.Now && leads(lo)-leads(lo-1) > 1 {
		lo = (lo + 59) / 60 * 60
	}
	return lo
}

// end is when j is over if the people who do it in a plan begin it at t.
func (i *island) end(j int, t Minute, c *candidate) Minute {
	a := &i.n.Activities[j]
	if a.Kind == Passive {
		return i.n.clock(a.Calendar).after(t, a.Work)
	}
	end := t
	for _, p := range c.heads[i.n.first[j]:i.n.first[j+1]] {
		end = max(end, i.run.until(p, j, i.run.fit(p, j, t)))
	}
	return end
}
