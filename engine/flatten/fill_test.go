package flatten

import (
	"math"
	"slices"
	"testing"

	"fettle/geom/mesh"
)

// loop is a closed run of corners in the plane.
func loop(corners ...[2]float64) (m mesh.Mesh, ring []int32) {
	for i, c := range corners {
		m.Points = append(m.Points, mesh.Vec{X: c[0], Y: c[1]})
		ring = append(ring, int32(i))
	}
	return m, ring
}

func TestSees_FromTheMiddle(t *testing.T) {
	for name, c := range map[string]struct {
		corners [][2]float64
		want    bool
	}{
		"a square":                   {[][2]float64{{0, 0}, {2, 0}, {2, 2}, {0, 2}}, true},
		"the other way round":        {[][2]float64{{0, 2}, {2, 2}, {2, 0}, {0, 0}}, true},
		"a star":                     {[][2]float64{{4, 0}, {1, 1}, {0, 4}, {-1, 1}, {-4, 0}, {-1, -1}, {0, -4}, {1, -1}}, true},
		"an L with its corner short": {[][2]float64{{0, 0}, {3, 0}, {3, 2}, {2, 2}, {2, 3}, {0, 3}}, true},
		"an L with long arms":        {[][2]float64{{0, 0}, {9, 0}, {9, 1}, {1, 1}, {1, 9}, {0, 9}}, false},
		"a U":                        {[][2]float64{{0, 0}, {3, 0}, {3, 4}, {2, 4}, {2, 1}, {1, 1}, {1, 4}, {0, 4}}, false},
	} {
		m, ring := loop(c.corners...)
		if got := sees(m, middleOf(m, ring), ring); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// Where the middle lies does not depend on how an edge is parted into sides.
func TestMiddleOf_CountsLengthNotCorners(t *testing.T) {
	few, fewRing := loop([2]float64{0, 0}, [2]float64{6, 0}, [2]float64{6, 2}, [2]float64{0, 2})
	many, manyRing := loop([2]float64{0, 0}, [2]float64{1, 0}, [2]float64{2, 0}, [2]float64{5, 0}, [2]float64{6, 0}, [2]float64{6, 2}, [2]float64{0, 2}, [2]float64{0, 0.5})
	a, b := middleOf(few, fewRing), middleOf(many, manyRing)
	if want := (mesh.Vec{X: 3, Y: 1}); a.Sub(want).Length() > 1e-12 || b.Sub(want).Length() > 1e-12 {
		t.Errorf("%v and %v", a, b)
	}
}

// shapeOf is the area and the angles of a face by its inverse edges.
func shapeOf(r rest) (area, first, second float64) {
	long, x, y := 1/r.A, -r.B/(r.A*r.C), 1/r.C
	return long * y / 2, math.Atan2(y, x), math.Atan2(y, long-x)
}

func TestShape_OfFillers(t *testing.T) {
	m := mesh.Mesh{Points: []mesh.Vec{{}, {X: 4}, {Y: 3}, {X: 2}, {X: 1, Y: 1e-6}}}
	for _, f := range []mesh.Face{{0, 1, 2}, {1, 2, 0}, {2, 0, 1}} {
		area, first, second := shapeOf(shape(&f, m))
		if f != (mesh.Face{2, 0, 1}) { // the shortest side first
			t.Errorf("the face is %v", f)
		}
		if math.Abs(area-6) > 1e-12 || math.Abs(first-math.Atan2(4, 3)) > 1e-12 || math.Abs(second-math.Pi/2) > 1e-12 {
			t.Errorf("area %g, angles %g and %g", area, first, second)
		}
	}
	for _, f := range []mesh.Face{{0, 3, 1}, {0, 4, 3}} { // in a line, or nearly
		r := shape(&f, m)
		if area, _, _ := shapeOf(r); !(area > 0) || math.IsInf(r.B, 0) || math.IsNaN(r.B) {
			t.Errorf("%v: area %g, %+v", f, area, r)
		}
	}
}

// Filled, a surface with holes is a disc that a round start turns nothing of
// over; its own faces and vertices come first.
func TestFilled_IsADisc(t *testing.T) {
	bend := bent(30, 30)
	for name, c := range map[string]struct {
		surface  mesh.Mesh
		vertices int // added
	}{
		"no hole": {bend, 0},
		"a plate": {holed(8), 8},
		"a pipe":  {pipe(12, 6, 50, 100), 1},
		"crooked": {pierced(bend, func(c mesh.Vec) bool { return c.X > 40 && c.X < 220 && c.Y > 50 && c.Y < 450 && (c.X < 80 || c.Y < 90) }), 0},
	} {
		d, err := open(Problem{Surface: c.surface})
		if err != nil {
			t.Fatal(err)
		}
		s := mustSheet(t, d.mesh)
		f := d.filled(s)
		if f.near.Euler() != 1 || len(f.near.BoundaryLoops()) != 1 || len(f.near.Tangled) > 0 {
			t.Errorf("%s: Euler %d, %d open edges", name, f.near.Euler(), len(f.near.BoundaryLoops()))
		}
		if f.sheet.vertices != s.vertices+c.vertices || !slices.Equal(f.sheet.faces[:len(s.faces)], s.faces) || !slices.Equal(f.sheet.rest[:len(s.rest)], s.rest) {
			t.Errorf("%s: %d vertices of %d, or other faces", name, f.sheet.vertices, s.vertices)
		}
		var sum float64
		for _, r := range f.sheet.rest {
			sum += r.Area
		}
		if math.Abs(sum-f.sheet.area) > 1e-9*sum {
			t.Errorf("%s: area %g of %g", name, f.sheet.area, sum)
		}
		l, err := newLaplace(f.sheet, f.rim, &Stats{})
		if err != nil {
			t.Fatal(err)
		}
		if err := l.raise(f.near, &Stats{}); err != nil {
			t.Fatal(err)
		}
		if n := f.sheet.flipped(round(f.sheet, l, f.rim, &Stats{})); n > 0 {
			t.Errorf("%s: %d faces turned over", name, n)
		}
	}
}
