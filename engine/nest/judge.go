package nest

import (
	"math"
	"math/bits"

	"fettle/geom"
)

// judge asks what a place costs. It has the room an evaluation needs, so that
// none allocates.
type judge struct {
	*layout
	near    crop
	met     []uint64 // a bit for each copy whose box may touch
	waiting []doubt  // copies whose boxes overlap and whose circles do not
	judged  int      // places so far
}

// doubt is a copy that may collide, and the loss it then brings.
type doubt struct {
	copy int
	loss float64 // weighted
}

func newJudge(l *layout) *judge {
	return &judge{
		layout: l, near: newCrop(l.most),
		met: make([]uint64, l.crowd.full/word), waiting: make([]doubt, 0, len(l.items)),
	}
}

// cost returns the weighted loss copy i would have at a spot. It gives up once
// it passes enough: what it returns then is larger than enough, no more. Those
// whose circles overlap come first: they surely collide, and cheaply.
func (g *judge) cost(i int, s spot, enough float64) float64 {
	g.judged++
	box := at(s.turn.box, s.x, s.y)
	weight := g.weightOf(i)
	g.waiting = g.waiting[:0]
	piece, cost := g.items[i].piece, 0.0
	if g.floor != nil {
		pull := g.pull[i]
		cost = float64(pull * g.floor.loss(piece, s.turn, s.x, s.y, enough/pull))
		if cost > enough {
			return cost
		}
	}
	half := halves(&box)
	g.crowd.meet(&half, g.met)
	for k, w := range g.met {
		for ; w != 0; w &= w - 1 {
			j := k*word + bits.TrailingZeros64(w)
			if parted(&g.boxes[j], &box) || j == i {
				continue
			}
			o := &g.spots[j]
			size := g.size(piece, g.items[j].piece)
			loss, meet := size.touch(s.turn, o.turn, o.x-s.x, o.y-s.y, (enough-cost)/weight[j])
			loss = float64(loss * weight[j])
			if !meet {
				g.waiting = append(g.waiting, doubt{j, loss})
				continue
			}
			if cost += loss; cost > enough {
				return cost
			}
		}
	}
	for _, d := range g.waiting {
		o := &g.spots[d.copy]
		if !outlinesMeet(s.turn, o.turn, o.x-s.x, o.y-s.y, g.gap, &g.near) {
			continue
		}
		if cost += d.loss; cost > enough {
			return cost
		}
	}
	return cost
}

// move puts a copy down and works out its losses anew.
func (g *judge) move(i int, s spot) {
	g.put(i, s)
	g.under(i)
	for j := range g.items {
		g.pair(i, j)
	}
}

// all works out every loss anew.
func (g *judge) all() {
	for i := range g.items {
		g.under(i)
		for j := range i {
			g.pair(i, j)
		}
	}
}

// under works out the loss of a copy with the floor.
func (g *judge) under(i int) {
	if g.floor != nil && !g.fixed[i] {
		s := &g.spots[i]
		g.out[i] = g.floor.loss(g.items[i].piece, s.turn, s.x, s.y, math.Inf(1))
	}
}

// pair works out the loss of two copies where they lie. The lower index
// always comes first, so that the same two places give the same loss.
func (g *judge) pair(i, j int) {
	if i == j {
		return
	}
	i, j = min(i, j), max(i, j)
	a, b, v := &g.spots[i], &g.spots[j], 0.0
	if dx, dy := b.x-a.x, b.y-a.y; !(g.fixed[i] && g.fixed[j]) && !parted(&g.boxes[i], &g.boxes[j]) {
		size := g.size(g.items[i].piece, g.items[j].piece)
		if loss, meet := size.touch(a.turn, b.turn, dx, dy, far); meet || outlinesMeet(a.turn, b.turn, dx, dy, g.gap, &g.near) {
			v = loss
		}
	}
	n := len(g.items)
	g.loss[i*n+j], g.loss[j*n+i] = v, v
}

// parted says whether two boxes do not even touch.
func parted(p, q *geom.Box) bool {
	return p.Min.X > q.Max.X || p.Max.X < q.Min.X || p.Min.Y > q.Max.Y || p.Max.Y < q.Min.Y
}
