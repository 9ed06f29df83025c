package nest

import (
	"math"

	"fettle/geom"
)

// hazards are where pieces of one demand must not reach: all beyond the
// outline, holes, keep-outs, and zones too poor for them.
type hazards struct {
	rings  []geom.Polygon // the outline first
	edges  edges          // of all rings
	inside []geom.Point   // a corner of each ring but the outline, to be found within a piece
	depth  depths
}

// hazardsOf lists what pieces that ask for a quality must keep clear of in a
// container.
func hazardsOf(c *Container, quality int) *hazards {
	h := &hazards{rings: []geom.Polygon{{Outer: c.Outline.Outer}}}
	bar := func(p geom.Polygon) {
		h.rings = append(h.rings, p)
		h.inside = append(h.inside, p.Outer[0])
	}
	for _, hole := range c.Outline.Holes {
		bar(geom.Polygon{Outer: hole})
	}
	for _, k := range c.KeepOut {
		bar(k)
	}
	for _, z := range c.Zones {
		if !mayLie(quality, z.Quality) {
			bar(z.Shape)
		}
	}
	for _, p := range h.rings {
		for _, ring := range p.Rings() {
			for i, q := range ring {
				h.edges.add(q, ring[(i+1)%len(ring)])
			}
		}
	}
	h.depth = newDepths(h)
	return h
}

// free says whether a place lies in the outline and in none of the rest.
func (h *hazards) free(q geom.Point) bool {
	for i, p := range h.rings {
		if p.Contains(q) == (i > 0) {
			return false
		}
	}
	return true
}

// reached says whether a turned piece at a place comes nearer than a margin to
// what it must keep clear of.
func (h *hazards) reached(t *turn, x, y, margin float64) bool {
	box := at(t.box, x, y)
	w := geom.Box{Min: geom.Point{X: box.Min.X - margin, Y: box.Min.Y - margin}, Max: geom.Point{X: box.Max.X + margin, Y: box.Max.Y + margin}}
	e := &h.edges
	for i, ax := range e.ax {
		ay, bx, by := e.ay[i], e.bx[i], e.by[i]
		if apart(ax, ay, bx, by, &w) {
			continue
		}
		ax, ay, bx, by := ax-x, ay-y, bx-x, by-y
		if t.edges.meet(ax, ay, bx, by) || margin > 0 && t.edges.closer(ax, ay, bx, by, margin) {
			return true
		}
	}
	for _, q := range h.inside {
		if holds(t, q.X-x, q.Y-y) {
			return true
		}
	}
	return !h.free(geom.Point{X: t.edges.ax[0] + x, Y: t.edges.ay[0] + y})
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

// depths is how far each node of a grid lies from the nearest edge of the
// hazards: more than 0 where a piece may lie.
type depths struct {
	from   geom.Point
	cell   float64
	nx, ny int
	at     []float32
}

// gridCells is how many cells the longer side of the grid has.
const gridCells = 320

// tile is how many nodes a side share one list of nearest edges.
const tile = 8

func newDepths(h *hazards) depths {
	box := h.rings[0].Bounds()
	g := depths{cell: max(box.Width(), box.Height()) / gridCells}
	g.from = geom.Point{X: box.Min.X - 2*g.cell, Y: box.Min.Y - 2*g.cell}
	g.nx, g.ny = int(box.Width()/g.cell)+6, int(box.Height()/g.cell)+6
	g.at = make([]float32, g.nx*g.ny)
	var near []int
	for by := 0; by < g.ny; by += tile {
		for bx := 0; bx < g.nx; bx += tile {
			near = g.nearest(h, bx, by, near[:0])
			for y := by; y < min(by+tile, g.ny); y++ {
				for x := bx; x < min(bx+tile, g.nx); x++ {
					g.at[y*g.nx+x] = float32(g.measure(h, g.node(x, y), near))
				}
			}
		}
	}
	return g
}

func (g *depths) node(x, y int) geom.Point {
	return geom.Point{X: g.from.X + float64(float64(x)*g.cell), Y: g.from.Y + float64(float64(y)*g.cell)}
}

// nearest lists the edges that can be nearest to a node of a tile.
func (g *depths) nearest(h *hazards, bx, by int, list []int) []int {
	mid := g.node(bx, by)
	half := g.cell * tile / 2
	mid = geom.Point{X: mid.X + half, Y: mid.Y + half}
	least := math.Inf(1)
	e := &h.edges
	for i, ax := range e.ax {
		least = min(least, fromEdge(mid.X, mid.Y, ax, e.ay[i], e.bx[i], e.by[i]))
	}
	most := math.Sqrt(least) + 2*math.Sqrt2*half
	for i, ax := range e.ax {
		if fromEdge(mid.X, mid.Y, ax, e.ay[i], e.bx[i], e.by[i]) <= most*most {
			list = append(list, i)
		}
	}
	return list
}

func (g *depths) measure(h *hazards, q geom.Point, near []int) float64 {
	least := math.Inf(1)
	e := &h.edges
	for _, i := range near {
		least = min(least, fromEdge(q.X, q.Y, e.ax[i], e.ay[i], e.bx[i], e.by[i]))
	}
	if least = math.Sqrt(least); !h.free(q) {
		return -least
	}
	return least
}

// depth is what the grid says of a place, between its nodes; outside of it the
// way back to it counts as well. It is off by one cell at most.
func (g *depths) depth(x, y float64) float64 {
	u, v := (x-g.from.X)/g.cell, (y-g.from.Y)/g.cell
	cu, cv := max(0, min(u, float64(g.nx-1)-1e-6)), max(0, min(v, float64(g.ny-1)-1e-6))
	i, j := int(cu), int(cv)
	fu, fv := cu-float64(i), cv-float64(j)
	k := j*g.nx + i
	a, b := float64(g.at[k]), float64(g.at[k+1])
	c, d := float64(g.at[k+g.nx]), float64(g.at[k+g.nx+1])
	low, high := a+float64(fu*(b-a)), c+float64(fu*(d-c))
	out := low + float64(fv*(high-low))
	if u != cu || v != cv {
		out -= g.cell * math.Hypot(u-cu, v-cv)
	}
	return out
}
