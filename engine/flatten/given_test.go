package flatten

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/geom/obj"
)

// The bars of the shared surfaces: the symmetric Dirichlet density that the
// best of other programs reached on them, to the digits it was told with, and
// the exact least where there is one. The least of a mesh is not quite that of
// the surface it stands for.
var bars = map[string]struct{ best, exact, within float64 }{
	"analytic/cylinder.obj":     {best: 4.00000, exact: 4, within: 1e-6},
	"analytic/cone.obj":         {best: 4.00000, exact: 4, within: 1e-6},
	"analytic/sphere_cap20.obj": {best: 4.00031, exact: 4.000311, within: 1e-4},
	"analytic/sphere_cap60.obj": {best: 4.02622, exact: 4.026130, within: 1e-4},
	"analytic/rim_sector.obj":   {best: 4.01098},
	"analytic/seat_cushion.obj": {best: 4.00469},
	"analytic/headliner.obj":    {best: 4.00003},
	"analytic/door_dented.obj":  {best: 4.00000, exact: 4, within: 1e-5},
	"public/bff-hemisphere.obj": {best: 4.14128},
	"public/bff-spothead.obj":   {best: 6.54098},
	"public/od-mountain.obj":    {best: 4.08863},
	"public/od-torus.obj":       {best: 4.10050}, // our own, of the shortest cuts
	"public/od-plane_holes.obj": {best: 9.46800}, // our own
}

func TestGiven_AsGoodAsTheBestKnown(t *testing.T) {
	for name, bar := range bars {
		p := Problem{Surface: shared(t, name)}
		r := lay(t, p)
		w := r.Isometric
		if _, err := Check(p, r); err != nil || w.Overlaps > 0 || r.Status != Settled {
			t.Errorf("%s: %d overlaps, status %d, %v", name, w.Overlaps, r.Status, err)
		}
		if w.Dirichlet > bar.best+5e-6 {
			t.Errorf("%s: %.6f, the best known is %.5f", name, w.Dirichlet, bar.best)
		}
		if bar.exact > 0 && math.Abs(w.Dirichlet-bar.exact) > bar.within {
			t.Errorf("%s: %.6f is %.2g off the exact least %.6f", name, w.Dirichlet, w.Dirichlet-bar.exact, bar.exact)
		}
	}
}

func TestGiven_BoxUnfoldsAlongItsEdges(t *testing.T) {
	m := shared(t, "public/od-cube_no_bottom.obj")
	p := Problem{Surface: m, Cuts: upright(m)}
	r := lay(t, p)
	if _, err := Check(p, r); err != nil || len(r.Cuts) != 4 {
		t.Fatalf("%d cuts, %v", len(r.Cuts), err)
	}
	var area float64
	for _, f := range r.Flat.Faces {
		a, b, c := r.Flat.Points[f[0]], r.Flat.Points[f[1]], r.Flat.Points[f[2]]
		area += b.Sub(a).Cross(c.Sub(a)) / 2
	}
	if math.Abs(area-m.Area()) > 1e-9 || math.Abs(r.Isometric.Stretch[2]) > 1e-9 || r.Isometric.Overlaps > 0 {
		t.Errorf("area %g of %g, strain %g, %d overlaps", area, m.Area(), r.Isometric.Stretch[2], r.Isometric.Overlaps)
	}
}

// upright returns the paths from the rim of an open box up its four edges: the
// vertices whose defect is no whole number of quarter turns are none, the
// corners of the lid have a quarter.
func upright(m mesh.Mesh) [][]int32 {
	a, rim := m.Adjacency(), m.BoundaryLoops()[0]
	s, err := newSheet(m)
	if err != nil {
		panic(err)
	}
	corner := map[int32]bool{}
	var cuts [][]int32
	defect := defects(s, rim)
	for v, d := range defect {
		if d > 1 && !a.OnBoundary()[v] {
			corner[int32(v)] = true
		}
	}
	for v := range int32(len(m.Points)) {
		if corner[v] {
			path, _ := a.ShortestPath([]int32{v}, rim, m.EdgeLength)
			cuts = append(cuts, path)
		}
	}
	return cuts
}

// The `vt` places of these files are the exact patterns of the smooth surfaces.
// The cone's faces are chords of it: the mesh itself is narrower by the chords
// of its rim, which the exact pattern has to be too.
func TestGiven_OutlineOfCylinderAndCone(t *testing.T) {
	for name, c := range map[string]struct {
		narrower func(geom.Point, float64) geom.Point
		within   float64
	}{
		"analytic/cylinder.obj": {func(p geom.Point, _ float64) geom.Point { return p }, 0.01},
		"analytic/cone.obj":     {narrowed, 0.01},
	} {
		data, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "data", "mesh", filepath.FromSlash(name)))
		if err != nil {
			t.Skip("the shared test data is not here")
		}
		m, err := obj.Read(data, mesh.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		r := lay(t, Problem{Surface: m.Mesh})
		smooth, exact, outer := make([]geom.Point, len(m.Mesh.Points)), make([]geom.Point, len(m.Mesh.Points)), -1.0
		for i, f := range m.Mesh.Faces {
			for c, v := range f {
				smooth[v] = m.UV[3*i+c]
			}
		}
		rim := m.Mesh.BoundaryLoops()[0]
		for _, v := range rim {
			if p := smooth[v]; math.Hypot(p.X, p.Y) > 599.9 {
				outer++
			}
		}
		for v, p := range smooth {
			exact[v] = c.narrower(p, outer)
		}
		off := func(exact []geom.Point) (far float64) {
			for i, p := range fitted(along(r.Flat.Points, rim), along(exact, rim)) {
				far = max(far, p.Distance(exact[rim[i]]))
			}
			return far
		}
		if off(exact) > c.within {
			t.Errorf("%s: the outline is up to %.4f mm off the exact pattern", name, off(exact))
		}
		t.Logf("%s: outline within %.5f mm (smooth surface %.5f), stretch %.2g … %.2g, at the most %.2g", name, off(exact), off(smooth), r.Isometric.Stretch[1], r.Isometric.Stretch[0], r.Isometric.Stretch[2])
	}
}

// narrowed takes a place of the cone's sector to that of the pyramid over its
// rim of so many chords.
func narrowed(p geom.Point, chords float64) geom.Point {
	half, each := math.Sin(20*math.Pi/180), 2.5/chords
	k := 2 * math.Asin(half*math.Sin(each/2)) / (each * half)
	s, c := math.Sincos(k * math.Atan2(p.Y, p.X))
	r := math.Hypot(p.X, p.Y)
	return geom.Point{X: r * c, Y: r * s}
}

// fitted turns and moves places to lie as near others as can be.
func fitted(at, to []geom.Point) []geom.Point {
	var a, b geom.Point
	for v := range at {
		a, b = a.Add(at[v].Scale(1/float64(len(at)))), b.Add(to[v].Scale(1/float64(len(at))))
	}
	var dot, cross float64
	for v := range at {
		p, q := at[v].Sub(a), to[v].Sub(b)
		dot, cross = dot+p.X*q.X+p.Y*q.Y, cross+p.Cross(q)
	}
	angle := math.Atan2(cross, dot)
	s, c := math.Sincos(angle)
	return mapped(at, func(p geom.Point) geom.Point {
		p = p.Sub(a)
		return geom.Point{X: c*p.X - s*p.Y + b.X, Y: s*p.X + c*p.Y + b.Y}
	})
}

func BenchmarkSolve(b *testing.B) {
	for _, name := range []string{"public/bff-hemisphere.obj", "analytic/sphere_cap60.obj", "analytic/door_dented.obj", "public/bff-spothead.obj", "public/od-mountain.obj"} {
		m := shared(b, name)
		b.Run(filepath.Base(name), func(b *testing.B) {
			var r Result
			for b.Loop() {
				var err error
				if r, err = Solve(context.Background(), Problem{Surface: m}, Options{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(r.Isometric.Dirichlet, "dirichlet")
			b.ReportMetric(float64(r.Stats.Factors), "factors")
		})
	}
}

func BenchmarkConformal(b *testing.B) {
	for _, name := range []string{"public/bff-hemisphere.obj", "public/od-mountain.obj"} {
		m := shared(b, name)
		b.Run(filepath.Base(name), func(b *testing.B) {
			for b.Loop() {
				laidConformal(b, Problem{Surface: m})
			}
		})
	}
}
