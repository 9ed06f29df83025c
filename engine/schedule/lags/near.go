package lags

import "slices"

// near is a look around the best schedule: all but a few activities keep their
// order among each other.
type near struct {
	on     bool
	free   []bool  // by activity: may go anywhere
	order  []int32 // activities by start in the best schedule
	size   int     // how many are free: grows when that is seen through, shrinks when it is not
	levels int32   // decisions that keep the order
}

// nearby frees some activities: neighbours in time or any.
func (w *work) nearby() {
	s, n := w.s, &w.s.pick.near
	if n.order == nil {
		n.free = make([]bool, s.n)
		for i := range s.n {
			n.order = append(n.order, i)
		}
		n.size = 4
	}
	n.on, n.levels = true, 0
	n.size = min(max(n.size, 2), len(n.order))
	clear(n.free)
	rng := s.pick.rng
	if rng.IntN(3) == 0 {
		rng.Shuffle(len(n.order), func(a, b int) { n.order[a], n.order[b] = n.order[b], n.order[a] })
	} else {
		slices.SortFunc(n.order, func(a, b int32) int {
			if d := w.best[a] - w.best[b]; d != 0 {
				return d
			}
			return int(a - b)
		})
	}
	from := rng.IntN(len(n.order) - n.size + 1)
	for _, i := range n.order[from : from+n.size] {
		n.free[i] = true
	}
}

// keep is the next decision that keeps an order.
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
