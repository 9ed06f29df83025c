package project

// book books j from t on or as soon after as it fits and returns its finish.
func (d *decoder) book(s *side, j, t int32) int32 {
	if d.net.lanes.words == 1 {
		return d.place(s.need[j], t, s.dur[j])
	}
	return d.placeWide(s, j, t)
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
