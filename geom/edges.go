package geom

// GridEdges are the edges of a polygon in order, with boxes over runs of them,
// so that edges near one another are found without looking at every pair.
// Neighbours in the list should be neighbours in the plane.
type GridEdges struct {
	list  []GridEdge
	boxes []gridBox // a binary tree over runs; node i has children 2i and 2i+1, the root is 1
}

type gridBox struct{ min, max GridPoint }

// run is how many edges a leaf of the tree holds at most.
const run = 4

// NewGridEdges takes the list over and builds the boxes.
func NewGridEdges(list []GridEdge) *GridEdges {
	leaves := 1
	for leaves*run < len(list) {
		leaves *= 2
	}
	g := &GridEdges{list, make([]gridBox, 2*leaves)}
	if len(list) > 0 {
		g.build(1, 0, len(list))
	}
	return g
}

// List returns the edges, to be read only.
func (g *GridEdges) List() []GridEdge { return g.list }

func (g *GridEdges) build(node, from, to int) gridBox {
	var b gridBox
	if to-from <= run {
		b = gridBox{g.list[from].A, g.list[from].A}
		for _, e := range g.list[from:to] {
			b = b.with(e.A).with(e.B)
		}
	} else {
		half := (from + to) / 2
		b = g.build(2*node, from, half)
		c := g.build(2*node+1, half, to)
		b = b.with(c.min).with(c.max)
	}
	g.boxes[node] = b
	return b
}

func (b gridBox) with(p GridPoint) gridBox {
	return gridBox{GridPoint{min(b.min.X, p.X), min(b.min.Y, p.Y)}, GridPoint{max(b.max.X, p.X), max(b.max.Y, p.Y)}}
}

// Near calls visit with the indices of every edge of g and every edge of h
// whose boxes are at most reach() steps apart along both axes; further pairs
// may come too. It asks for the reach again as it goes, and ends where visit
// says false; it says whether it came to the end.
func (g *GridEdges) Near(h *GridEdges, reach func() int64, visit func(i, j int) bool) bool {
	if len(g.list) == 0 || len(h.list) == 0 {
		return true
	}
	return g.near(h, span{1, 0, len(g.list)}, span{1, 0, len(h.list)}, reach, visit)
}

// span is a node of a tree with the edges below it.
type span struct{ node, from, to int }

func (s span) halves() (span, span) {
	half := (s.from + s.to) / 2
	return span{2 * s.node, s.from, half}, span{2*s.node + 1, half, s.to}
}

func (s span) leaf() bool { return s.to-s.from <= run }

func (g *GridEdges) near(h *GridEdges, s, t span, reach func() int64, visit func(i, j int) bool) bool {
	if g.boxes[s.node].gap(h.boxes[t.node]) > reach() {
		return true
	}
	if s.leaf() && t.leaf() {
		return each(s, t, visit)
	}
	if t.leaf() || !s.leaf() && s.to-s.from >= t.to-t.from {
		a, b := s.halves()
		if g.boxes[b.node].gap(h.boxes[t.node]) < g.boxes[a.node].gap(h.boxes[t.node]) {
			a, b = b, a
		}
		return g.near(h, a, t, reach, visit) && g.near(h, b, t, reach, visit)
	}
	a, b := t.halves()
	if g.boxes[s.node].gap(h.boxes[b.node]) < g.boxes[s.node].gap(h.boxes[a.node]) {
		a, b = b, a
	}
	return g.near(h, s, a, reach, visit) && g.near(h, s, b, reach, visit)
}

func each(s, t span, visit func(i, j int) bool) bool {
	for i := s.from; i < s.to; i++ {
		for j := t.from; j < t.to; j++ {
			if !visit(i, j) {
				return false
			}
		}
	}
	return true
}

// gap is the larger of the distances along x and along y; below zero where
// the boxes overlap.
func (b gridBox) gap(c gridBox) int64 {
	return max(b.min.X-c.max.X, c.min.X-b.max.X, b.min.Y-c.max.Y, c.min.Y-b.max.Y)
}

// Distance returns the smallest distance between an edge of g and one of h, in
// steps of the grid, or most where none is nearer, with the indices of the
// pair; -1 where there is none.
func (g *GridEdges) Distance(h *GridEdges, most float64) (d float64, i, j int) {
	d, i, j = most, -1, -1
	g.Near(h, func() int64 { return int64(min(d, 1<<60)) + 1 }, func(a, b int) bool {
		if x := g.list[a].Distance(h.list[b]); x < d {
			d, i, j = x, a, b
		}
		return d > 0
	})
	return d, i, j
}

// Where says whether p lies inside the edges, taken as closed rings, by the
// non-zero rule: 1 inside, 0 on an edge, -1 outside.
func (g *GridEdges) Where(p GridPoint) int {
	if len(g.list) == 0 {
		return -1
	}
	winding, on := g.winding(span{1, 0, len(g.list)}, p)
	switch {
	case on:
		return 0
	case winding != 0:
		return 1
	}
	return -1
}

// winding counts the edges that cross the ray from p towards +x.
func (g *GridEdges) winding(s span, p GridPoint) (winding int, on bool) {
	if b := g.boxes[s.node]; p.Y < b.min.Y || p.Y > b.max.Y || p.X > b.max.X {
		return 0, false
	}
	if !s.leaf() {
		a, b := s.halves()
		if winding, on = g.winding(a, p); on {
			return winding, true
		}
		more, on := g.winding(b, p)
		return winding + more, on
	}
	for _, e := range g.list[s.from:s.to] {
		if e.Holds(p) {
			return winding, true
		}
		side := Side(e.A, e.B, p)
		if e.A.Y <= p.Y && e.B.Y > p.Y && side > 0 {
			winding++
		}
		if e.A.Y > p.Y && e.B.Y <= p.Y && side < 0 {
			winding--
		}
	}
	return winding, false
}
