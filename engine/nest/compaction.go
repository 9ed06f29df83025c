package nest

import (
	"math"

	"fettle/geom"
)

// compaction moves the pieces of a layout a little, all at once, so that they
// lie clear of one another and reach as little to the right as can be, then
// left, then down [LiMilenkovic1995]. For every two convex parts near each
// other the edge that parts them best is a line which both keep to their side
// of: a linear program. Nothing is turned.
type compaction struct {
	gap    float64  // between pieces
	margin float64  // to walls
	bounds geom.Box // of the pieces
	shut   bool     // the right end of the bounds stays; else it gives way, and comes left where it can
	reach  float64  // how far a piece may move at once
	bodies []body
}

// body is a piece that may move.
type body struct {
	parts [][]geom.Point // convex, where they lie now
	boxes []geom.Box     // of the parts
	at    geom.Point     // how far they were moved there
	box   geom.Box
	still bool
	walls []barrier
}

// barrier is a convex part of where a piece may not lie.
type barrier struct {
	ring []geom.Point
	box  geom.Box
}

// What it costs, where the length costs 1, to reach into another piece, and to
// lie far right or high.
const (
	overlapPrice = 1e4
	settlePull   = 1e-4
)

// When a compaction ends.
const (
	compactSteps = 12   // programs in a row
	compactGain  = 0.9  // a step that leaves more than this share of the overlap is the last
	compactStill = 1e-6 // as is one that moves no piece by more than this share of the reach
	compactClear = 1e-9 // overlaps of less than this share of the reach are none
	nearly       = 1e-2 // of less than this one may be due to the hair that is kept between pieces
)

// run takes steps until nothing moves any more. It says whether all lies clear,
// and by how much the worst falls short.
func (c *compaction) run() (short float64, clear bool) {
	last, none := math.Inf(1), compactClear*c.reach
	for range compactSteps {
		short, moved, ok := c.step()
		switch {
		case !ok:
			return last, false
		case moved < compactStill*c.reach || short > none && short > compactGain*last:
			return short, short <= none
		case c.shut && short <= none:
			return short, true
		}
		last = short
	}
	return last, last <= none
}

// step solves one program and moves the bodies. It returns by how much the
// worst row falls short then, and how far any body moved. Lengths in the
// program are in units of the reach.
func (c *compaction) step() (short, moved float64, ok bool) {
	n := len(c.bodies)
	p := &program{cost: make([]float64, 2*n+1)}
	for i := range 2 * n {
		p.cost[i] = settlePull
	}
	p.cost[2*n] = 1
	if c.shut {
		clear(p.cost)
	}
	c.keepIn(p)
	c.keepApart(p)
	c.keepClear(p)
	x, ok := p.solve()
	if !ok {
		return 0, 0, false
	}
	for i := range p.rows {
		short = max(short, p.rows[i].short(x))
	}
	for i := range c.bodies {
		if b := &c.bodies[i]; !b.still {
			b.move(geom.Point{X: x[2*i], Y: x[2*i+1]}.Scale(c.reach))
			moved = max(moved, math.Abs(x[2*i]), math.Abs(x[2*i+1]))
		}
	}
	if !c.shut {
		c.bounds.Max.X += float64(x[2*n] * c.reach)
	}
	return short * c.reach, moved * c.reach, true
}

func newBody(parts [][]geom.Point, at geom.Point) body {
	b := body{parts: make([][]geom.Point, len(parts)), boxes: make([]geom.Box, len(parts)), box: boundsOf(parts[0])}
	for i, p := range parts {
		b.parts[i], b.boxes[i] = append([]geom.Point{}, p...), boundsOf(p)
		b.box = b.box.Union(b.boxes[i])
	}
	b.move(at)
	return b
}

func (b *body) move(d geom.Point) {
	b.at = b.at.Add(d)
	for k, p := range b.parts {
		for i := range p {
			p[i] = p[i].Add(d)
		}
		b.boxes[k] = at(b.boxes[k], d.X, d.Y)
	}
	b.box = at(b.box, d.X, d.Y)
}

func boundsOf(ring []geom.Point) geom.Box { return geom.Polygon{Outer: ring}.Bounds() }
