package flatten

import (
	"math"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

func TestBorder_RingsAreClosed(t *testing.T) {
	b := newBorder([]int32{4, 5, 6, 7}, []int32{9, 8, 2})
	if len(b.corners) != 7 || len(b.rim()) != 4 || len(b.holes()) != 1 {
		t.Fatalf("%+v", b)
	}
	for i := range b.corners {
		n := b.next[i]
		if b.before[n] != int32(i) || b.ring[n] != b.ring[i] {
			t.Errorf("corner %d is not before the next, %d", i, n)
		}
		around := int32(i)
		for range b.rings[b.ring[i]] {
			around = b.next[around]
		}
		if around != int32(i) {
			t.Errorf("from corner %d the way round ends at %d", i, around)
		}
	}
}

// The edge of a ragged hole may be longer than the rim, which still goes round
// everything.
func TestBorderOf_TheRimGoesRoundAll(t *testing.T) {
	ragged := pierced(dome(30, 100, 1.2), within(0, 0, 78.1))
	for name, m := range map[string]mesh.Mesh{"ragged": ragged, "plate": holed(8), "funnel": pierced(funnel(60), vents), "slit": pierced(dome(12, 100, 1), within(30, 0, 15))} {
		a := m.Adjacency()
		b := borderOf(m, a)
		_, hi := m.Box()
		var reach float64
		for _, v := range b.rim() {
			reach = max(reach, m.Points[v].X)
		}
		if reach < hi.X-1e-9 {
			t.Errorf("%s: the rim reaches to %g of %g", name, reach, hi.X)
		}
		if len(b.rings) != len(a.BoundaryLoops()) {
			t.Errorf("%s: %d rings of %d", name, len(b.rings), len(a.BoundaryLoops()))
		}
	}
	loops := ragged.BoundaryLoops()
	if long, short := ragged.LoopLength(loops[0]), ragged.LoopLength(loops[1]); math.Abs(long-short) < 1 {
		t.Errorf("the hole is not ragged: %g and %g", long, short)
	}
}

// Of two ends as wide as each other the first is the rim, whatever rounding says.
func TestBorderOf_EqualEnds(t *testing.T) {
	m := pipe(24, 8, 50, 200)
	first := m.BoundaryLoops()[0]
	for _, angle := range []float64{0, 0.1, 1, 2.5} {
		s, c := math.Sincos(angle)
		turned := mesh.Mesh{Faces: m.Faces}
		for _, p := range m.Points {
			turned.Points = append(turned.Points, mesh.Vec{X: c*p.X - s*p.Z, Y: p.Y + 7, Z: s*p.X + c*p.Z})
		}
		if rim := borderOf(turned, turned.Adjacency()).rim(); rim[0] != first[0] {
			t.Errorf("turned by %g the rim begins at %d, not at %d", angle, rim[0], first[0])
		}
	}
}

func TestOutline_RingsOfAPattern(t *testing.T) {
	m := pierced(patch(12, 12, func(u, v float64) mesh.Vec { return mesh.Vec{X: 120 * u, Y: 120 * v} }), func(c mesh.Vec) bool {
		return c.X > 20 && c.X < 40 && c.Y > 20 && c.Y < 60 || c.X > 70 && c.X < 80 && c.Y > 70 && c.Y < 80
	})
	f := Flat{Faces: m.Faces}
	for _, p := range m.Points {
		f.Points = append(f.Points, geom.Point{X: p.X, Y: p.Y})
	}
	o := f.Outline()
	if got := geom.RingArea(o.Outer); math.Abs(got-14400) > 1e-9 {
		t.Errorf("around it %g", got)
	}
	if len(o.Holes) != 2 {
		t.Fatalf("%d holes", len(o.Holes))
	}
	for i, want := range []float64{-800, -100} { // clockwise, the largest first
		if got := geom.RingArea(o.Holes[i]); math.Abs(got-want) > 1e-9 {
			t.Errorf("hole %d has %g, want %g", i, got, want)
		}
	}
	if o := (Flat{}).Outline(); o.Outer != nil || o.Holes != nil {
		t.Errorf("nothing has the outline %v", o)
	}
}
