package nest

import (
	"math"

	"fettle/geom"
)

// depths is how far each node of a grid lies from the nearest edge of the
// hazards: more than 0 where a piece may lie.
type depths struct {
	from   geom.Point
	cell   float64
	per    float64 // 1 / cell
	open   bool    // there is no outline: outside the grid all is clear
	nx, ny int
	at     []float32
	tight  []int32 // how many cells, from the first row and column up to here, are not all clear by the margin
}

// gridCells is how many cells the longer side of the grid has.
const gridCells = 320

// tile is how many nodes a side share one list of nearest edges.
const tile = 8

func newDepths(h *hazards) depths {
	box := h.rings[0].Bounds()
	for _, p := range h.rings[1:] {
		box = box.Union(p.Bounds())
	}
	g := depths{cell: max(box.Width(), box.Height()) / gridCells, open: !h.outer}
	g.per = 1 / g.cell
	g.from = geom.Point{X: box.Min.X - 2*g.cell, Y: box.Min.Y - 2*g.cell}
	g.nx, g.ny = int(box.Width()/g.cell)+6, int(box.Height()/g.cell)+6
	g.at = make([]float32, g.nx*g.ny)
	var near []int
	room := make([]float64, len(h.edges.ax))
	for by := 0; by < g.ny; by += tile {
		for bx := 0; bx < g.nx; bx += tile {
			near = g.nearest(h, bx, by, near[:0], room)
			for y := by; y < min(by+tile, g.ny); y++ {
				for x := bx; x < min(bx+tile, g.nx); x++ {
					g.at[y*g.nx+x] = float32(math.Sqrt(h.edges.nearest(g.node(x, y), near)))
				}
			}
		}
	}
	g.sign(h)
	g.count(h.margin)
	return g
}

// sign turns the distances of nodes that no piece may cover below zero. Two
// neighbours of which one is further than a cell from every edge are alike.
func (g *depths) sign(h *hazards) {
	far := float32(g.cell * 1.001)
	for y := range g.ny {
		free, last := false, float32(0)
		for x := range g.nx {
			d := &g.at[y*g.nx+x]
			if x == 0 || *d <= far && last <= far {
				free = h.free(g.node(x, y))
			}
			if last = *d; !free {
				*d = -*d
			}
		}
	}
}

// count adds up the cells in which some place may not be clear by the margin.
func (g *depths) count(margin float64) {
	g.tight = make([]int32, g.nx*g.ny)
	most := float32(margin + g.cell*math.Sqrt2/2)
	for y := 1; y < g.ny; y++ {
		for x := 1; x < g.nx; x++ {
			k := y*g.nx + x
			n := g.tight[k-1] + g.tight[k-g.nx] - g.tight[k-g.nx-1]
			if min(g.at[k], g.at[k-1], g.at[k-g.nx], g.at[k-g.nx-1]) <= most {
				n++
			}
			g.tight[k] = n
		}
	}
}

// clear says whether all of a box, moved, surely lies clear by the margin; it
// may be so where that is false.
func (g *depths) clear(b geom.Box, x, y float64) bool {
	x, y = x-g.from.X, y-g.from.Y
	x0, y0 := int((b.Min.X+x)*g.per), int((b.Min.Y+y)*g.per)
	x1, y1 := int((b.Max.X+x)*g.per)+1, int((b.Max.Y+y)*g.per)+1
	if b.Min.X+x < 0 || b.Min.Y+y < 0 || x1 >= g.nx || y1 >= g.ny {
		return false
	}
	return g.tight[y1*g.nx+x1]-g.tight[y0*g.nx+x1]-g.tight[y1*g.nx+x0]+g.tight[y0*g.nx+x0] == 0
}

func (g *depths) node(x, y int) geom.Point {
	return geom.Point{X: g.from.X + float64(float64(x)*g.cell), Y: g.from.Y + float64(float64(y)*g.cell)}
}

// nearest lists the edges that can be nearest to a node of a tile; room is
// taken for their distances.
func (g *depths) nearest(h *hazards, bx, by int, list []int, room []float64) []int {
	mid := g.node(bx, by)
	half := g.cell * tile / 2
	mid = geom.Point{X: mid.X + half, Y: mid.Y + half}
	least := math.Inf(1)
	e := &h.edges
	for i, ax := range e.ax {
		room[i] = fromEdge(mid.X, mid.Y, ax, e.ay[i], e.bx[i], e.by[i])
		least = min(least, room[i])
	}
	most := math.Sqrt(least) + 2*math.Sqrt2*half
	for i, d := range room {
		if d <= most*most {
			list = append(list, i)
		}
	}
	return list
}

// nearest is the square of the distance of a place from the nearest of some
// edges.
func (e *edges) nearest(q geom.Point, among []int) float64 {
	least := math.Inf(1)
	for _, i := range among {
		least = min(least, fromEdge(q.X, q.Y, e.ax[i], e.ay[i], e.bx[i], e.by[i]))
	}
	return least
}

// depth is what the grid says of a place, between its nodes; outside of it the
// way back to it counts as well. It is off by one cell at most.
func (g *depths) depth(x, y float64) float64 {
	u, v := (x-g.from.X)*g.per, (y-g.from.Y)*g.per
	if u < 0 || v < 0 || u >= float64(g.nx-1) || v >= float64(g.ny-1) {
		return g.off(u, v)
	}
	i, j := int(u), int(v)
	k := j*g.nx + i
	low, high := g.at[k:k+2:k+2], g.at[k+g.nx:k+g.nx+2:k+g.nx+2]
	fu, fv := float32(u-float64(i)), float32(v-float64(j))
	a, b := low[0]+float32(fu*(low[1]-low[0])), high[0]+float32(fu*(high[1]-high[0]))
	return float64(a + float32(fv*(b-a)))
}

// off is the depth of a place that is not on the grid.
func (g *depths) off(u, v float64) float64 {
	cu, cv := max(0, min(u, float64(g.nx-1)-1e-6)), max(0, min(v, float64(g.ny-1)-1e-6))
	k := int(cv)*g.nx + int(cu)
	u, v = u-cu, v-cv
	d, way := float64(g.at[k]), (float64(u*u)+float64(v*v))*g.cell*g.cell
	if g.open {
		return math.Sqrt(float64(d*d) + way)
	}
	return d - math.Sqrt(way)
}
