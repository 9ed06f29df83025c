package nest

import (
	"fettle/geom"
)

// shop is what all layouts of one problem share and none changes.
type shop struct {
	problem  *Problem
	forms    []form
	items    []item     // the copies to place
	sizes    []pairSize // forms by forms
	height   float64    // of the strip
	margin   float64
	area     float64 // of all copies
	shortest float64 // no strip can be
	most     int     // edges of the piece that has most
	large    []int   // copies worth swapping
}

// item is one copy of a piece.
type item struct{ piece, copy int }

func (s *shop) size(a, b int) *pairSize { return &s.sizes[a*len(s.forms)+b] }

// spot is how and where a copy lies.
type spot struct {
	turn *turn
	x, y float64
}

// layout is one place for every copy, with who is in whose way. Loss and
// weight are n by n matrices, mirrored at their diagonals.
type layout struct {
	*shop
	length float64 // of the strip now
	spots  []spot
	boxes  []geom.Box
	loss   []float64 // 0 where two do not collide
	weight []float64 // 1 or more
}

func newLayout(s *shop) *layout {
	n := len(s.items)
	l := &layout{shop: s, spots: make([]spot, n), boxes: make([]geom.Box, n), loss: make([]float64, n*n), weight: make([]float64, n*n)}
	l.forget()
	return l
}

// copyFrom makes l the same as o.
func (l *layout) copyFrom(o *layout) {
	l.length = o.length
	copy(l.spots, o.spots)
	copy(l.boxes, o.boxes)
	copy(l.loss, o.loss)
	copy(l.weight, o.weight)
}

// lossOf returns the row of losses of a copy.
func (l *layout) lossOf(i int) []float64 { return l.loss[i*len(l.items) : (i+1)*len(l.items)] }

// weightOf returns the row of weights of a copy.
func (l *layout) weightOf(i int) []float64 { return l.weight[i*len(l.items) : (i+1)*len(l.items)] }

// total sums the losses of all pairs.
func (l *layout) total() float64 {
	sum := 0.0
	for _, v := range l.loss {
		sum += v
	}
	return sum / 2
}

// weighted sums the losses of all pairs, each times its weight.
func (l *layout) weighted() float64 {
	sum := 0.0
	for i, v := range l.loss {
		if v > 0 {
			sum += float64(v * l.weight[i])
		}
	}
	return sum / 2
}

// burden is what the pairs of one copy have in the weighted sum.
func (l *layout) burden(i int) float64 {
	sum := 0.0
	w := l.weightOf(i)
	for j, v := range l.lossOf(i) {
		if v > 0 {
			sum += float64(v * w[j])
		}
	}
	return sum
}

// span returns where the reference point of a turned copy may lie so that its
// box is inside the strip; false if it fits nowhere.
func (l *layout) span(t *turn) (geom.Box, bool) {
	b := geom.Box{
		Min: geom.Point{X: l.margin - t.box.Min.X, Y: l.margin - t.box.Min.Y},
		Max: geom.Point{X: l.length - l.margin - t.box.Max.X, Y: l.height - l.margin - t.box.Max.Y},
	}
	return b, b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y
}

// put lays a copy down, moved into the strip where it would reach beyond,
// without asking who is in its way.
func (l *layout) put(i int, s spot) {
	b, _ := l.span(s.turn)
	s.x, s.y = max(min(s.x, b.Max.X), b.Min.X), max(min(s.y, b.Max.Y), b.Min.Y)
	l.spots[i] = s
	l.boxes[i] = at(s.turn.box, s.x, s.y)
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
