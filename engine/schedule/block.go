package schedule

// The states of a block in a run.
const (
	standing = iota // not begun
	running         // begun: its people, places and air are kept for it
	loose           // taken apart: its members are placed one by one
)

// patience is how long, in minutes, a block waits for a window that holds it.
const patience = 14 * 1440

// knot begins with all blocks whole: the first member waits for what any of
// them waits for, and until it is over, for nobody knows its end before.
func (r *run) knot() {
	for b := range r.n.blocks {
		v := &r.n.blocks[b]
		if r.state[b] = standing; v.never {
			r.state[b] = loose
			continue
		}
		head := v.members[0]
		r.pend[head] += len(v.outside)
		for _, m := range v.members[1:] {
			if r.n.Activities[m].Late.given() {
				r.ready[head] = max(r.ready[head], r.release[m])
			}
		}
	}
}

// ungate settles a link from elsewhere to a member after the first.
func (r *run) ungate(l int) {
	b := r.n.gate[l]
	if b < 0 || r.state[b] != standing {
		return
	}
	head, k := r.n.blocks[b].members[0], &r.n.Links[l]
	if at := r.finish[k.From]; !r.skipped[k.From] {
		if k.FromStart {
			at = r.start[k.From]
		}
		r.ready[head] = max(r.ready[head], at)
	}
	if r.pend[head]--; r.pend[head] == 0 {
		r.arrive(head)
	}
}

// tied is the block that j is part of and that is not taken apart, or -1.
func (r *run) tied(j int) int {
	if r.n.part == nil || r.n.part[j] < 0 || r.state[r.n.part[j]] == loose {
		return -1
	}
	return r.n.part[j]
}

// tryBlock is try for a block. One that finds no window is taken
// apart, and so is one that has started and cannot wait.
func (r *run) tryBlock(b int, t Minute) Minute {
	v := &r.n.blocks[b]
	head := v.members[0]
	at := r.fitsIn(v, t)
	if at > t && (!r.held && (at >= Never || t-r.ready[head] > patience) || r.n.Activities[head].State == Started) {
		r.loosen(b)
		return r.try(head, t)
	}
	return at
}

// fitsIn looks for people, room, pins and air for all of a block at t.
func (r *run) fitsIn(v *block, t Minute) Minute {
	for _, u := range v.uses {
		if r.used[u.place]+u.units > r.n.Places[u.place].Units {
			r.held = true
			return r.nextLeave()
		}
	}
	end, ok := r.seat(v, t)
	if !ok {
		return r.wake
	}
	for _, q := range r.n.pinned {
		if r.due(q, t) && end > r.ready[q] && r.inWay(v, q, end) {
			r.held = true
			return r.ready[q]
		}
	}
	wake := t
	if v.aired {
		r.held = true
		for _, m := range v.members {
			wake = max(wake, r.breathe(m, t))
		}
	}
	return wake
}

// inWay says that a block that runs until end leaves no room or air for pinned q.
func (r *run) inWay(v *block, q int, end Minute) bool {
	for _, u := range v.uses {
		for _, k := range r.n.Activities[q].Uses {
			if u.place == k.Place && u.units+k.Units > r.n.Places[u.place].Units {
				return true
			}
		}
	}
	for _, m := range v.members {
		if r.spoils(q, m, end) {
			return true
		}
	}
	return false
}

// tryMember begins the next member of a running block as soon as its people,
// who are kept for it, are at work.
func (r *run) tryMember(b, j int, t Minute) Minute {
	wake := t
	for _, p := range r.heads[r.n.first[j]:r.n.first[j+1]] {
		wake = max(wake, r.fit(p, j, t))
	}
	if wake >= Never {
		r.loosen(b)
		r.stirred = true
	}
	return wake
}

// commit keeps the people and places of a block from the start of its first
// member j on, until the last member that needs them; a member may be over at
// once.
func (r *run) commit(b, j int, over bool) {
	v := &r.n.blocks[b]
	if j == v.members[0] {
		r.state[b] = running
		for _, u := range v.uses {
			r.used[u.place] += u.units
		}
		for _, m := range v.members {
			r.settleCrew(m)
		}
	}
	for _, m := range v.members {
		if m == j || r.start[m] < Never {
			continue
		}
		for _, p := range r.heads[r.n.first[m]:r.n.first[m+1]] {
			r.avail[p] = Never
		}
	}
	if over {
		r.vacate(b, j)
	}
}

// vacate frees the places of which member j was the last user.
func (r *run) vacate(b, j int) {
	v := &r.n.blocks[b]
	for _, u := range v.uses {
		if v.members[u.last] == j {
			r.used[u.place] -= u.units
		}
	}
}

// loosen takes a block apart. What has begun goes on; the people and places
// that were kept for the rest are let go.
func (r *run) loosen(b int) {
	v := &r.n.blocks[b]
	was, head := r.state[b], v.members[0]
	r.state[b] = loose
	if was == standing {
		for i, m := range v.members[1:] {
			r.pend[head] -= r.pend[m] - len(v.in[i+1])
		}
		if r.pend[head] == 0 {
			r.arrive(head)
		}
		return
	}
	for _, m := range v.members {
		if r.start[m] < Never {
			continue
		}
		for _, p := range r.heads[r.n.first[m]:r.n.first[m+1]] {
			r.avail[p] = r.clocks[p].open(max(r.moment, r.through(v, p)))
		}
		r.unsettleCrew(m)
	}
	for _, u := range v.uses {
		if last := v.members[u.last]; r.start[last] >= Never || has(r.holding, last) {
			r.used[u.place] -= u.units
		}
	}
	for _, j := range r.holding {
		if r.n.part[j] == b {
			for _, u := range r.n.Activities[j].Uses {
				r.used[u.Place] += u.Units
			}
		}
	}
	r.renew()
}

// through is when p is done with the members that have begun.
func (r *run) through(v *block, p int) Minute {
	end := r.now
	for _, m := range v.members {
		if r.start[m] < Never && r.chose(m, p) {
			end = max(end, r.until(p, m, r.resume[m]))
		}
	}
	return end
}

// renew makes the air anew from what has begun and from the blocks that run.
func (r *run) renew() {
	for c := range r.air {
		v := &r.air[c]
		v.dirty[0], v.clean[0] = r.filled(r.n.Clashes[c].Dirty), r.filled(r.n.Clashes[c].Clean)
	}
}

// filled is until when some of a clash's activities, facts apart, fill the air.
func (r *run) filled(side []int) Minute {
	end := noDust
	for _, j := range side {
		if r.n.Activities[j].State != Open || r.skipped[j] {
			continue
		}
		if b := r.tied(j); r.start[j] < Never && r.finish[j] > r.resume[j] || r.start[j] >= Never && b >= 0 && r.state[b] == running {
			end = max(end, r.finish[j])
		}
	}
	return end
}
