package project

// parallel goes through time: whenever something is over, whatever waits for
// nothing more and fits begins, in the order of the list [Kolisch1996]. All
// that runs has begun already, so what is free now stays free: one slot of the
// profile is enough. It writes the finishes and returns the makespan and how
// many activities stand; limit is as in serial.
func (d *decoder) parallel(s *side, order, finish []int32, limit int32) (last int32, stand int) {
	copy(d.now, d.net.lanes.full)
	for i, j := range order {
		d.rank[j] = int32(i)
	}
	ready, running := d.ready[:0], d.key[:0]
	for j := range int32(s.n) {
		if d.wait[j] = int32(len(s.pred.of(j))); d.wait[j] == 0 {
			ready = put(ready, d.rank[j])
		}
	}
	t := int32(0)
	for len(ready)+len(running) > 0 {
		kept := ready[:0]
		for _, r := range ready {
			j := order[r]
			if !d.begin(s, j) {
				kept = append(kept, r)
				continue
			}
			finish[j] = t + s.dur[j]
			running = append(running, j)
			if stand++; t+s.tail[j] > limit {
				return tooLong, stand
			}
		}
		t = soonest(running, finish)
		ready, running = d.over(s, t, finish, kept, running)
	}
	return t, stand
}

// begin takes what j needs, if it is free. Milestones need nothing.
func (d *decoder) begin(s *side, j int32) bool {
	if s.dur[j] == 0 {
		return true
	}
	w := len(d.now)
	need := s.need[int(j)*w : (int(j)+1)*w]
	if !fits(d.now, need, d.net.lanes.guard) {
		return false
	}
	for k, units := range need {
		d.now[k] -= units
	}
	return true
}

// over ends what finishes at t and puts what waited for nothing else in line.
func (d *decoder) over(s *side, t int32, finish, ready, running []int32) (r, still []int32) {
	still = running[:0]
	for _, j := range running {
		if finish[j] > t {
			still = append(still, j)
			continue
		}
		if w := len(d.now); s.dur[j] > 0 {
			for k, units := range s.need[int(j)*w : (int(j)+1)*w] {
				d.now[k] += units
			}
		}
		for _, to := range s.succ.of(j) {
			if d.wait[to]--; d.wait[to] == 0 {
				ready = put(ready, d.rank[to])
			}
		}
	}
	return ready, still
}

func soonest(running, finish []int32) int32 {
	t := int32(longest)
	for _, j := range running {
		t = min(t, finish[j])
	}
	return t
}

// put inserts a rank into ranks in ascending order.
func put(ranks []int32, r int32) []int32 {
	ranks = append(ranks, r)
	for i := len(ranks) - 1; i > 0 && ranks[i-1] > r; i-- {
		ranks[i-1], ranks[i] = ranks[i], ranks[i-1]
	}
	return ranks
}
