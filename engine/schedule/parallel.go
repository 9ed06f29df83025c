package schedule

import "slices"

// parallel generates a schedule as a foreman does: whenever something changes,
// whoever is free and at work takes the first thing in the list that can be
// begun. No decision uses a duration that is not over yet, so the same code
// plans with planned work and plays the odds with drawn work
// [Kolisch1996], [BallestinLeus2009].
func (r *run) parallel() {
	for p := range r.avail {
		r.avail[p] = r.now
	}
	clear(r.used)
	r.planning = false
	r.ventilate()
	r.holding = r.holding[:0]
	r.begin()
	for t := r.now; t < Never; {
		r.moment = t
		r.leave(t)
		for p := range r.avail {
			if r.avail[p] <= t {
				r.avail[p] = r.clocks[p].open(t)
			}
		}
		r.lapse(t)
		next := r.startAll(t)
		for r.lapse(t + 1) {
			next = r.startAll(t)
		}
		t = min(next, r.nextLapse())
	}
}

// leave frees the places of what has finished by t.
func (r *run) leave(t Minute) {
	kept := r.holding[:0]
	for _, j := range r.holding {
		if r.finish[j] > t {
			kept = append(kept, j)
			continue
		}
		if b := r.tied(j); b >= 0 {
			r.vacate(b, j)
			continue
		}
		for _, u := range r.n.Activities[j].Uses {
			r.used[u.Place] -= u.Units
		}
	}
	r.holding = kept
}

// startAll begins what can begin at t, in list order, and returns the next
// moment at which more might.
func (r *run) startAll(t Minute) Minute {
	next := Never
	r.stirred = false
	r.stale()
	for i := r.waiting.next(0); i >= 0; i = r.waiting.next(i + 1) {
		j := r.at[i]
		wake := r.ready[j]
		if wake <= t {
			wake = r.try(j, t)
		}
		switch {
		case wake > t:
			next = min(next, wake)
		case r.misses(j, t): // it waits for the remedy
		default:
			r.waiting.drop(i)
			r.take(j, t)
		}
		if r.stirred { // something earlier in the list may have become ready
			r.stirred, next, i = false, Never, -1
			r.stale()
		}
	}
	return next
}

// try looks for people and room at t. It returns t when j can begin, with the
// people written down, or the next moment worth a look.
func (r *run) try(j int, t Minute) Minute {
	if b := r.tied(j); b >= 0 {
		if r.state[b] == running {
			return r.tryMember(b, j, t)
		}
		return r.tryBlock(b, t)
	}
	for _, u := range r.n.Activities[j].Uses {
		if r.used[u.Place]+u.Units > r.n.Places[u.Place].Units {
			return r.nextLeave()
		}
	}
	if at := r.reserved(j, t); at > t {
		return at
	}
	at := r.pick(j, t)
	if at == t && r.n.aired(j) {
		return r.breathe(j, t)
	}
	return at
}

// pick writes down the first people of Who who can begin j at t, with those it waits for.
func (r *run) pick(j int, t Minute) Minute {
	heads := r.heads[r.n.first[j]:r.n.first[j+1]]
	if len(heads) == 0 {
		return t
	}
	found, wake := 0, Never
	who, waited := r.choices(j)
	for i, p := range who {
		at := r.avail[p]
		if at == t {
			at = r.fit(p, j, t)
		}
		if at == t {
			at = r.kept(p, j, t)
		}
		if at > t && i < waited {
			return at
		}
		if at > t {
			wake = min(wake, at)
			continue
		}
		if heads[found] = p; found+1 == len(heads) {
			return t
		}
		found++
	}
	return wake
}

// take begins j at t with the people written down.
func (r *run) take(j int, t Minute) {
	a := &r.n.Activities[j]
	end := t
	for _, p := range r.heads[r.n.first[j]:r.n.first[j+1]] {
		done := r.until(p, j, t)
		r.avail[p] = r.clocks[p].open(done)
		end = max(end, done)
	}
	if a.Kind == Passive {
		end = r.n.clock(a.Calendar).after(t, r.work[j])
	}
	b := r.tied(j)
	if len(a.Uses) > 0 && end > t {
		r.holding = append(r.holding, j)
		for _, u := range a.Uses {
			if b < 0 {
				r.used[u.Place] += u.Units
			}
		}
	}
	if end > t && r.n.aired(j) {
		r.exhale(j, end)
	}
	r.began(j)
	if b >= 0 {
		r.commit(b, j, end == t)
	}
	r.set(j, t, end)
	if b >= 0 {
		r.stirred = true // what it no longer needs may be wanted earlier in the list
		r.renew()
	}
}

func (r *run) nextLeave() Minute {
	next := Never
	for _, j := range r.holding {
		next = min(next, r.finish[j])
	}
	return next
}

// kept returns t, or the moment of a pinned activity for which person p has to
// be left free: j would still be running when it is due.
func (r *run) kept(p, j int, t Minute) Minute {
	if r.rank(j) < 2 {
		return t
	}
	for _, q := range r.n.pinned {
		if !r.due(q, t) || !slices.Contains(r.n.who[q], p) {
			continue
		}
		if r.clocks[p].after(t, r.n.Activities[j].Work) > r.ready[q] {
			return r.ready[q]
		}
	}
	return t
}

// reserved does for places what kept does for people.
func (r *run) reserved(j int, t Minute) Minute {
	for _, q := range r.n.pinned {
		if r.rank(j) == 2 && r.due(q, t) && (r.bars(q, j, t) || r.spoils(q, j, r.expected(j, t))) {
			return r.ready[q]
		}
	}
	return t
}

// due says that pinned q waits for its moment and for nothing else.
func (r *run) due(q int, t Minute) bool {
	return r.ready[q] > t && r.ready[q] < Never && r.pend[q] == 0
}

// bars says that j, begun at t, could be in a place when q is due there.
func (r *run) bars(q, j int, t Minute) bool {
	a := &r.n.Activities[j]
	for _, u := range a.Uses {
		for _, v := range r.n.Activities[q].Uses {
			if u.Place == v.Place && u.Units+v.Units > r.n.Places[u.Place].Units && r.expected(j, t) > r.ready[q] {
				return true
			}
		}
	}
	return false
}

// expected is when j would end by plan if it began at t.
func (r *run) expected(j int, t Minute) Minute {
	a := &r.n.Activities[j]
	if a.Kind == Passive {
		return r.n.clock(a.Calendar).after(t, a.Work)
	}
	end := t
	for _, p := range r.n.who[j] {
		end = max(end, r.clocks[p].after(t, a.Work))
	}
	return end
}
