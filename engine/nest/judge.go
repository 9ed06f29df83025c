package nest

import "math"

// judge asks what a place costs. It has the room an evaluation needs, so that
// none allocates.
type judge struct {
	*layout
	near    edges
	waiting []int // copies whose boxes overlap and whose poles do not
	judged  int   // places so far
}

func newJudge(l *layout) *judge {
	room := func() []float64 { return make([]float64, 0, l.most) }
	return &judge{layout: l, near: edges{room(), room(), room(), room()}, waiting: make([]int, 0, len(l.items))}
}

// cost returns the weighted loss copy i would have at a spot. It gives up once
// it passes enough: what it returns then is larger than enough, no more. Those
// whose circles overlap come first: they surely collide, and cheaply.
func (g *judge) cost(i int, s spot, enough float64) float64 {
	g.judged++
	box := at(s.turn.box, s.x, s.y)
	weight := g.weightOf(i)
	g.waiting = g.waiting[:0]
	sum := 0.0
	if g.floor != nil {
		pull := g.pull[i]
		sum = float64(pull * g.floor.loss(g.items[i].piece, s.turn, s.x, s.y, enough/pull))
		if sum > enough {
			return sum
		}
	}
	for j := range g.boxes {
		b := &g.boxes[j]
		if b.Min.X > box.Max.X || b.Max.X < box.Min.X || b.Min.Y > box.Max.Y || b.Max.Y < box.Min.Y || j == i {
			continue
		}
		o := &g.spots[j]
		if !polesMeet(s.turn, o.turn, o.x-s.x, o.y-s.y) {
			g.waiting = append(g.waiting, j)
			continue
		}
		if sum += g.share(i, j, s, weight[j], enough-sum); sum > enough {
			return sum
		}
	}
	for _, j := range g.waiting {
		o := &g.spots[j]
		if !outlinesMeet(s.turn, o.turn, o.x-s.x, o.y-s.y, &g.near) {
			continue
		}
		if sum += g.share(i, j, s, weight[j], enough-sum); sum > enough {
			return sum
		}
	}
	return sum
}

// share is the weighted loss of copy i at a spot with a copy j it collides with.
func (g *judge) share(i, j int, s spot, weight, enough float64) float64 {
	o := &g.spots[j]
	size := g.size(g.items[i].piece, g.items[j].piece)
	return float64(weight * size.loss(s.turn, o.turn, o.x-s.x, o.y-s.y, enough/weight))
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
	if g.floor != nil {
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
	if dx, dy := b.x-a.x, b.y-a.y; g.meet(i, j, dx, dy) {
		v = g.size(g.items[i].piece, g.items[j].piece).loss(a.turn, b.turn, dx, dy, math.Inf(1))
	}
	n := len(g.items)
	g.loss[i*n+j], g.loss[j*n+i] = v, v
}

func (g *judge) meet(i, j int, dx, dy float64) bool {
	p, q := &g.boxes[i], &g.boxes[j]
	if p.Min.X > q.Max.X || p.Max.X < q.Min.X || p.Min.Y > q.Max.Y || p.Max.Y < q.Min.Y {
		return false
	}
	a, b := g.spots[i].turn, g.spots[j].turn
	return polesMeet(a, b, dx, dy) || outlinesMeet(a, b, dx, dy, &g.near)
}
