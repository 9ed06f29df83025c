package nest

import (
	"math"

	"fettle/geom"
)

// sheet is one of the hides or sheets that may be used.
type sheet struct {
	container, number int
	box               geom.Box // pieces stay inside
	under             terrain  // nil where all of the box will do
	area, cost        float64
	free              float64 // area on which some piece may lie
}

// sheets lists what there is to cut from, of each container no more than there
// are copies to lay, or than the last one on which some lie from the beginning.
func (s *shop) sheets() []sheet {
	var list []sheet
	for i := range s.problem.Containers {
		c := &s.problem.Containers[i]
		one := sheet{container: i, area: c.Outline.Area(), cost: c.Cost}
		if one.cost == 0 {
			one.cost = one.area
		}
		one.box, one.under = s.land(i)
		most := len(s.items())
		for _, at := range s.given {
			if at.Container == i {
				most = max(most, at.Sheet+1)
			}
		}
		for one.number = range min(max(c.Count, 1), most) {
			list = append(list, one)
		}
	}
	return list
}

// land returns what pieces lie on in one container: nothing where all of a
// rectangle will do.
func (s *shop) land(i int) (geom.Box, terrain) {
	f := newFloor(s, i)
	if c := &s.problem.Containers[i]; f.plain(c) {
		return f.bounds(), nil
	}
	return f.bounds(), f
}

// isles are several sheets side by side, as the floor of one layout: a piece
// lies on the one its middle is in.
type isles struct {
	forms   []form
	boxes   []geom.Box // as they lie side by side
	shift   []float64  // what was added to x
	under   []terrain
	repeats []Repeat // patterns as they lie side by side
	home    []int    // by copy of the layout: the isle it has to be on, or unlaid
}

// isleGap is how far apart the boxes of isles lie, as a share of the height of
// the first.
const isleGap = 0.01

func newIsles(s *shop, sheets []sheet, copies int) (*isles, geom.Box) {
	w := &isles{forms: s.forms, home: make([]int, copies)}
	for i := range w.home {
		w.home[i] = unlaid
	}
	bounds, x := sheets[0].box, sheets[0].box.Min.X
	for _, one := range sheets {
		d := x - one.box.Min.X
		w.boxes, w.shift, w.under = append(w.boxes, at(one.box, d, 0)), append(w.shift, d), append(w.under, one.under)
		r := s.problem.Containers[one.container].Repeat
		r.Phase.X += d
		w.repeats = append(w.repeats, r)
		bounds = bounds.Union(at(one.box, d, 0))
		x += one.box.Width() + float64(isleGap*sheets[0].box.Height())
	}
	return w, bounds
}

// isle says on which one a place is.
func (w *isles) isle(x float64) int {
	for i := range w.boxes[1:] {
		if x < (w.boxes[i].Max.X+w.boxes[i+1].Min.X)/2 {
			return i
		}
	}
	return len(w.boxes) - 1
}

// of says on which isle a copy lies.
func (w *isles) of(s spot) int { return w.isle(s.x + (s.turn.box.Min.X+s.turn.box.Max.X)/2) }

// loss is that of the isle below, and for what of the piece's box reaches
// beyond its box 2 √(a + a₀/10,000) λ, a being that area and a₀ all of the
// piece's box [Gardeyn2025].
func (w *isles) loss(piece int, t *turn, x, y, enough float64) float64 {
	i := w.of(spot{turn: t, x: x, y: y})
	sum := beyond(at(t.box, x, y), w.boxes[i], w.forms[piece].reach)
	if w.under[i] != nil && sum <= enough {
		sum += w.under[i].loss(piece, t, x-w.shift[i], y, enough-sum)
	}
	return sum
}

// heading is that of the isle below.
func (w *isles) heading(x, y float64) float64 {
	if i := w.isle(x); w.under[i] != nil {
		return w.under[i].heading(x-w.shift[i], y)
	}
	return 0
}

// beyond is the loss for a box that reaches beyond another.
func beyond(b, in geom.Box, reach float64) float64 {
	width := min(b.Max.X, in.Max.X) - max(b.Min.X, in.Min.X)
	height := min(b.Max.Y, in.Max.Y) - max(b.Min.Y, in.Min.Y)
	if width >= b.Width() && height >= b.Height() || in.Min.X <= b.Min.X && in.Min.Y <= b.Min.Y && b.Max.X <= in.Max.X && b.Max.Y <= in.Max.Y {
		return 0
	}
	all := b.Width() * b.Height()
	return 2 * math.Sqrt(all-float64(max(width, 0)*max(height, 0))+float64(all*1e-4)) * float64(reach*reach)
}

// anywhere is where a copy may look for a place: on any isle, one as likely as
// another, or on its own.
func (k *seeker) anywhere(i int) geom.Box {
	w, ok := k.floor.(*isles)
	switch {
	case !ok:
		return k.bounds
	case w.home[i] != unlaid:
		return w.boxes[w.home[i]]
	case len(w.boxes) == 1:
		return w.boxes[0]
	}
	return w.boxes[k.rand.IntN(len(w.boxes))]
}
