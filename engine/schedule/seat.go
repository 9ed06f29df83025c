package schedule

// seat tries a block with its first member at t and every other at its earliest
// lag, by planned work: each with people who are free from t until their last
// member is done. It writes people and moments down and returns the last end;
// where it fails, wake is the next moment worth a try, and held says that
// something else that will end is in the way.
func (r *run) seat(v *block, t Minute) (end Minute, ok bool) {
	r.wake, r.held = Never, false
	for r.left = 0; ; r.left++ { // of a crew, the best may not have the hours for all of it: then without them
		if end, ok = r.members(v, t); ok || !r.another(v) {
			return end, ok
		}
	}
}

// another says that a crew in the block has more people to try.
func (r *run) another(v *block) bool {
	for _, k := range v.same {
		if k < 0 {
			continue
		}
		if who, waited := r.choices(v.members[k]); waited == 0 && r.left+1+r.n.heads(v.members[k]) <= len(who) {
			return true
		}
	}
	return false
}

func (r *run) members(v *block, t Minute) (end Minute, ok bool) {
	for i, m := range v.members {
		lo, hi := t, t
		if i > 0 {
			lo, hi = r.slot(v, i)
		}
		from, to := r.sit(v, i, t, lo, hi)
		if from > hi || to >= Never {
			return Never, false
		}
		r.from[m], r.to[m] = from, to
		end = max(end, to)
	}
	return end, true
}

// slot is when a member may start, the members before it standing.
func (r *run) slot(v *block, i int) (lo, hi Minute) {
	lo, hi = r.ready[v.members[i]], Never
	for _, l := range v.in[i] {
		from := r.n.Links[l].From
		lo = max(lo, r.n.arrival(l, r.from[from], r.to[from]))
	}
	for _, l := range v.max[i] {
		from := r.n.Links[l].From
		hi = min(hi, r.n.arrival(l, r.from[from], r.to[from]))
	}
	return lo, hi
}

// sit finds the people of one member and its first start from lo to hi, both
// Never where there is none.
func (r *run) sit(v *block, i int, t, lo, hi Minute) (from, to Minute) {
	m := v.members[i]
	a, s := &r.n.Activities[m], lo
	for s <= hi && s < Never {
		if a.Kind == Passive {
			return s, r.n.clock(a.Calendar).after(s, a.Work)
		}
		heads := r.heads[r.n.first[m]:r.n.first[m+1]]
		found, next := 0, Never
		who, waited := r.candidates(v, i)
		for k, p := range who {
			at := r.fit(p, m, s)
			busy := at == s && !r.free(p, t, s+a.Work)
			if k < waited && (busy || at > s) {
				next = Never
				if at > s {
					next = at
				}
				break
			}
			if at > s {
				next = min(next, at)
				continue
			}
			if busy {
				continue
			}
			heads[found] = p
			if found++; found == len(heads) {
				return s, s + a.Work
			}
		}
		s = next
	}
	if s < Never {
		r.wake = min(r.wake, t+max(1, s-hi))
	}
	who, _ := r.choices(v.members[0])
	for _, p := range who { // a start after the next opening may jump a night later on
		r.wake = min(r.wake, r.clocks[p].opening(t))
	}
	return Never, Never
}

// opening is the next beginning of open time after t.
func (k *clock) opening(t Minute) Minute {
	i := k.index(t)
	if i < len(k.win) && k.win[i].From <= t {
		i++
	}
	if i == len(k.win) {
		return Never
	}
	return k.win[i].From
}

// candidates are who may do a member, and how many of them are waited for:
// those who do the first of its crew.
func (r *run) candidates(v *block, i int) (who []int, waited int) {
	if k := v.same[i]; k >= 0 {
		m := v.members[k]
		return r.heads[r.n.first[m]:r.n.first[m+1]], 0
	}
	who, waited = r.choices(v.members[i])
	for _, k := range v.same {
		if waited == 0 && k == i && r.left+r.n.heads(v.members[i]) <= len(who) {
			return who[r.left:], 0
		}
	}
	return who, waited
}

// free says that p can be kept from t to end for a block. A foreman knows who
// is busy, not until when.
func (r *run) free(p int, t, end Minute) bool {
	if r.planning {
		for _, s := range r.busy[p] {
			if s.from < end && t < s.to {
				r.wake, r.held = min(r.wake, s.to), true
				return false
			}
		}
		return true
	}
	if r.avail[p] > r.clocks[p].open(t) {
		r.wake, r.held = min(r.wake, r.avail[p]), true
		return false
	}
	for _, q := range r.n.pinned {
		if r.due(q, t) && has(r.n.who[q], p) && end > r.ready[q] {
			r.wake, r.held = min(r.wake, r.ready[q]), true
			return false
		}
	}
	return true
}
