package schedule

// placeBlock is place for a whole block. It takes the block apart when it fits
// nowhere.
func (r *run) placeBlock(b int) {
	v := &r.n.blocks[b]
	head := v.members[0]
	started := r.n.Activities[head].State == Started
	for t := r.ready[head]; t < Never && !(started && t > r.now); {
		_, ok := r.seat(v, t)
		next := r.wake
		if !ok && !r.held && t-r.ready[head] > patience {
			break
		}
		if ok {
			next = r.among(v, t)
		}
		if ok && next == t {
			if !r.missesAny(v, t) {
				r.bookBlock(b, t)
			}
			return
		}
		t = next
	}
	r.loosen(b) // the first member is back in the waiting list
}

// missesAny says that a window from elsewhere has closed when its end in the
// block starts, and calls for the remedies.
func (r *run) missesAny(v *block, t Minute) bool {
	head := v.members[0]
	if r.misses(head, t) {
		return true
	}
	for _, m := range v.members[1:] {
		if r.misses(m, r.from[m]) { // the block is in pieces now
			r.waiting.set(r.pos[head])
			return true
		}
	}
	return false
}

// among returns t when the places and the air of a block are free among what
// is placed, or a later moment to try.
func (r *run) among(v *block, t Minute) Minute {
	for _, u := range v.uses {
		if at := r.booked[u.place].room(t, r.to[v.members[u.last]], r.n.Places[u.place].Units-u.units); at > t {
			return at
		}
	}
	for _, m := range v.members {
		if at := r.lungs(m, r.from[m], r.to[m]); at > r.from[m] {
			return t + at - r.from[m]
		}
	}
	return t
}

func (r *run) bookBlock(b int, t Minute) {
	v := &r.n.blocks[b]
	r.state[b] = running
	for i, m := range v.members {
		for _, p := range r.heads[r.n.first[m]:r.n.first[m+1]] {
			if !r.later(v, i, p) && r.to[m] > t {
				r.busy[p] = insert(r.busy[p], span{t, r.to[m], 1})
			}
		}
	}
	for _, u := range v.uses {
		if end := r.to[v.members[u.last]]; end > t {
			r.booked[u.place] = r.booked[u.place].add(t, end, u.units)
		}
	}
	for _, m := range v.members {
		r.began(m)
		r.set(m, r.from[m], r.to[m])
	}
}

// later says that p does a member after the i-th.
func (r *run) later(v *block, i, p int) bool {
	for _, m := range v.members[i+1:] {
		if r.chose(m, p) {
			return true
		}
	}
	return false
}
