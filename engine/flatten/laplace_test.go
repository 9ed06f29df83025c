package flatten

import (
	"math"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

func TestCotangents_OfKnownFaces(t *testing.T) {
	for name, c := range map[string]struct {
		points [3]mesh.Vec
		want   [3]float64 // half the cotangent across 0-1, 1-2, 2-0
	}{
		"even":       {[3]mesh.Vec{{}, {X: 2}, {X: 1, Y: math.Sqrt(3)}}, [3]float64{0.5 / math.Sqrt(3), 0.5 / math.Sqrt(3), 0.5 / math.Sqrt(3)}},
		"right":      {[3]mesh.Vec{{}, {X: 3}, {Y: 3}}, [3]float64{0.5, 0, 0.5}},
		"obtuse":     {[3]mesh.Vec{{}, {X: 2}, {X: -1, Y: 1}}, [3]float64{1, -0.5, 1.5}},
		"out of it":  {[3]mesh.Vec{{X: 5, Z: 2}, {X: 5, Y: 3, Z: 2}, {X: 5, Z: 5}}, [3]float64{0.5, 0, 0.5}},
		"very small": {[3]mesh.Vec{{}, {X: 3e-6}, {Y: 3e-6}}, [3]float64{0.5, 0, 0.5}},
	} {
		s := mustSheet(t, mesh.Mesh{Points: c.points[:], Faces: []mesh.Face{{0, 1, 2}}})
		for k, got := range cotangents(s)[0] {
			if math.Abs(got-c.want[k]) > 1e-9 {
				t.Errorf("%s: edge %d weighs %g, want %g", name, k, got, c.want[k])
			}
		}
	}
}

// weighted is the factored weights of a surface without holes.
func weighted(t *testing.T, m mesh.Mesh) (*disc, *laplace) {
	t.Helper()
	d, err := open(Problem{Surface: m})
	if err != nil {
		t.Fatal(err)
	}
	l, err := newLaplace(mustSheet(t, d.mesh), d.border.rim(), &Stats{})
	if err != nil {
		t.Fatal(err)
	}
	return d, l
}

// What is linear at the rim of a level piece is linear inside.
func TestExtend_IsLinearWhereTheRimIs(t *testing.T) {
	m, at := plane(11, 7, 0.9)
	d, l := weighted(t, m)
	got := mapped(at, func(geom.Point) geom.Point { return geom.Point{X: 99, Y: -99} })
	want := mapped(at, func(p geom.Point) geom.Point { return geom.Point{X: 3 - p.X + 2*p.Y, Y: 0.5*p.X + p.Y} })
	for _, v := range d.border.corners {
		got[v] = want[v]
	}
	l.extend(got, &Stats{})
	for v := range got {
		if got[v].Distance(want[v]) > 1e-10 {
			t.Errorf("vertex %d lies at %v, not at %v", v, got[v], want[v])
		}
	}
}

func TestSolve_HasTheDifferencesAskedFor(t *testing.T) {
	d, l := weighted(t, dome(9, 100, 1.1))
	asked := make([]float64, len(d.mesh.Points))
	for v := range asked {
		asked[v] = math.Sin(float64(7 * v))
	}
	value := l.solve(asked, &Stats{})
	rim := d.near.OnBoundary()
	for v, got := range l.difference(value) {
		if rim[v] && value[v] != 0 || !rim[v] && math.Abs(got-asked[v]) > 1e-9 {
			t.Errorf("vertex %d has %g, asked for %g", v, got, asked[v])
		}
	}
}

// Two triangles that share an edge across which their angles sum to more than a
// half-turn have a negative weight there, until it is raised.
func TestRaise_LeavesNoWeightBelowTheLeast(t *testing.T) {
	flat := patch(6, 6, func(u, v float64) mesh.Vec { return mesh.Vec{X: 20 * (u + 3*v), Y: v} })
	d, l := weighted(t, flat)
	sum := func(h int32) float64 {
		w := l.weight[h/3][h%3]
		if twin := d.near.Twin[h]; twin != mesh.None {
			w += l.weight[twin/3][twin%3]
		}
		return w
	}
	before, low := make([]float64, len(d.near.Twin)), 0
	for h := range before {
		if before[h] = sum(int32(h)); before[h] < 0 {
			low++
		}
	}
	if low == 0 {
		t.Fatal("nothing to raise")
	}
	if err := l.raise(d.near, &Stats{}); err != nil {
		t.Fatal(err)
	}
	for h := range before {
		if got := sum(int32(h)); got < leastWeight*(1-1e-9) || before[h] >= leastWeight && got != before[h] {
			t.Errorf("half-edge %d weighs %g, before %g", h, got, before[h])
		}
	}
}

// With even weights every inner vertex is the mean of its neighbours.
func TestEven_IsTheMeanOfNeighbours(t *testing.T) {
	d, l := weighted(t, dome(6, 100, 1))
	if err := l.even(&Stats{}); err != nil {
		t.Fatal(err)
	}
	at := round(mustSheet(t, d.mesh), l, d.border.rim(), &Stats{})
	rim := d.near.OnBoundary()
	for v := range at {
		if rim[v] {
			continue
		}
		var sum geom.Point
		var n float64
		for _, h := range d.near.Leaving(int32(v)) {
			sum, n = sum.Add(at[d.near.Head(h)]), n+1
		}
		if at[v].Distance(sum.Scale(1/n)) > 1e-10 {
			t.Errorf("vertex %d lies at %v, its neighbours' mean is %v", v, at[v], sum.Scale(1/n))
		}
	}
}

// A piece without inner vertices has nothing to solve for.
func TestLaplace_NothingInside(t *testing.T) {
	d, l := weighted(t, mesh.Mesh{Points: []mesh.Vec{{}, {X: 3}, {Z: 2}, {Y: 2}}, Faces: []mesh.Face{{0, 1, 2}, {1, 0, 3}}})
	for _, v := range l.solve([]float64{1, 2, 3, 4}, &Stats{}) {
		if v != 0 {
			t.Errorf("%g", v)
		}
	}
	at := []geom.Point{{X: 1}, {X: 2}, {X: 3}, {Y: 4}}
	l.extend(at, &Stats{})
	if at[3] != (geom.Point{Y: 4}) || len(d.border.rim()) != 4 {
		t.Errorf("%v", at)
	}
}
