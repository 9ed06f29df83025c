package schedule

// forward pushes the earliest moments through the links.
func (f *frame) forward() {
	n := f.n
	for _, j := range f.order {
		if n.Activities[j].State == Done {
			continue
		}
		t := f.es[j]
		for _, l := range n.in[j] {
			if !f.off[l] {
				t = max(t, f.lags[l].after(f.from(l, f.es, f.ef), n.Links[l].Lag))
			}
		}
		f.steps -= 1 + len(n.in[j])
		f.startFrom(j, t)
	}
}

// from is the moment a link counts from; the start of what has begun is a fact.
func (f *frame) from(link int, start, finish []Minute) Minute {
	l := &f.n.Links[link]
	if !l.FromStart {
		return finish[l.From]
	}
	if a := &f.n.Activities[l.From]; a.State != Open {
		return a.Start
	}
	return start[l.From]
}

// backward pulls the latest moments through the links.
func (f *frame) backward() {
	n := f.n
	for i := len(f.order) - 1; i >= 0; i-- {
		j := f.order[i]
		if n.Activities[j].State == Done {
			continue
		}
		start, finish := f.ls[j], f.lf[j]
		for _, l := range n.out[j] {
			if f.off[l] {
				continue
			}
			k := &n.Links[l]
			if t := f.lags[l].before(f.ls[k.To], k.Lag); !k.FromStart {
				finish = min(finish, t)
			} else if n.Activities[j].State == Open {
				start = min(start, t)
			}
		}
		f.steps -= 1 + len(n.out[j])
		f.startBy(j, min(start, f.latest(j, finish)))
		f.finishBy(j, finish)
	}
}

// keep holds maximum lags: what comes after is not too late, what comes before
// not too early.
func (f *frame) keep() {
	for _, i := range f.wishes {
		l := &f.n.Links[i]
		f.steps--
		f.startBy(l.To, f.lags[i].after(f.from(i, f.ls, f.lf), l.Lag))
		if f.n.Activities[l.From].State == Done {
			continue
		}
		t := f.lags[i].since(f.es[l.To], l.Lag)
		if !l.FromStart {
			t = f.beginFor(l.From, t)
		} else if f.n.Activities[l.From].State != Open {
			continue
		}
		f.startFrom(l.From, t)
	}
}

// startFrom, startBy and finishBy narrow a window.
func (f *frame) startFrom(j int, t Minute) {
	if t <= f.es[j] && f.ef[j] > longAgo {
		return
	}
	f.es[j], f.changed = f.begin(j, max(t, f.es[j])), true
	f.ef[j] = max(f.ef[j], f.soonest(j, f.es[j]))
	f.narrowed(j)
}

func (f *frame) startBy(j int, t Minute) {
	if t < f.ls[j] && f.n.Activities[j].State != Done {
		f.ls[j], f.changed = t, true
		f.lf[j] = min(f.lf[j], f.last(j, t))
		f.narrowed(j)
	}
}

func (f *frame) finishBy(j int, t Minute) {
	if t < f.lf[j] && f.n.Activities[j].State != Done {
		f.lf[j], f.changed = t, true
		f.ls[j] = min(f.ls[j], f.latest(j, t))
		f.narrowed(j)
	}
}

func (f *frame) narrowed(j int) {
	f.failed = f.failed || f.es[j] > f.ls[j] || f.ef[j] > f.lf[j]
}

// begin is the first moment at or after t when as many as j needs are at work;
// whether together is not asked.
func (f *frame) begin(j int, t Minute) Minute {
	heads := f.n.heads(j)
	if heads == 0 {
		return t
	}
	f.row = f.row[:0]
	for _, p := range f.n.Activities[j].Who {
		f.row = insertMinute(f.row, f.fit(p, j, t))
	}
	return f.row[heads-1]
}

// soonest is when j is over at best if it begins at t or later.
func (f *frame) soonest(j int, t Minute) Minute {
	heads := f.n.heads(j)
	if heads == 0 {
		return f.pass(j, t)
	}
	f.row = f.row[:0]
	for _, p := range f.n.Activities[j].Who {
		f.row = insertMinute(f.row, f.until(p, j, f.fit(p, j, t)))
	}
	return f.row[heads-1]
}

// leaves is when the first of those who begin j at t or later is done with it.
func (f *frame) leaves(j int, t Minute) Minute {
	first := Never
	for _, p := range f.n.Activities[j].Who {
		first = min(first, f.until(p, j, f.fit(p, j, t)))
	}
	return first
}

// last is when j is over at the latest if it begins by t.
func (f *frame) last(j int, t Minute) Minute {
	if f.n.heads(j) == 0 {
		return f.pass(j, t)
	}
	end := t
	for _, p := range f.n.Activities[j].Who {
		end = max(end, f.until(p, j, f.fit(p, j, t)))
	}
	return end
}

// latest is the latest beginning of j that may be over by t.
func (f *frame) latest(j int, t Minute) Minute {
	heads := f.n.heads(j)
	if heads == 0 {
		if f.waits[j] == nil {
			return t
		}
		return f.waits[j].before(t, f.work[j])
	}
	f.row = f.row[:0]
	for _, p := range f.n.Activities[j].Who {
		if f.n.Activities[j].Kind == Session {
			f.row = insertMinute(f.row, f.clocks[p].fitBefore(t, f.work[j]))
			continue
		}
		f.row = insertMinute(f.row, f.clocks[p].before(t, f.work[j]))
	}
	return f.row[len(f.row)-heads]
}

// beginFor is the earliest beginning of j that may be over at t or later.
func (f *frame) beginFor(j int, t Minute) Minute {
	switch {
	case f.n.heads(j) == 0 && f.waits[j] == nil:
		return t
	case f.n.heads(j) == 0:
		return f.waits[j].since(t, f.work[j])
	case f.n.Activities[j].Kind == Session:
		return t - f.work[j]
	}
	first := t
	for _, p := range f.n.Activities[j].Who {
		first = min(first, f.clocks[p].since(t, f.work[j]))
	}
	return first
}

func (f *frame) pass(j int, t Minute) Minute {
	if f.waits[j] == nil {
		return t
	}
	return f.waits[j].after(t, f.work[j])
}

func (f *frame) fit(p, j int, t Minute) Minute {
	f.steps--
	if f.n.Activities[j].Kind == Session {
		return f.clocks[p].fit(t, f.work[j])
	}
	return f.clocks[p].open(t)
}

func (f *frame) until(p, j int, t Minute) Minute {
	if t >= Never || f.n.Activities[j].Kind == Session {
		return min(Never, t+f.work[j])
	}
	return f.clocks[p].after(t, f.work[j])
}

// insertMinute keeps a short row sorted.
func insertMinute(row []Minute, t Minute) []Minute {
	row = append(row, t)
	for i := len(row) - 1; i > 0 && row[i-1] > row[i]; i-- {
		row[i-1], row[i] = row[i], row[i-1]
	}
	return row
}
