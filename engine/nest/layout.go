package nest

import (
	"math"

	"fettle/geom"
)

// shop is what all layouts of one problem share and none changes.
type shop struct {
	problem *Problem
	forms   []form
	sizes   []pairSize  // forms by forms
	most    int         // edges of the piece that has most
	given   []Placement // where copies lie to begin with
	gap     float64     // least distance of two pieces; half of it is in their boxes and circles
}

// items lists all copies of all pieces.
func (s *shop) items() []item {
	var list []item
	for i := range s.problem.Pieces {
		for k := range max(s.problem.Pieces[i].Count, 1) {
			list = append(list, item{i, k})
		}
	}
	return list
}

// item is one copy of a piece.
type item struct{ piece, copy int }

func (s *shop) size(a, b int) *pairSize { return &s.sizes[a*len(s.forms)+b] }

// spot is how and where a copy lies.
type spot struct {
	turn     *turn
	x, y     float64
	rotation float64 // of a loose turn: what it should be
	mirrored bool
}

// layout is a place for some copies on one sheet, with who is in whose way.
// Loss and weight are n by n matrices, mirrored at their diagonals.
type layout struct {
	*shop
	items  []item
	copies [][]int  // of each piece, as indices of items
	bounds geom.Box // all boxes are kept inside
	floor  terrain  // nil where all of the bounds will do
	spots  []spot
	own    []turn // room for the loose turns of the spots
	fixed  []bool // locked copies: they never move, and have no loss of their own
	boxes  []geom.Box
	crowd  crowd     // the same for the inner loops
	loss   []float64 // 0 where two do not collide
	weight []float64 // 1 or more
	out    []float64 // the loss of each copy with the floor
	pull   []float64 // its weight
}

func newLayout(s *shop, items []item, bounds geom.Box, f terrain) *layout {
	n := len(items)
	l := &layout{
		shop: s, items: items, copies: make([][]int, len(s.forms)), bounds: bounds, floor: f, spots: make([]spot, n), own: make([]turn, n), fixed: make([]bool, n), boxes: make([]geom.Box, n), crowd: newCrowd(n),
		loss: make([]float64, n*n), weight: make([]float64, n*n), out: make([]float64, n), pull: make([]float64, n),
	}
	for i, it := range items {
		l.fixed[i] = it.copy < len(s.problem.Pieces[it.piece].Locked)
		l.copies[it.piece] = append(l.copies[it.piece], i)
	}
	l.forget()
	return l
}

// copyFrom makes l the same as o.
func (l *layout) copyFrom(o *layout) {
	l.bounds = o.bounds
	for i, s := range o.spots {
		l.spots[i] = l.hold(i, s)
	}
	copy(l.boxes, o.boxes)
	copy(l.crowd.flat, o.crowd.flat)
	copy(l.loss, o.loss)
	copy(l.weight, o.weight)
	copy(l.out, o.out)
	copy(l.pull, o.pull)
}

// lossOf returns the row of losses of a copy.
func (l *layout) lossOf(i int) []float64 { return l.loss[i*len(l.items) : (i+1)*len(l.items)] }

// weightOf returns the row of weights of a copy.
func (l *layout) weightOf(i int) []float64 { return l.weight[i*len(l.items) : (i+1)*len(l.items)] }

// total sums the losses of all pairs and with the floor.
func (l *layout) total() float64 {
	sum := 0.0
	for _, v := range l.loss {
		sum += v
	}
	sum /= 2
	for _, v := range l.out {
		sum += v
	}
	return sum
}

// weighted sums the losses of all pairs and with the floor, each times its
// weight.
func (l *layout) weighted() float64 {
	sum := 0.0
	for i, v := range l.loss {
		if v > 0 {
			sum += float64(v * l.weight[i])
		}
	}
	sum /= 2
	for i, v := range l.out {
		sum += float64(v * l.pull[i])
	}
	return sum
}

// burden is what one copy has in the weighted sum.
func (l *layout) burden(i int) float64 {
	sum := float64(l.out[i] * l.pull[i])
	w := l.weightOf(i)
	for j, v := range l.lossOf(i) {
		if v > 0 {
			sum += float64(v * w[j])
		}
	}
	return sum
}

// span returns where the reference point of a turned copy may lie so that its
// box is inside the bounds; false if it fits nowhere.
func (l *layout) span(t *turn) (geom.Box, bool) {
	b := geom.Box{
		Min: l.bounds.Min.Sub(t.box.Min),
		Max: l.bounds.Max.Sub(t.box.Max),
	}
	return b, b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y
}

// hold returns a spot of a copy with its turn in the layout's own room, where
// it is loose.
func (l *layout) hold(i int, s spot) spot {
	if s.turn == nil || !s.turn.loose {
		return s
	}
	return l.spun(l.items[i].piece, &l.own[i], s.rotation, s.mirrored, s.x, s.y)
}

// put lays a copy down, moved into the bounds where it would reach beyond and
// onto the pattern that it keeps to, without asking who is in its way. A locked
// copy stays as given.
func (l *layout) put(i int, s spot) {
	s = l.hold(i, s)
	if !l.fixed[i] {
		b, _ := l.span(s.turn)
		s.x, s.y = max(min(s.x, b.Max.X), b.Min.X), max(min(s.y, b.Max.Y), b.Min.Y)
		s, _ = l.snap(i, s)
	}
	l.spots[i] = s
	l.boxes[i] = at(s.turn.box, s.x, s.y)
	l.crowd.set(i, &l.boxes[i])
}

// away takes a copy off: it is not there yet, and nobody's box meets it.
func (l *layout) away(i int) {
	l.boxes[i].Min.X = math.Inf(1)
	l.crowd.set(i, &l.boxes[i])
}

func at(b geom.Box, x, y float64) geom.Box {
	return geom.Box{Min: geom.Point{X: b.Min.X + x, Y: b.Min.Y + y}, Max: geom.Point{X: b.Max.X + x, Y: b.Max.Y + y}}
}

// right returns the largest x any copy reaches.
func (l *layout) right() float64 {
	x := 0.0
	for i := range l.boxes {
		x = max(x, l.boxes[i].Max.X)
	}
	return x
}
