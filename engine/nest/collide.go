package nest

import "fettle/geom"

// Two turned pieces are compared in the coordinates of the first, a; the
// second, b, is moved by dx and dy. Touching counts as a collision, so that
// rounding never hides one.

// outlinesMeet says whether two pieces collide: an edge of one meets an edge
// of the other, or one lies in the other. Only edges that reach into both boxes
// are compared, clump by clump where these touch; near is room for those of b.
// With a gap two also collide where they come nearer than that.
func outlinesMeet(a, b *turn, dx, dy, gap float64, near *crop) bool {
	w := geom.Box{
		Min: geom.Point{X: max(a.box.Min.X, b.box.Min.X+dx) - gap/2, Y: max(a.box.Min.Y, b.box.Min.Y+dy) - gap/2},
		Max: geom.Point{X: min(a.box.Max.X, b.box.Max.X+dx) + gap/2, Y: min(a.box.Max.Y, b.box.Max.Y+dy) + gap/2},
	}
	near.within(b, dx, dy, &w)
	return near.meet(a, &w, gap) ||
		holds(a, b.px[0]+dx, b.py[0]+dy) ||
		holds(b, a.px[0]-dx, a.py[0]-dy)
}

// crop is the edges of a piece that reach into a window.
type crop struct {
	edges
	clumps []patch
}

// patch is some of the edges of a crop, and the part of the window that they lie in.
type patch struct {
	edges
	box geom.Box
}

// newCrop returns room for the edges of pieces that have no more than most.
func newCrop(most int) crop {
	room := func() []float64 { return make([]float64, 0, most) }
	return crop{edges{room(), room(), room(), room()}, make([]patch, 0, most/clump+1)}
}

// within fills c with the edges of a turned piece, moved, that reach into the
// window.
func (c *crop) within(t *turn, dx, dy float64, w *geom.Box) {
	e, o := &c.edges, &t.edges
	e.ax, e.ay, e.bx, e.by = e.ax[:0], e.ay[:0], e.bx[:0], e.by[:0]
	c.clumps = c.clumps[:0]
	oy, px, py := o.ay[:len(o.ax)], o.bx[:len(o.ax)], o.by[:len(o.ax)]
	for k := range t.clumps {
		box := at(t.clumps[k], dx, dy)
		if parted(&box, w) {
			continue
		}
		n := len(e.ax)
		for i := k * clump; i < min((k+1)*clump, len(o.ax)); i++ {
			ax, ay, bx, by := o.ax[i]+dx, oy[i]+dy, px[i]+dx, py[i]+dy
			if apart(ax, ay, bx, by, w) {
				continue
			}
			e.ax, e.ay, e.bx, e.by = append(e.ax, ax), append(e.ay, ay), append(e.bx, bx), append(e.by, by)
		}
		if len(e.ax) > n {
			c.clumps = append(c.clumps, patch{e.part(n, len(e.ax)), common(&box, w)})
		}
	}
}

// common is what lies in both of two boxes.
func common(p, q *geom.Box) geom.Box {
	return geom.Box{
		Min: geom.Point{X: max(p.Min.X, q.Min.X), Y: max(p.Min.Y, q.Min.Y)},
		Max: geom.Point{X: min(p.Max.X, q.Max.X), Y: min(p.Max.Y, q.Max.Y)},
	}
}

// meet says whether an edge of a turned piece meets one of the crop in its
// window, or comes nearer than the gap.
func (c *crop) meet(a *turn, w *geom.Box, gap float64) bool {
	e := &a.edges
	ay, bx, by := e.ay[:len(e.ax)], e.bx[:len(e.ax)], e.by[:len(e.ax)]
	for k := range a.clumps {
		if len(c.clumps) == 0 || parted(&a.clumps[k], w) {
			continue
		}
		for j := range c.clumps {
			near := &c.clumps[j]
			b := around(near.box, gap)
			if parted(&a.clumps[k], &b) {
				continue
			}
			for i := k * clump; i < min((k+1)*clump, len(e.ax)); i++ {
				if apart(e.ax[i], ay[i], bx[i], by[i], &b) {
					continue
				}
				if near.meet(e.ax[i], ay[i], bx[i], by[i]) || gap > 0 && near.closer(e.ax[i], ay[i], bx[i], by[i], gap) {
					return true
				}
			}
		}
	}
	return false
}

// apart says whether the box of an edge misses the window.
func apart(ax, ay, bx, by float64, w *geom.Box) bool {
	return ax < w.Min.X && bx < w.Min.X || ax > w.Max.X && bx > w.Max.X ||
		ay < w.Min.Y && by < w.Min.Y || ay > w.Max.Y && by > w.Max.Y
}

// meet says whether the edge from a to b meets or touches one of e: the ends
// of each lie on different sides of the other.
func (e *edges) meet(ax, ay, bx, by float64) bool {
	dx, dy := bx-ax, by-ay
	ey, fx, fy := e.ay[:len(e.ax)], e.bx[:len(e.ax)], e.by[:len(e.ax)]
	for i, ex := range e.ax {
		px, py, qx, qy := ex-ax, ey[i]-ay, fx[i]-ax, fy[i]-ay
		p := float64(dx*py) - float64(dy*px)
		q := float64(dx*qy) - float64(dy*qx)
		if p > 0 && q > 0 || p < 0 && q < 0 {
			continue
		}
		ux, uy := qx-px, qy-py
		s := float64(uy*px) - float64(ux*py)
		t := s + float64(ux*dy) - float64(uy*dx)
		if s > 0 && t > 0 || s < 0 && t < 0 {
			continue
		}
		// In one line, the edges may still lie apart.
		if p != 0 || q != 0 || !apart(ex, ey[i], fx[i], fy[i], boxOf(ax, ay, bx, by)) {
			return true
		}
	}
	return false
}

func boxOf(ax, ay, bx, by float64) *geom.Box {
	return &geom.Box{
		Min: geom.Point{X: min(ax, bx), Y: min(ay, by)},
		Max: geom.Point{X: max(ax, bx), Y: max(ay, by)},
	}
}

// holds says whether a place lies in the piece, by the even-odd rule: a place
// in a hole does not.
func holds(t *turn, x, y float64) bool {
	if !t.box.Contains(geom.Point{X: x, Y: y}) {
		return false
	}
	odd := false
	e := &t.edges
	ay, bx, by := e.ay[:len(e.ax)], e.bx[:len(e.ax)], e.by[:len(e.ax)]
	for i, ax := range e.ax {
		if (ay[i] > y) == (by[i] > y) {
			continue
		}
		side := float64((bx[i]-ax)*(y-ay[i])) - float64((by[i]-ay[i])*(x-ax))
		if (side > 0) == (by[i] > ay[i]) {
			odd = !odd
		}
	}
	return odd
}
