package nest

import (
	"slices"

	"fettle/geom"
)

// A piece that may lie at any angle is turned where it is looked at: into the
// room of the seeker that tries a place, and into that of the layout where it
// comes to lie. Such a turn is loose: what it was may be gone when a place is
// come back to, so that the spot says how it lies, and it is turned again.

// turned returns a turn of its own.
func (t *turn) turned(rotation float64, mirrored bool) turn {
	var o turn
	o.spin(t, rotation, mirrored)
	return o
}

// spin makes t the base, mirrored where asked and turned. It takes no room but
// the first time.
func (t *turn) spin(base *turn, rotation float64, mirrored bool) {
	t.rotation, t.mirrored = rotation, mirrored
	sin, cos := heading(rotation)
	flip := 1.0
	if mirrored {
		flip = -1
	}
	w := way{float64(cos * flip), sin, float64(sin * flip), cos}
	e, o := &t.edges, &base.edges
	e.ax, e.ay = w.turn(e.ax, e.ay, o.ax, o.ay)
	e.bx, e.by = w.turn(e.bx, e.by, o.bx, o.by)
	t.px, t.py = w.turn(t.px, t.py, base.px, base.py)
	t.pr = append(t.pr[:0], base.pr...)
	t.centre, t.anchor = w.point(base.centre), w.point(base.anchor)
	t.measure(base.around)
	if n := len(base.parts); n > cap(t.parts) {
		t.parts = append(t.parts[:cap(t.parts)], make([]turn, n-cap(t.parts))...)
	}
	t.parts = t.parts[:len(base.parts)]
	for i := range t.parts {
		t.parts[i].spin(&base.parts[i], rotation, mirrored)
	}
}

// way is how a place is mirrored and turned.
type way struct{ xx, xy, yx, yy float64 }

func (w *way) point(p geom.Point) geom.Point {
	return geom.Point{X: float64(w.xx*p.X) - float64(w.xy*p.Y), Y: float64(w.yx*p.X) + float64(w.yy*p.Y)}
}

// turn fills the first two with the others turned.
func (w *way) turn(toX, toY, x, y []float64) (outX, outY []float64) {
	toX, toY, y = slices.Grow(toX[:0], len(x)), slices.Grow(toY[:0], len(x)), y[:len(x)]
	for i, v := range x {
		toX = append(toX, float64(w.xx*v)-float64(w.xy*y[i]))
		toY = append(toY, float64(w.yx*v)+float64(w.yy*y[i]))
	}
	return toX, toY
}

// measure works out the box of the edges, with some room around, and the
// circles as seen from its middle.
func (t *turn) measure(around float64) {
	t.clumps = t.edges.clump(t.clumps[:0], 0)
	b := t.clumps[0]
	for _, c := range t.clumps[1:] {
		b = b.Union(c)
	}
	t.side, t.around = min(b.Width(), b.Height()), around
	b.Min, b.Max = geom.Point{X: b.Min.X - around, Y: b.Min.Y - around}, geom.Point{X: b.Max.X + around, Y: b.Max.Y + around}
	t.box = b
	t.circles.lay(t.px, t.py, t.pr, geom.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2})
}

// lies says how the copy at a spot lies.
func (s spot) lies() (rotation float64, mirrored bool) {
	if s.turn.loose {
		return s.rotation, s.mirrored
	}
	return s.turn.rotation, s.turn.mirrored
}

// stale says whether a loose turn is no longer what the spot means.
func (s spot) stale() bool {
	return s.turn.loose && (s.turn.rotation != s.rotation || s.turn.mirrored != s.mirrored)
}

// spun returns the spot of a piece with its turn in the given room.
func (s *shop) spun(piece int, t *turn, rotation float64, mirrored bool, x, y float64) spot {
	base := &s.forms[piece].base
	if t.of != base || t.rotation != rotation || t.mirrored != mirrored {
		t.loose, t.of = true, base
		t.spin(base, rotation, mirrored)
	}
	return spot{turn: t, x: x, y: y, rotation: rotation, mirrored: mirrored}
}
