package schedule

// serial generates a schedule by placing one activity after the other, in list
// order as far as links allow, each at its earliest feasible start; it may fill
// gaps before what stands already. It looks ahead, so it plans but never plays
// the odds [Kolisch1996].
func (r *run) serial() {
	for p := range r.busy {
		r.busy[p] = r.busy[p][:0]
	}
	for q := range r.booked {
		r.booked[q] = r.booked[q].clear()
	}
	r.planning = true
	r.begin()
	for i := r.waiting.next(0); i >= 0; i = r.waiting.next(0) {
		r.waiting.drop(i)
		if b := r.tied(r.at[i]); b >= 0 {
			r.placeBlock(b)
		} else {
			r.place(r.at[i])
		}
	}
}

// place gives j its earliest start among what is placed already.
func (r *run) place(j int) {
	t := r.ready[j]
	for t < Never {
		var end Minute
		if t, end = r.meet(j, t); t >= Never {
			break
		}
		at := max(r.room(j, t, end), r.lungs(j, t, end))
		if at == t && r.misses(j, t) {
			return
		}
		if at == t {
			r.book(j, t, end)
			r.began(j)
			r.set(j, t, end)
			return
		}
		t = at
	}
	r.set(j, Never, Never)
}

// meet is the first moment at or after t when enough people can begin j
// together and run it through, and when the last of them is done.
func (r *run) meet(j int, t Minute) (start, end Minute) {
	a := &r.n.Activities[j]
	heads := r.heads[r.n.first[j]:r.n.first[j+1]]
	if a.Kind == Passive {
		return t, r.n.clock(a.Calendar).after(t, r.work[j])
	}
	for t < Never {
		found, wake := 0, Never
		end = t
		who, waited := r.choices(j)
		for i, p := range who {
			at := r.gap(p, j, t)
			if at > t && i < waited {
				wake = at
				break
			}
			if at > t {
				wake = min(wake, at)
				continue
			}
			heads[found], end = p, max(end, r.until(p, j, t))
			if found++; found == len(heads) {
				return t, end
			}
		}
		t = wake
	}
	return Never, Never
}

// gap is the first moment at or after t when p can begin j and be done with it
// before the next thing p is booked for.
func (r *run) gap(p, j int, t Minute) Minute {
	t = r.fit(p, j, t)
	for _, s := range r.busy[p] {
		if t >= Never || s.to <= t {
			continue
		}
		if s.from >= r.until(p, j, t) {
			break
		}
		t = r.fit(p, j, s.to)
	}
	return t
}

// room returns t when every place j uses has room from t to end, or the next
// moment at which one of them may.
func (r *run) room(j int, t, end Minute) Minute {
	for _, u := range r.n.Activities[j].Uses {
		if at := r.booked[u.Place].room(t, end, r.n.Places[u.Place].Units-u.Units); at > t {
			return at
		}
	}
	return t
}

func (r *run) book(j int, t, end Minute) {
	if end == t {
		return
	}
	for _, p := range r.heads[r.n.first[j]:r.n.first[j+1]] {
		r.busy[p] = insert(r.busy[p], span{t, r.until(p, j, t), 1})
	}
	for _, u := range r.n.Activities[j].Uses {
		r.booked[u.Place] = r.booked[u.Place].add(t, end, u.Units)
	}
}

// insert keeps the spans of a person in order of time.
func insert(busy []span, s span) []span {
	busy = append(busy, s)
	for i := len(busy) - 1; i > 0 && busy[i-1].from > s.from; i-- {
		busy[i-1], busy[i] = busy[i], busy[i-1]
	}
	return busy
}
