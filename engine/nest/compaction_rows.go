package nest

import (
	"math"

	"fettle/geom"
)

// relative is how far two bodies come nearer at most in one step, in units of
// the reach: each by √2.
const relative = 2 * math.Sqrt2

// ask adds a row: what is short of apart, a length, is made up by moving b
// along u, and a against it; -1 is nobody.
func (c *compaction) ask(p *program, a, b int, u geom.Point, apart float64) {
	r := row{least: apart / c.reach, price: overlapPrice}
	if b >= 0 && !c.bodies[b].still {
		r.add(2*b, u.X)
		r.add(2*b+1, u.Y)
	}
	if a >= 0 && !c.bodies[a].still {
		r.add(2*a, -u.X)
		r.add(2*a+1, -u.Y)
	}
	p.rows = append(p.rows, r)
}

// keepIn keeps bodies in the bounds, whose right end may move.
func (c *compaction) keepIn(p *program) {
	for i := range c.bodies {
		b := &c.bodies[i]
		if b.still {
			continue
		}
		c.ask(p, -1, i, geom.Point{X: 1}, c.bounds.Min.X-b.box.Min.X)
		c.ask(p, -1, i, geom.Point{Y: 1}, c.bounds.Min.Y-b.box.Min.Y)
		c.ask(p, -1, i, geom.Point{Y: -1}, b.box.Max.Y-c.bounds.Max.Y)
		c.ask(p, -1, i, geom.Point{X: -1}, b.box.Max.X-c.bounds.Max.X)
		if !c.shut {
			p.rows[len(p.rows)-1].add(2*len(c.bodies), 1)
		}
	}
}

// keepApart parts bodies that are near each other.
func (c *compaction) keepApart(p *program) {
	for i := range c.bodies {
		for j := range i {
			a, b := &c.bodies[i], &c.bodies[j]
			if a.still && b.still || !c.near(a.box, b.box, c.gap) {
				continue
			}
			for k, q := range a.parts {
				for l, r := range b.parts {
					if !c.near(a.boxes[k], b.boxes[l], c.gap) {
						continue
					}
					if u, sep := parting(q, r); sep < c.gap+float64(relative*c.reach) {
						c.ask(p, i, j, u, c.gap-sep)
					}
				}
			}
		}
	}
}

// keepClear keeps bodies off their walls.
func (c *compaction) keepClear(p *program) {
	for i := range c.bodies {
		b := &c.bodies[i]
		for k := range b.walls {
			w := &b.walls[k]
			if b.still || !c.near(b.box, w.box, c.margin) {
				continue
			}
			for l, q := range b.parts {
				if !c.near(b.boxes[l], w.box, c.margin) {
					continue
				}
				if u, sep := parting(w.ring, q); sep < c.margin+float64(relative*c.reach) {
					c.ask(p, -1, i, u, c.margin-sep)
				}
			}
		}
	}
}

// near says whether two boxes may come nearer than a gap in one step.
func (c *compaction) near(a, b geom.Box, gap float64) bool {
	gap += 2 * c.reach
	return a.Min.X-gap < b.Max.X && b.Min.X-gap < a.Max.X && a.Min.Y-gap < b.Max.Y && b.Min.Y-gap < a.Max.Y
}

// parting returns the direction, square to an edge of one of two convex rings
// that run anticlockwise, in which b lies furthest beyond a, and how far; below
// zero they overlap.
func parting(a, b []geom.Point) (u geom.Point, sep float64) {
	u, sep = beyondEdge(a, b, math.Inf(-1))
	if v, more := beyondEdge(b, a, sep); more > sep {
		return geom.Point{X: -v.X, Y: -v.Y}, more
	}
	return u, sep
}

// beyondEdge returns the direction out of that edge of a beyond which b lies
// furthest, and how far; least where that is no more.
func beyondEdge(a, b []geom.Point, least float64) (u geom.Point, sep float64) {
	sep = least
	for i, from := range a {
		e := a[(i+1)%len(a)].Sub(from)
		long := math.Hypot(e.X, e.Y)
		out := geom.Point{X: e.Y / long, Y: -e.X / long}
		d := math.Inf(1)
		for _, q := range b {
			if d = min(d, float64(out.X*(q.X-from.X))+float64(out.Y*(q.Y-from.Y))); d <= sep {
				break
			}
		}
		if d > sep {
			sep, u = d, out
		}
	}
	return u, sep
}
