package nest

import (
	"math"

	"fettle/geom"
)

// A piece that keeps to the pattern of its material is only ever tried where
// its anchor lies on the lattice: what is drawn, what a step of a descent comes
// to and what is put down goes to the nearest place of it, inside the sheet
// where there is one. Steps shorter than half a repeat leave it where it is.

// snap moves a spot of a copy to the nearest place at which it keeps to the
// pattern of the sheet below; it is false where that has none for it.
func (l *layout) snap(i int, s spot) (spot, bool) {
	m := l.problem.Pieces[l.items[i].piece].Match
	if m == nil {
		return s, true
	}
	if w, ok := l.floor.(*isles); ok {
		on := w.of(s)
		return m.onto(s, w.repeats[on], w.boxes[on])
	}
	return m.onto(s, l.problem.Containers[0].Repeat, l.bounds)
}

// behind returns the first spot of a copy on a roll, from one on to the right,
// at which it keeps to the pattern.
func (l *layout) behind(i int, s spot) (spot, bool) {
	m := l.problem.Pieces[l.items[i].piece].Match
	if m == nil {
		return s, true
	}
	return m.onto(s, l.problem.Containers[0].Repeat, rest(l.bounds, s.x+s.turn.box.Min.X))
}

// rest is what lies right of a place, without an end.
func rest(b geom.Box, x float64) geom.Box {
	b.Min.X, b.Max.X = x, math.Inf(1)
	return b
}

// onto moves a spot onto a pattern, its box inside the given one. It is false
// where that has no place on the pattern.
func (m *Match) onto(s spot, r Repeat, in geom.Box) (spot, bool) {
	b, a, x, y := s.turn.box, s.turn.anchor, true, true
	if m.X {
		s.x, x = onto(s.x, r.X, r.Phase.X-a.X, in.Min.X-b.Min.X, in.Max.X-b.Max.X)
	}
	if m.Y {
		s.y, y = onto(s.y, r.Y, r.Phase.Y-a.Y, in.Min.Y-b.Min.Y, in.Max.Y-b.Max.Y)
	}
	return s, x && y
}

// snapHair is how far outside its bounds a place may be for rounding, as a
// share of the repeat: less than the grid of the exact check can tell.
const snapHair = 1e-12

// onto returns the place phase + k repeat nearest to v, from least to most
// where there is one; otherwise the first from least on, and false. Without a
// repeat any place will do.
func onto(v, repeat, phase, least, most float64) (float64, bool) {
	if repeat == 0 {
		return v, true
	}
	first := math.Ceil((least-phase)/repeat - snapHair)
	last := math.Floor((most-phase)/repeat + snapHair)
	k := max(first, min(math.Round((v-phase)/repeat), last))
	return phase + float64(k*repeat), first <= last
}

// matching returns the turns in which a roll without an end has a place for a
// piece on its pattern, and the least x that it reaches in one of them.
func matching(p *Piece, turns []turn, r Repeat, roll geom.Box) (list []turn, reach float64) {
	reach = math.Inf(1)
	for i := range turns {
		b := turns[i].box
		s, ok := spot{turn: &turns[i], x: roll.Min.X - b.Min.X, y: roll.Min.Y - b.Min.Y}, true
		if p.Match != nil {
			s, ok = p.Match.onto(s, r, rest(roll, roll.Min.X))
		}
		if ok {
			list, reach = append(list, turns[i]), min(reach, s.x+b.Max.X)
		}
	}
	return list, reach
}
