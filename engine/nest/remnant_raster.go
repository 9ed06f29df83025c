package nest

import (
	"cmp"
	"math"
	"slices"

	"fettle/geom"
)

// The largest rectangle along the axes is looked for among whole cells of a
// grid, row by row over the heights of the free columns; the best are then
// grown, side by side, to what their walls leave.
const (
	rasterCells = 192 // on the longer side
	rasterGrown = 3   // how many rectangles of cells are grown
)

// raster says of the cells of a grid whether all of each is clear.
type raster struct {
	min     geom.Point
	cell    float64
	nx, ny  int
	blocked []bool // row by row
}

// largest returns the largest clear rectangle found; of no area where there is
// none.
func (c *clutter) largest() geom.Box {
	r := newRaster(c)
	best := geom.Box{}
	for _, b := range r.rectangles() {
		if g := c.grown(b, reachCells*r.cell); extent(g) > extent(best) {
			best = g
		}
	}
	return best
}

// grown returns a clear rectangle grown by up to reach on each side, beginning
// along x or along y.
func (c *clutter) grown(b geom.Box, reach float64) geom.Box {
	best, near := b, c.near(b.Grow(reach))
	for _, first := range [2]int{0, 2} {
		if g := near.grow(b, first, reach); extent(g) > extent(best) {
			best = g
		}
	}
	return best
}

// cell is the side of a cell of its grid.
func (c *clutter) cell() float64 {
	box := c.outline.Bounds()
	return max(box.Width(), box.Height()) / rasterCells
}

func newRaster(c *clutter) *raster {
	box := c.outline.Bounds()
	r := &raster{min: box.Min, cell: c.cell()}
	r.nx, r.ny = int(math.Ceil(box.Width()/r.cell)), int(math.Ceil(box.Height()/r.cell))
	r.blocked = make([]bool, r.nx*r.ny)
	for _, w := range c.walls {
		r.wall(w)
	}
	r.fill(c.outline, false)
	for _, s := range c.solids {
		r.fill(s, true)
	}
	return r
}

// wall blocks every cell that comes nearer to an edge than is kept, and some
// that nearly do: those within it along both axes.
func (r *raster) wall(w wall) {
	a, b := w.a.Sub(r.min), w.b.Sub(r.min)
	if a.X > b.X {
		a, b = b, a
	}
	for i := max(int((a.X-w.keep)/r.cell), 0); i < r.nx && float64(i)*r.cell < b.X+w.keep; i++ {
		ya, yb := a.Y, b.Y
		if b.X > a.X {
			at := func(x float64) float64 {
				return a.Y + float64((b.Y-a.Y)*max(0, min((x-a.X)/(b.X-a.X), 1)))
			}
			ya, yb = at(float64(i)*r.cell-w.keep), at(float64(i+1)*r.cell+w.keep)
		}
		least, most := min(ya, yb)-w.keep, max(ya, yb)+w.keep
		for j := max(int(math.Floor(least/r.cell)), 0); j < r.ny && float64(j)*r.cell < most; j++ {
			r.blocked[j*r.nx+i] = true
		}
	}
}

// fill blocks the cells whose middle lies in a polygon, or out of it.
func (r *raster) fill(p geom.Polygon, in bool) {
	cuts := make([][]float64, r.ny) // where its edges cross the middle of each row
	for _, ring := range p.Rings() {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if a.Y > b.Y {
				a, b = b, a
			}
			for j := max(int((a.Y-r.min.Y)/r.cell-1), 0); j < r.ny && r.middle(j) < b.Y-r.min.Y; j++ {
				if y := r.min.Y + r.middle(j); a.Y <= y && y < b.Y {
					cuts[j] = append(cuts[j], a.X+float64((b.X-a.X)*(y-a.Y)/(b.Y-a.Y))-r.min.X)
				}
			}
		}
	}
	for j, row := range cuts {
		slices.Sort(row)
		for i, k := 0, 0; i < r.nx && (len(row) > 0 || !in); i++ {
			for k < len(row) && row[k] < r.middle(i) {
				k++
			}
			if (k%2 == 1) == in {
				r.blocked[j*r.nx+i] = true
			}
		}
	}
}

// middle is that of a cell, from the first on.
func (r *raster) middle(i int) float64 { return (float64(i) + 0.5) * r.cell }

// rectangles returns the largest clear ones, of those with the largest of each
// lowest row.
func (r *raster) rectangles() []geom.Box {
	var list []geom.Box
	heights := make([]int, r.nx+1) // the last stays 0
	for j := range r.ny {
		for i := range r.nx {
			if heights[i]++; r.blocked[j*r.nx+i] {
				heights[i] = 0
			}
		}
		if b := r.under(heights, j+1); extent(b) > 0 {
			list = append(list, b)
		}
	}
	slices.SortStableFunc(list, func(a, b geom.Box) int { return cmp.Compare(extent(b), extent(a)) })
	return list[:min(len(list), rasterGrown)]
}

// under returns the largest rectangle under a row of heights that ends at row
// top: columns wait until a lower one ends them.
func (r *raster) under(heights []int, top int) geom.Box {
	var best geom.Box
	type step struct{ from, height int }
	var waiting []step
	for i, h := range heights {
		from := i
		for n := len(waiting); n > 0 && waiting[n-1].height >= h; n-- {
			s := waiting[n-1]
			waiting, from = waiting[:n-1], s.from
			if b := r.box(s.from, top-s.height, i, top); extent(b) > extent(best) {
				best = b
			}
		}
		waiting = append(waiting, step{from, h})
	}
	return best
}

func (r *raster) box(x0, y0, x1, y1 int) geom.Box {
	at := func(x, y int) geom.Point {
		return geom.Point{X: r.min.X + float64(float64(x)*r.cell), Y: r.min.Y + float64(float64(y)*r.cell)}
	}
	return geom.Box{Min: at(x0, y0), Max: at(x1, y1)}
}

// reachCells is how far a side may grow, in cells: what rounding to cells takes
// at most, and as much again.
const reachCells = 4

// near returns what may matter to rectangles in a box.
func (c *clutter) near(in geom.Box) *clutter {
	o := &clutter{}
	for _, w := range c.walls {
		b := geom.Box{Min: w.a, Max: w.a}.Union(geom.Box{Min: w.b, Max: w.b}).Grow(w.keep)
		if !parted(&b, &in) {
			o.walls = append(o.walls, w)
		}
	}
	return o
}

// halvings is how often the step of a growing side is halved.
const halvings = 30

// trades are the sides that give way: one, or two that lie opposite.
var trades = [][]int{{0}, {1}, {2}, {3}, {0, 1}, {2, 3}}

// tradeTo is how many times finer than a cell the last trade is.
const tradeTo = 64

// grow moves the sides of a clear rectangle out one after the other, beginning
// with the given one, as far as it stays clear and at most by reach: left,
// right, lower, upper.
func (c *clutter) grow(b geom.Box, first int, reach float64) geom.Box {
	for k := range 4 {
		from, side := b, (first+k)%4
		by := 0.0
		for n, step := 0, reach; n < halvings; n, step = n+1, step/2 {
			if g := moved(from, side, by+step); by+step <= reach && c.clear(g) {
				by, b = by+step, g
			}
		}
	}
	return b
}

// moved returns a box with one side moved out: left, right, lower or upper.
func moved(b geom.Box, side int, by float64) geom.Box {
	switch side {
	case 0:
		b.Min.X -= by
	case 1:
		b.Max.X += by
	case 2:
		b.Min.Y -= by
	default:
		b.Max.Y += by
	}
	return b
}

// traded gives way on one side or two for what the others then gain, by smaller and
// smaller steps, as long as that pays.
func (c *clutter) traded(b geom.Box) geom.Box {
	cell := c.cell()
	for step := cell; step > cell/tradeTo; {
		best := b
		for _, sides := range trades {
			less := b
			for _, side := range sides {
				less = moved(less, side, -step)
			}
			if less.Width() <= 0 || less.Height() <= 0 {
				continue
			}
			if g := c.grown(less, reachCells*cell); extent(g) > extent(best) {
				best = g
			}
		}
		if b == best {
			step /= 2
		}
		b = best
	}
	return b
}

// clear says whether a rectangle keeps its distance to all walls.
func (c *clutter) clear(b geom.Box) bool {
	for _, w := range c.walls {
		if nearer(&w, b) {
			return false
		}
	}
	return true
}

// nearer says whether a wall comes nearer to a box than is kept.
func nearer(w *wall, b geom.Box) bool {
	g := b.Grow(w.keep)
	if max(w.a.X, w.b.X) <= g.Min.X || min(w.a.X, w.b.X) >= g.Max.X || max(w.a.Y, w.b.Y) <= g.Min.Y || min(w.a.Y, w.b.Y) >= g.Max.Y {
		return false
	}
	if b.Contains(w.a) || b.Contains(w.b) {
		return true
	}
	corners := [4]geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
	for i, q := range corners {
		if geom.SegmentDistance(q, corners[(i+1)%4], w.a, w.b) < w.keep {
			return true
		}
	}
	return false
}
