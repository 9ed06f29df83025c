package flatten

import (
	"math"
	"slices"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// laidConformal returns the conformal map of a surface at its own scale.
func laidConformal(t testing.TB, p Problem) (*disc, *sheet, []geom.Point, []float64) {
	t.Helper()
	d, err := open(p)
	if err != nil {
		t.Fatal(err)
	}
	s := mustSheet(t, d.mesh)
	var stats Stats
	full := d.filled(s)
	l, err := newLaplace(full.sheet, full.rim, &stats)
	if err != nil {
		t.Fatal(err)
	}
	at, scale := conformal(full.sheet, l, full.rim, &stats)
	return d, s, at[:s.vertices], scale[:s.vertices]
}

// bent is a piece of a cylinder, ruled, so that its faces unroll exactly.
func bent(m, n int) mesh.Mesh {
	return patch(m, n, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(1.2 * u)
		return mesh.Vec{X: 300 * s, Y: 500 * v, Z: 300 * c}
	})
}

// horn is a piece of a cone with rulings along v.
func horn(m, n int) mesh.Mesh {
	return patch(m, n, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2.5 * u)
		slant, half := 200+400*v, 20*math.Pi/180
		return mesh.Vec{X: slant * math.Sin(half) * c, Y: slant * math.Sin(half) * s, Z: -slant * math.Cos(half)}
	})
}

func TestConformal_IsExactOnWhatUnrolls(t *testing.T) {
	level, _ := plane(12, 8, 0.4)
	for name, m := range map[string]mesh.Mesh{"plane": level, "cylinder": bent(30, 12), "cone": horn(30, 12), "plate with holes": holed(8)} {
		d, s, at, scale := laidConformal(t, Problem{Surface: m})
		f := faceStrains(s, at)
		if w := sumUp(s, at, f, d.border); math.Abs(w.Stretch[2]) > 1e-9 || w.Flips > 0 || w.Overlaps > 0 {
			t.Errorf("%s: strain %g, %d flips, %d overlaps", name, w.Stretch[2], w.Flips, w.Overlaps)
		}
		if u := max(slices.Max(scale), -slices.Min(scale)); u > 1e-9 {
			t.Errorf("%s: log scale %g", name, u)
		}
	}
}

// A cap of half-angle a has the log scale of stereographic projection, 0 at its
// rim: 2 log(cos(a/2) / cos(r/2)) at the angle r, pattern over surface is
// cos²(r/2) / cos²(a/2) turned over.
func TestConformal_CapIsStereographic(t *testing.T) {
	const half = 1.0
	rings := 40
	_, _, at, scale := laidConformal(t, Problem{Surface: dome(rings, 100, half)})
	for k := 0; k < rings; k += 8 {
		v, r := 0, half*float64(k)/float64(rings)
		if k > 0 {
			v = 1 + 3*k*(k-1)
		}
		want := 2 * math.Log(math.Cos(r/2)/math.Cos(half/2))
		if math.Abs(math.Abs(scale[v])-want) > 2e-3 {
			t.Errorf("at %.2f rad the log scale is %.5f, want %.5f", r, scale[v], want)
		}
		away, rim := at[v].Distance(at[0]), at[len(at)-1].Distance(at[0])
		if want := math.Tan(r/2) / math.Tan(half/2); math.Abs(away/rim-want) > 2e-3 {
			t.Errorf("at %.2f rad the place is %.5f of the rim, want %.5f", r, away/rim, want)
		}
	}
}

func TestDefects_SumToWhatTheShapeHas(t *testing.T) {
	for name, c := range map[string]struct {
		surface mesh.Mesh
		want    float64
	}{"box": {box(), 4 * math.Pi}, "ring": {ring(20, 10, 100, 30), 0}, "cap": {dome(8, 100, 1), 2 * math.Pi}} {
		s := mustSheet(t, c.surface)
		var boundary []int32
		if loops := c.surface.BoundaryLoops(); len(loops) > 0 {
			boundary = loops[0]
		}
		var sum float64
		for _, d := range defects(s, boundary) {
			sum += d
		}
		if math.Abs(sum-c.want) > 1e-9 {
			t.Errorf("%s: %g, want %g (Gauss, Bonnet)", name, sum, c.want)
		}
	}
}

func TestOutline_ClosesWithLeastChange(t *testing.T) {
	square := outline([]float64{math.Pi / 2, math.Pi / 2, math.Pi / 2, math.Pi / 2}, []float64{2, 1, 2.2, 1})
	for i, want := range []geom.Point{{}, {X: 2.0952381}, {X: 2.0952381, Y: 1}, {Y: 1}} {
		if square[i].Distance(want) > 1e-6 {
			t.Errorf("corner %d at %v, want %v", i, square[i], want)
		}
	}
}

func TestRound_TurnsNothingOver(t *testing.T) {
	wild := patch(20, 20, func(u, v float64) mesh.Vec {
		return mesh.Vec{X: u, Y: v, Z: 3 * math.Sin(7*u) * math.Cos(9*v*v)}
	})
	d, err := open(Problem{Surface: wild})
	if err != nil {
		t.Fatal(err)
	}
	s := mustSheet(t, d.mesh)
	l, err := newLaplace(s, d.border.rim(), &Stats{})
	if err != nil {
		t.Fatal(err)
	}
	for _, change := range []func() error{
		func() error { return l.raise(d.near, &Stats{}) },
		func() error { return l.even(&Stats{}) },
	} {
		if err := change(); err != nil {
			t.Fatal(err)
		}
		at := round(s, l, d.border.rim(), &Stats{})
		if n := s.flipped(at); n > 0 || s.branched(at, d.border) {
			t.Errorf("%d faces turned over", n)
		}
	}
}

func TestBranched_SeesWhatNoFaceTells(t *testing.T) {
	// Twelve faces around a middle, laid so that they go round it twice.
	var m mesh.Mesh
	m.Points = append(m.Points, mesh.Vec{})
	var once, twice []geom.Point
	once, twice = append(once, geom.Point{}), append(twice, geom.Point{})
	for i := range 12 {
		s, c := math.Sincos(math.Pi * float64(i) / 6)
		m.Points, once = append(m.Points, mesh.Vec{X: c, Y: s}), append(once, geom.Point{X: c, Y: s})
		s, c = math.Sincos(math.Pi * float64(i) / 3)
		twice = append(twice, geom.Point{X: c, Y: s})
		m.Faces = append(m.Faces, mesh.Face{0, int32(i + 1), int32((i+1)%12 + 1)})
	}
	s, rim := mustSheet(t, m), newBorder(m.BoundaryLoops()...)
	if s.flipped(twice) != 0 || !s.branched(twice, rim) || s.branched(once, rim) {
		t.Error("a pattern that goes round a vertex twice is not told from one that does not")
	}
}
