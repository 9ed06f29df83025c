package flatten

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// saddled is a piece with curvature of both signs, a hole and no symmetry.
func saddled() mesh.Mesh {
	return pierced(patch(14, 11, func(u, v float64) mesh.Vec {
		return mesh.Vec{X: 140 * u, Y: 110 * v, Z: 25*math.Sin(3*u)*math.Cos(2*v) + 9*u*v}
	}), within(90, 60, 22))
}

// A surface lies as it lies however it is turned in space; its mirror image has
// the mirror image for its pattern; and the names of its vertices and the order
// of its faces do not matter.
func TestSolve_DoesNotDependOnHowItIsTold(t *testing.T) {
	m := saddled()
	want := lay(t, Problem{Surface: m})
	s1, c1 := math.Sincos(0.7)
	s2, c2 := math.Sincos(-1.9)
	turned, mirrored, renamed := mesh.Mesh{Faces: m.Faces}, mesh.Mesh{}, mesh.Mesh{Points: make([]mesh.Vec, len(m.Points))}
	other, next := mesh.Mesh{Points: m.Points}, mesh.Mesh{Points: m.Points}
	rng := rand.New(rand.NewPCG(4, 1))
	name := rng.Perm(len(m.Points))
	for v, p := range m.Points {
		q := mesh.Vec{X: c1*p.X - s1*p.Y, Y: s1*p.X + c1*p.Y, Z: p.Z}
		turned.Points = append(turned.Points, mesh.Vec{X: q.X - 400, Y: c2*q.Y - s2*q.Z, Z: s2*q.Y + c2*q.Z + 70})
		mirrored.Points = append(mirrored.Points, mesh.Vec{X: -p.X, Y: p.Y, Z: p.Z})
		renamed.Points[name[v]] = p
	}
	for _, f := range m.Faces {
		mirrored.Faces = append(mirrored.Faces, f.Flip())
		renamed.Faces = append(renamed.Faces, mesh.Face{int32(name[f[0]]), int32(name[f[1]]), int32(name[f[2]])})
		next.Faces = append(next.Faces, mesh.Face{f[1], f[2], f[0]})
	}
	for _, i := range rng.Perm(len(m.Faces)) {
		other.Faces = append(other.Faces, m.Faces[i])
	}
	for how, m := range map[string]mesh.Mesh{"turned": turned, "mirrored": mirrored, "renamed": renamed, "in another order": other, "corners in turn": next} {
		r := lay(t, Problem{Surface: m})
		if math.Abs(r.Isometric.Dirichlet-want.Isometric.Dirichlet) > 1e-9 || math.Abs(r.Isometric.Stretch[2]-want.Isometric.Stretch[2]) > 1e-4 {
			t.Errorf("%s: density %.12f and stretch %g, want %.12f and %g", how, r.Isometric.Dirichlet, r.Isometric.Stretch[2], want.Isometric.Dirichlet, want.Isometric.Stretch[2])
		}
		got, wide := r.Flat.Outline(), want.Flat.Outline()
		if len(got.Holes) != 1 || math.Abs(got.Area()-wide.Area()) > 1e-4*wide.Area() || math.Abs(got.Bounds().Width()-wide.Bounds().Width()) > 1e-4*wide.Bounds().Width() {
			t.Errorf("%s: %g over a width of %g, want %g over %g", how, got.Area(), got.Bounds().Width(), wide.Area(), wide.Bounds().Width())
		}
	}
}

// A finer mesh of the same surface has nearly the same pattern.
func TestSolve_NearlyTheSameOnAFinerMesh(t *testing.T) {
	shape := func(u, v float64) mesh.Vec {
		return mesh.Vec{X: 140 * u, Y: 110 * v, Z: 25 * math.Sin(3*u) * math.Cos(2*v)}
	}
	var last, off float64
	for i, n := range []int{8, 16, 32} {
		got := lay(t, Problem{Surface: patch(n, n, shape)}).Isometric.Dirichlet
		if i > 1 && math.Abs(got-last) > 0.5*off {
			t.Errorf("%d cells a side: %.6f, before %.6f", n, got, last)
		}
		last, off = got, math.Abs(got-last)
	}
}

func TestScale_IsTheBestSize(t *testing.T) {
	m, at := plane(6, 5, 0.4)
	s := mustSheet(t, m)
	bent := mapped(at, func(p geom.Point) geom.Point { return geom.Point{X: 3*p.X + 0.2*p.Y*p.Y, Y: 2 * p.Y} })
	s.scale(bent)
	best := s.total(dirichlet{}, bent)
	for _, k := range []float64{0.99, 1.01, 0.5, 2} {
		if got := s.total(dirichlet{}, mapped(bent, func(p geom.Point) geom.Point { return p.Scale(k) })); got <= best {
			t.Errorf("%g times as large it costs %g, less than %g", k, got, best)
		}
	}
	small := mapped(at, func(p geom.Point) geom.Point { return p.Scale(1e-7) })
	if s.scale(small); math.Abs(s.total(dirichlet{}, small)/s.area-4) > 1e-9 {
		t.Error("a pattern that is only too small is not made right")
	}
}

// A tube with a closed end, a thousand times as long as wide, presses its end
// together beyond all numbers on any disc.
func TestBegin_RefusesWhatNoDiscHolds(t *testing.T) {
	m := rolled(6, 1200, false, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * u)
		return mesh.Vec{X: c, Y: s, Z: 1200 * v}
	})
	tip := int32(len(m.Points))
	m.Points = append(m.Points, mesh.Vec{Z: 1201})
	for i := range int32(6) {
		m.Faces = append(m.Faces, mesh.Face{i*1201 + 1200, (i+1)%6*1201 + 1200, tip})
	}
	d, err := open(Problem{Surface: m})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.begin(Options{}, &Stats{}); err == nil || fault.KindOf(err) != fault.Invalid {
		t.Errorf("%v", err)
	}
	// Open at both ends it is slit, whatever came of trying otherwise.
	m.Faces = m.Faces[:len(m.Faces)-6]
	p := Problem{Surface: m}
	r := lay(t, p)
	if _, err := Check(p, r); err != nil || len(r.Cuts) != 1 || math.Abs(r.Isometric.Stretch[2]) > 1e-6 {
		t.Errorf("%d cuts, strain %g, %v", len(r.Cuts), r.Isometric.Stretch[2], err)
	}
}

// Easing brings a bad start near and leaves the sheet's own shapes alone.
func TestEase_ComesNear(t *testing.T) {
	m := dome(12, 100, 1.2)
	s := mustSheet(t, m)
	at := make([]geom.Point, len(m.Points))
	for v, p := range m.Points {
		far := math.Hypot(p.X, p.Y) / 100
		at[v] = geom.Point{X: p.X * (1e-3 + math.Pow(far, 8)), Y: p.Y * (1e-3 + math.Pow(far, 8))}
	}
	s.scale(at)
	if s.flipped(at) > 0 {
		t.Fatal("the start is turned over")
	}
	n := newNewton(s, dirichlet{}, &Stats{})
	before, own := s.total(n.energy, at)/s.area, append([]rest(nil), s.rest...)
	if err := n.ease(context.Background(), at, 60, func(int) {}); err != nil {
		t.Fatal(err)
	}
	after := s.total(n.energy, at) / s.area
	if before < 500 || after > easeLevel || s.flipped(at) > 0 {
		t.Errorf("density %g, eased %g, %d faces turned over", before, after, s.flipped(at))
	}
	if n.sheet != s {
		t.Error("another sheet is left behind")
	}
	for i, r := range s.rest {
		if r != own[i] {
			t.Fatalf("face %d has another shape", i)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	still := append([]geom.Point(nil), at...)
	if err := n.ease(ctx, at, 60, func(int) { t.Error("a step was taken") }); err != nil || at[5] != still[5] {
		t.Errorf("after its end: %v", err)
	}
}

// The cap of a step is where the first face vanishes: below it none is turned
// over, beyond it one is.
func TestCap_IsWhereTheFirstFaceVanishes(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 1))
	m, at := plane(5, 5, 0.5)
	s := mustSheet(t, m)
	for range 50 {
		step := mapped(at, func(geom.Point) geom.Point { return geom.Point{X: rng.NormFloat64(), Y: rng.NormFloat64()} })
		first := s.cap(at, step)
		moved := func(share float64) []geom.Point {
			out := append([]geom.Point(nil), at...)
			for v := range out {
				out[v] = out[v].Add(step[v].Scale(share))
			}
			return out
		}
		if s.flipped(moved(first*(1-1e-9))) > 0 || s.flipped(moved(first*(1+1e-6))) == 0 {
			t.Errorf("%g is not where the first face vanishes", first)
		}
	}
	if along := s.cap(at, mapped(at, func(geom.Point) geom.Point { return geom.Point{X: 3, Y: 1} })); !math.IsInf(along, 1) {
		t.Errorf("a step of the whole has a cap of %g", along)
	}
	grows := append([]geom.Point(nil), at...)
	if c := s.cap(at, grows); !math.IsInf(c, 1) {
		t.Errorf("a pattern that grows has a cap of %g", c)
	}
}

func TestMoved_IsTheChangeOfStretch(t *testing.T) {
	m, at := plane(6, 4, 0.3)
	s := mustSheet(t, m)
	for name, c := range map[string]struct {
		step func(geom.Point) geom.Point
		want float64
	}{
		"slides":      {func(geom.Point) geom.Point { return geom.Point{X: 9, Y: -4} }, 0},
		"1 % longer":  {func(p geom.Point) geom.Point { return geom.Point{X: 0.01 * p.X} }, 0.01},
		"1 % larger":  {func(p geom.Point) geom.Point { return p.Scale(0.01) }, 0.01 * math.Sqrt2},
		"1 % sheared": {func(p geom.Point) geom.Point { return geom.Point{X: 0.01 * p.Y} }, 0.01},
	} {
		mean, most := s.moved(at, mapped(at, c.step))
		if math.Abs(mean-c.want) > 1e-12 || math.Abs(most-c.want) > 1e-12 {
			t.Errorf("%s: %g in the mean, %g at most, want %g", name, mean, most, c.want)
		}
	}
}
