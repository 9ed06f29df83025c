package nest

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// What is swapped to get away from a layout that cannot be separated
// [Gardeyn2025].
const (
	escapeSpread = 0.25 // spread of the draw among failed layouts, as a share of their number
	largeShare   = 0.75 // the largest pieces that make up this share of all hull area are large
)

// explorer is a separator that gets away from layouts it cannot separate.
type explorer struct {
	*separator
	large  []int // copies worth swapping
	failed []memory
}

func newExplorer(s *separator) explorer { return explorer{separator: s, large: s.now.largest()} }

// giveUp files the present layout among those that failed at this length, by
// loss. One without loss is one that the exact check refused: it costs a step,
// so that a search that finds nothing else comes to an end.
func (s *explorer) giveUp() {
	var m memory
	m.take(s.now)
	if m.loss == 0 {
		s.lead.judged += StepEvaluations
	}
	i, _ := slices.BinarySearchFunc(s.failed, m.loss, func(m memory, loss float64) int { return cmp.Compare(m.loss, loss) })
	s.failed = slices.Insert(s.failed, i, m)
}

// escape goes back to a failed layout, most likely one of the least loss, and
// swaps two large, unlike pieces in it.
func (s *explorer) escape() {
	s.goBack()
	if a, b, ok := s.twoLarge(); ok {
		s.swap(a, b)
	}
	s.lead.all()
}

func (s *explorer) goBack() {
	share := math.Abs(s.lead.rand.NormFloat64() * escapeSpread)
	s.recall(&s.failed[min(int(share*float64(len(s.failed))), len(s.failed)-1)])
	s.now.forget()
}

// twoLarge draws two large copies, of different pieces where there are any.
func (s *explorer) twoLarge() (a, b int, ok bool) {
	if len(s.large) < 2 {
		return 0, 0, false
	}
	a = s.large[s.lead.rand.IntN(len(s.large))]
	others := make([]int, 0, len(s.large))
	for _, unlike := range [2]bool{true, false} {
		for _, i := range s.large {
			if i != a && (!unlike || s.now.items[i].piece != s.now.items[a].piece) {
				others = append(others, i)
			}
		}
		if len(others) > 0 {
			break
		}
	}
	return a, others[s.lead.rand.IntN(len(others))], true
}

// largest lists the copies that may move and together make up largeShare of all hull
// area, largest first.
func (l *layout) largest() []int {
	hull := func(i int) float64 { return l.forms[l.items[i].piece].hull }
	var order []int
	sum := 0.0
	for i := range l.items {
		if l.fixed[i] {
			continue
		}
		order = append(order, i)
		sum += hull(i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(hull(b), hull(a)) })
	upTo := 0.0
	for n, i := range order {
		if upTo += hull(i); upTo >= largeShare*sum {
			return order[:n+1]
		}
	}
	return order
}

// swap puts each of two copies where the other's largest circle is. Smaller
// pieces that then lie under one of them move to where it came from.
func (s *explorer) swap(a, b int) {
	pa, pb := s.now.middle(a), s.now.middle(b)
	s.now.shift(a, pb.Sub(pa))
	s.now.shift(b, pa.Sub(pb))
	for i := range s.now.items {
		if i == a || i == b || s.now.fixed[i] {
			continue
		}
		switch q := s.now.middle(i); {
		case s.now.covers(a, q):
			s.now.shift(i, pa.Sub(pb))
		case s.now.covers(b, q):
			s.now.shift(i, pb.Sub(pa))
		}
	}
}

// middle returns the middle of a copy's largest circle.
func (l *layout) middle(i int) geom.Point {
	s := &l.spots[i]
	return geom.Point{X: s.x + s.turn.px[0], Y: s.y + s.turn.py[0]}
}

// shift moves a copy by a step, as far as the bounds go.
func (l *layout) shift(i int, d geom.Point) {
	s := l.spots[i]
	s.x += d.X
	s.y += d.Y
	l.put(i, s)
}

// covers says whether a place lies in a copy.
func (l *layout) covers(i int, q geom.Point) bool {
	s := &l.spots[i]
	return holds(s.turn, q.X-s.x, q.Y-s.y)
}
