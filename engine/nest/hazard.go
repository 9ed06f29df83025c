package nest

import (
	"math"

	"fettle/geom"
)

// hazards are what some pieces, or parts of them, must keep clear of by a
// margin: all beyond the outline, holes, keep-outs, and zones too poor for
// them.
type hazards struct {
	outer  bool           // the first ring is the outline
	rings  []geom.Polygon // the outline first
	edges  edges          // of all rings, one after the other
	clumps []geom.Box     // of every clump edges
	inside []geom.Point   // a corner of each ring but the outline, to be found within a piece
	margin float64
	depth  depths
	walls  []barrier // of all rings; nil where they have too many corners
}

// hazardsOf lists what a demand has pieces keep clear of in a container; nil
// where that is nothing.
func hazardsOf(c *Container, d demand) *hazards {
	h := &hazards{margin: d.margin}
	bar := func(p geom.Polygon) {
		h.rings = append(h.rings, p)
		h.inside = append(h.inside, p.Outer[0])
	}
	if d.outer {
		if h.outer = len(c.Outline.Outer) > 0; h.outer {
			h.rings = append(h.rings, geom.Polygon{Outer: c.Outline.Outer})
		}
		for _, hole := range c.Outline.Holes {
			bar(geom.Polygon{Outer: hole})
		}
		for _, k := range c.KeepOut {
			bar(k)
		}
	}
	for k, z := range c.Zones {
		if d.barred[k] {
			bar(z.Shape)
		}
	}
	if len(h.rings) == 0 {
		return nil
	}
	for _, p := range h.rings {
		for _, ring := range p.Rings() {
			for i, q := range ring {
				h.edges.add(q, ring[(i+1)%len(ring)])
			}
		}
	}
	h.clumps = h.edges.clump(nil, h.margin)
	h.depth = newDepths(h)
	h.walls = h.convex()
	return h
}

func around(b geom.Box, d float64) geom.Box {
	return geom.Box{Min: geom.Point{X: b.Min.X - d, Y: b.Min.Y - d}, Max: geom.Point{X: b.Max.X + d, Y: b.Max.Y + d}}
}

// free says whether a place lies in the outline and in none of the rest.
func (h *hazards) free(q geom.Point) bool {
	for i, p := range h.rings {
		if p.Contains(q) == (i > 0 || !h.outer) {
			return false
		}
	}
	return true
}

// loss is explained at floor; around is what the circles have been given more.
func (h *hazards) loss(f *form, t *turn, x, y, around, enough float64) float64 {
	g := &h.depth
	if g.clear(t.box, x, y) {
		return 0
	}
	lambda := f.reach * f.reach
	eps := lossFineness * f.diameter
	least := eps / (2 + lossTail)
	root := enough / (2 * lambda)
	most := (float64(root*root) - float64(eps*eps)) / math.Pi
	sum, deep, near := 0.0, false, h.margin-around
	px, py := t.px[:len(t.pr)], t.py[:len(t.pr)]
	for i, r := range t.pr {
		d := r + near - g.depth(px[i]+x, py[i]+y)
		if d <= -lossTail*eps {
			continue
		}
		deep = deep || d > g.cell
		if d < eps {
			d = eps * eps / (2*eps - d)
		}
		if sum += float64((d - least) * r); deep && sum > most {
			break
		}
	}
	if !deep && !h.reached(t, x, y) {
		return 0
	}
	return 2 * math.Sqrt(float64(math.Pi*sum)+float64(eps*eps)) * lambda
}

// reached says whether a turned piece at a place comes nearer than the margin
// to what it must keep clear of. Most edges are told by the depth of their
// middles.
func (h *hazards) reached(t *turn, x, y float64) bool {
	g := &h.depth
	e := &t.edges
	for i, ax := range e.ax {
		ax, ay, bx, by := ax+x, e.ay[i]+y, e.bx[i]+x, e.by[i]+y
		spare := g.depth((ax+bx)/2, (ay+by)/2) - h.margin
		if spare < -g.cell {
			return true
		}
		spare -= g.cell
		if ux, uy := bx-ax, by-ay; spare > 0 && float64(4*spare*spare) > float64(ux*ux)+float64(uy*uy) {
			continue
		}
		if h.edgeReached(ax, ay, bx, by) {
			return true
		}
	}
	for _, q := range h.inside {
		if holds(t, q.X-x, q.Y-y) {
			return true
		}
	}
	q := geom.Point{X: e.ax[0] + x, Y: e.ay[0] + y}
	if d := g.depth(q.X, q.Y); d > g.cell || d < -g.cell {
		return d < 0
	}
	return !h.free(q)
}

// edgeReached says whether an edge comes nearer than the margin to one of the
// hazards.
func (h *hazards) edgeReached(ax, ay, bx, by float64) bool {
	w := boxOf(ax, ay, bx, by)
	for k := range h.clumps {
		if parted(&h.clumps[k], w) {
			continue
		}
		e := h.edges.part(k*clump, min((k+1)*clump, len(h.edges.ax)))
		if e.meet(ax, ay, bx, by) || h.margin > 0 && e.closer(ax, ay, bx, by, h.margin) {
			return true
		}
	}
	return false
}

// part is the edges from one up to another.
func (e *edges) part(from, to int) edges {
	return edges{e.ax[from:to], e.ay[from:to], e.bx[from:to], e.by[from:to]}
}

// closer says whether an edge comes nearer than a distance to one of e, where
// it does not meet any: one of the four ends is nearest then.
func (e *edges) closer(ax, ay, bx, by, d float64) bool {
	w := geom.Box{Min: geom.Point{X: min(ax, bx) - d, Y: min(ay, by) - d}, Max: geom.Point{X: max(ax, bx) + d, Y: max(ay, by) + d}}
	d *= d
	for i, ex := range e.ax {
		ey, fx, fy := e.ay[i], e.bx[i], e.by[i]
		if apart(ex, ey, fx, fy, &w) {
			continue
		}
		if fromEdge(ax, ay, ex, ey, fx, fy) < d || fromEdge(bx, by, ex, ey, fx, fy) < d ||
			fromEdge(ex, ey, ax, ay, bx, by) < d || fromEdge(fx, fy, ax, ay, bx, by) < d {
			return true
		}
	}
	return false
}

// fromEdge is the square of the distance of a place from an edge.
func fromEdge(x, y, ax, ay, bx, by float64) float64 {
	ux, uy, vx, vy := bx-ax, by-ay, x-ax, y-ay
	t := 0.0
	if long := float64(ux*ux) + float64(uy*uy); long > 0 {
		t = max(0, min(1, (float64(ux*vx)+float64(uy*vy))/long))
	}
	dx, dy := vx-float64(t*ux), vy-float64(t*uy)
	return float64(dx*dx) + float64(dy*dy)
}
