package lags

import "slices"

// near is a look around the best schedule: all but a few activities keep their
// order among each other.
type near struct {
	on     bool
	free   []bool  // by activity: may go anywhere
	order  []int32 // all activities, in the order they were last taken from
	size   int     // how many are free
	levels int32   // newest level that only keeps an order
}

const (
	looks = 4 // looks in a row
	least = 2 // free activities; more when looks end soon
)

// look frees a few activities some times over, more of them when all there was
// to see has been seen, less when the conflicts ran out.
func (w *work) look() {
	n := &w.s.pick.near
	for range looks {
		if w.proved || w.over() {
			break
		}
		w.loosen()
		w.descend(unit)
		w.s.back(0)
		if w.seen {
			n.size++
		} else {
			n.size--
		}
		w.seen = false
	}
	n.on = false
}

// loosen frees some activities: neighbours in time or, one time in three, any.
func (w *work) loosen() {
	n, rng := &w.s.pick.near, w.s.pick.rng
	if n.order == nil {
		n.free, n.size = make([]bool, w.s.n), 2*least
		for i := range w.s.n {
			n.order = append(n.order, i)
		}
	}
	n.on, n.levels = true, 0
	n.size = min(max(n.size, least), len(n.order))
	if rng.IntN(3) == 0 {
		rng.Shuffle(len(n.order), func(a, b int) { n.order[a], n.order[b] = n.order[b], n.order[a] })
	} else {
		slices.SortFunc(n.order, w.sooner)
	}
	clear(n.free)
	from := rng.IntN(len(n.order) - n.size + 1)
	for _, i := range n.order[from : from+n.size] {
		n.free[i] = true
	}
}

// sooner compares by start in the best schedule.
func (w *work) sooner(a, b int32) int {
	if d := w.best[a] - w.best[b]; d != 0 {
		return d
	}
	return int(a - b)
}

// keep is the next decision that keeps an order; ok is false when all are kept.
func (s *search) keep() (a atom, ok bool) {
	n := &s.pick.near
	for k, o := range s.pairs {
		v := s.n + 1 + int32(k)
		if !s.fixed(v) && !n.free[o[0]] && !n.free[o[1]] {
			n.levels = s.level() + 1
			return s.ordered(v), true
		}
	}
	return a, false
}
