package flatten

import (
	"math"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// Caps of a sphere have known patterns. By their half-angle in degrees: the
// least symmetric Dirichlet density of any pattern, of one that keeps angles,
// and of the one that keeps distances from the middle; each from an integral
// over the smooth cap. Below, the least ratio of the largest to the smallest
// scale that any map can have (Milnor: a ÷ sin a), and any that keeps angles
// (Chebyshev: 1 ÷ cos²(a/2)).
var caps = []struct{ degrees, least, conformal, equidistant float64 }{
	{10, 4.000019, 4.000039, 4.000021},
	{20, 4.000311, 4.000625, 4.000345},
	{30, 4.001582, 4.003205, 4.001750},
	{45, 4.008113, 4.016716, 4.008925},
	{60, 4.026130, 4.055175, 4.028535},
	{75, 4.065468, 4.142914, 4.070837},
	{90, 4.140508, 4.320494, 4.150403},
}

func TestCaps_LeastConformalAndEquidistant(t *testing.T) {
	for _, c := range caps {
		a := c.degrees * math.Pi / 180
		m := dome(36, 400, a)
		p := Problem{Surface: m}
		r := lay(t, p)
		if _, err := Check(p, r); err != nil {
			t.Errorf("%g°: %v", c.degrees, err)
		}
		// The mesh is not the cap: what it adds grows with the density itself.
		within := 3e-6 + 0.012*(c.least-4)
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > within {
				t.Errorf("%g°: %s is %.6f, of the smooth cap %.6f", c.degrees, what, got, want)
			}
		}
		near("the least density", r.Isometric.Dirichlet, c.least)
		near("that of the map that keeps angles", r.Conformal.Dirichlet, c.conformal)
		s := mustSheet(t, m)
		at := make([]geom.Point, len(m.Points))
		for v, q := range m.Points {
			far := 400 * math.Acos(min(1, q.Z/400))
			if h := math.Hypot(q.X, q.Y); h > 0 {
				at[v] = geom.Point{X: far * q.X / h, Y: far * q.Y / h}
			}
		}
		s.scale(at) // the integrals are of the best size
		near("that of the map that keeps distances", s.total(dirichlet{}, at)/s.area, c.equidistant)
		if w := r.Isometric; (1+w.Stretch[0])/(1+w.Stretch[1]) > a/math.Sin(a)*1.1 {
			t.Errorf("%g°: scales from %g to %g, a ratio of %g does", c.degrees, w.Stretch[1], w.Stretch[0], a/math.Sin(a))
		}
		l := r.Conformal
		if got, want := (1+l.Stretch[0])/(1+l.Stretch[1]), 1/math.Pow(math.Cos(a/2), 2); math.Abs(got-want) > 0.06*(want-1)+1e-3 {
			t.Errorf("%g°: kept angles take a ratio of %g, should be near %g", c.degrees, got, want)
		}
		if l.Quasi-1 > 0.03*(1-math.Cos(a)) {
			t.Errorf("%g°: angles are off by a ratio of %g", c.degrees, l.Quasi)
		}
	}
}

// A finer mesh comes nearer the smooth cap, with the square of its faces' size.
func TestCaps_ComeNearerWithTheMesh(t *testing.T) {
	var off []float64
	for _, rings := range []int{8, 16, 32} {
		off = append(off, math.Abs(lay(t, Problem{Surface: dome(rings, 400, math.Pi/3)}).Isometric.Dirichlet-4.026130))
	}
	for i := 1; i < len(off); i++ {
		if ratio := off[i-1] / off[i]; ratio < 3 || ratio > 5 {
			t.Errorf("half the size of face brings the error from %g to %g", off[i-1], off[i])
		}
	}
}

// A sphere slit from end to end opens to a pattern that is its own mirror
// image.
func TestSolve_ClosedSphere(t *testing.T) {
	m := sphere(16)
	p := Problem{Surface: m}
	r := lay(t, p)
	if _, err := Check(p, r); err != nil || len(r.Cuts) != 1 || r.Isometric.Overlaps > 0 {
		t.Fatalf("%d cuts, %d overlaps, %v", len(r.Cuts), r.Isometric.Overlaps, err)
	}
	if long := cutLength(m, r.Cuts); long < math.Pi*90 || long > math.Pi*125 {
		t.Errorf("the slit is %g long", long)
	}
}

// sphere is an even mesh of a sphere of radius 100: the faces of an
// octahedron, each in n² parts, pushed out.
func sphere(n int) mesh.Mesh {
	var m mesh.Mesh
	index := map[[3]int]int32{}
	at := func(p [3]int) int32 {
		if v, ok := index[p]; ok {
			return v
		}
		q := mesh.Vec{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])}
		index[p] = int32(len(m.Points))
		m.Points = append(m.Points, q.Scale(100/q.Length()))
		return index[p]
	}
	for _, sign := range [8][3]int{{1, 1, 1}, {-1, -1, 1}, {-1, 1, -1}, {1, -1, -1}, {-1, 1, 1}, {1, -1, 1}, {1, 1, -1}, {-1, -1, -1}} {
		corner := func(i, j int) int32 { return at([3]int{sign[0] * i, sign[1] * j, sign[2] * (n - i - j)}) }
		out := sign[0]*sign[1]*sign[2] > 0
		face := func(a, b, c int32) {
			if !out {
				b, c = c, b
			}
			m.Faces = append(m.Faces, mesh.Face{a, b, c})
		}
		for i := range n {
			for j := range n - i {
				face(corner(i, j), corner(i+1, j), corner(i, j+1))
				if i+j < n-1 {
					face(corner(i+1, j), corner(i+1, j+1), corner(i, j+1))
				}
			}
		}
	}
	return m
}

// Two rings joined, and rings with holes, need a cut for every handle and hole.
func TestOpen_HandlesAndHolesTogether(t *testing.T) {
	one := ring(24, 12, 100, 30)
	for name, c := range map[string]struct {
		surface mesh.Mesh
		handles int
		holes   int
	}{
		"a ring":                {one, 1, 0},
		"a ring with a hole":    {without(one, 0, 1, 24, 25), 1, 1},
		"a ring with three":     {without(one, 0, 1, 100, 101, 300, 301), 1, 3},
		"a sphere":              {sphere(6), 0, 0},
		"a sphere with a hole":  {without(sphere(6), 0), 0, 1},
		"a sphere with two":     {without(sphere(6), 0, 200), 0, 2},
		"two rings":             {doubled(one), 2, 0},
		"two rings with a hole": {without(doubled(one), 300, 301), 2, 1},
	} {
		if got := c.surface.Euler(); got != 2-2*c.handles-c.holes || len(c.surface.BoundaryLoops()) != c.holes {
			t.Fatalf("%s: Euler %d with %d loops is another surface", name, got, len(c.surface.BoundaryLoops()))
		}
		d := joined(t, Problem{Surface: c.surface})
		opened, _, err := c.surface.Cut(d.cuts)
		if err != nil || opened.Euler() != 1 || len(opened.BoundaryLoops()) != 1 {
			t.Errorf("%s: the cuts told leave Euler %d, %v", name, opened.Euler(), err)
		}
		for _, path := range d.cuts {
			if len(path) < 2 {
				t.Errorf("%s: a cut of %d vertices", name, len(path))
			}
		}
	}
}

// without leaves faces out.
func without(m mesh.Mesh, faces ...int) mesh.Mesh {
	gone := map[int]bool{}
	for _, f := range faces {
		gone[f] = true
	}
	out := mesh.Mesh{Points: m.Points}
	for i, f := range m.Faces {
		if !gone[i] {
			out.Faces = append(out.Faces, f)
		}
	}
	return out
}

// doubled joins a surface to its image behind one missing face, which both
// share the rim of.
func doubled(m mesh.Mesh) mesh.Mesh {
	open := without(m, 0)
	rim := m.Faces[0]
	out := mesh.Mesh{Points: append([]mesh.Vec(nil), m.Points...), Faces: append([]mesh.Face(nil), open.Faces...)}
	base, name := m.Points[rim[0]], make([]int32, len(m.Points))
	for v, p := range m.Points {
		name[v] = int32(len(out.Points))
		if int32(v) == rim[0] || int32(v) == rim[1] || int32(v) == rim[2] {
			name[v] = int32(v)
			continue
		}
		out.Points = append(out.Points, base.Scale(2.5).Sub(p.Scale(1.5)).Add(mesh.Vec{X: 1}))
	}
	for _, f := range open.Faces {
		out.Faces = append(out.Faces, mesh.Face{name[f[0]], name[f[2]], name[f[1]]})
	}
	return out
}
