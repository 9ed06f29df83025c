package project

// decoder turns lists into schedules. It holds the resource profile of the
// schedule it is building and allocates nothing while it does.
type decoder struct {
	net  *net
	free []uint64 // slots by words: free units, guard bits set
	high int      // slots from here on are untouched

	now                    []uint64 // free units at one moment, for parallel
	wait, ready, key, rank []int32  // n each
	count                  [257]int32
}

func newDecoder(n *net) *decoder {
	w := n.lanes.words
	d := &decoder{net: n, free: make([]uint64, (int(n.span)+1)*w), now: make([]uint64, w)}
	for i := range d.free {
		d.free[i] = n.lanes.full[i%w]
	}
	d.wait, d.ready = make([]int32, n.n), make([]int32, n.n)
	d.key, d.rank = make([]int32, n.n), make([]int32, n.n)
	return d
}

func (d *decoder) reset() {
	full := d.net.lanes.full
	free := d.free[:d.high*len(full)]
	d.high = 0
	if len(full) == 1 {
		for i := range free {
			free[i] = full[0]
		}
		return
	}
	for i := range free {
		free[i] = full[i%len(full)]
	}
}

// serial places the activities of a side in the order of the list, which keeps
// precedence, each as early as it fits [Kolisch1996]. It writes their finishes
// and returns the makespan.
func (d *decoder) serial(s *side, order, finish []int32) int32 {
	d.reset()
	last := int32(0)
	for _, j := range order {
		t := int32(0)
		for _, p := range s.pred.of(j) {
			t = max(t, finish[p])
		}
		if d.net.lanes.words == 1 {
			finish[j] = d.place(s.need[j], t, s.dur[j])
		} else {
			finish[j] = d.placeWide(s, j, t)
		}
		last = max(last, finish[j])
	}
	d.high = int(last)
	return last
}

// place books need for dur slots, from t on or as soon after as they are free,
// and returns the end. The window is scanned from its end; a slot that blocks
// moves the window past itself, and what was seen to be free is not looked at
// again.
func (d *decoder) place(need uint64, t, dur int32) int32 {
	free, guard := d.free, d.net.lanes.guard
	seen, end := t, t+dur
	for u := end - 1; u >= seen; u-- {
		if (free[u]-need)&guard != guard {
			t = u + 1
			seen, end = end, t+dur
			u = end
		}
	}
	window := free[t:end]
	for u := range window {
		window[u] -= need
	}
	return end
}

// placeWide is place where one word does not hold all resources.
func (d *decoder) placeWide(s *side, j, t int32) int32 {
	w := int32(d.net.lanes.words)
	need, dur := s.need[j*w:(j+1)*w], s.dur[j]
	seen, end := t, t+dur
	for u := end - 1; u >= seen; u-- {
		if !fits(d.free[u*w:(u+1)*w], need, d.net.lanes.guard) {
			t = u + 1
			seen, end = end, t+dur
			u = end
		}
	}
	for u := t; u < end; u++ {
		for k, units := range need {
			d.free[u*w+int32(k)] -= units
		}
	}
	return end
}

// fits says whether there is room for need in every lane.
func fits(free, need []uint64, guard uint64) bool {
	for k, units := range need {
		if (free[k]-units)&guard != guard {
			return false
		}
	}
	return true
}
