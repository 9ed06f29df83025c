package flatten

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

func TestFaceStrain_OfKnownMaps(t *testing.T) {
	for name, c := range map[string]struct {
		map_ jacobian
		want FaceStrain
	}{
		"as it is":               {jacobian{1, 0, 0, 1}, FaceStrain{}},
		"turned":                 {jacobian{0, -1, 1, 0}, FaceStrain{}},
		"pattern too short in x": {jacobian{0.8, 0, 0, 1}, FaceStrain{Stretch: [2]float64{0.25, 0}, Along: 0.25}},
		"pattern too long in y":  {jacobian{1, 0, 0, 1.25}, FaceStrain{Stretch: [2]float64{0, -0.2}, Across: -0.2}},
		"short across, at 45°":   {jacobian{0.9, -0.1, -0.1, 0.9}, FaceStrain{Stretch: [2]float64{0.25, 0}, Angle: math.Pi / 4}},
	} {
		got := faceStrain(c.map_)
		if math.Abs(got.Stretch[0]-c.want.Stretch[0]) > 1e-12 || math.Abs(got.Stretch[1]-c.want.Stretch[1]) > 1e-12 {
			t.Errorf("%s: stretches %v, want %v", name, got.Stretch, c.want.Stretch)
		}
		if c.want.Angle != 0 && math.Abs(got.Angle-c.want.Angle) > 1e-12 {
			t.Errorf("%s: angle %g, want %g", name, got.Angle, c.want.Angle)
		}
		if c.want.Angle == 0 && (math.Abs(got.Along-c.want.Along) > 1e-12 || math.Abs(got.Across-c.want.Across) > 1e-12 || math.Abs(got.Shear) > 1e-12) {
			t.Errorf("%s: along %g across %g shear %g", name, got.Along, got.Across, got.Shear)
		}
	}
}

func TestFaceStrain_ShearIsTheAngleLost(t *testing.T) {
	// The pattern's square is a rhombus on the surface: y leans by 0.2 rad.
	s, c := math.Sincos(0.2)
	back := jacobian{1, s, 0, c}
	d := back.det()
	got := faceStrain(jacobian{back.YY / d, -back.XY / d, -back.YX / d, back.XX / d})
	if math.Abs(got.Shear-0.2) > 1e-12 || math.Abs(got.Along) > 1e-12 || math.Abs(got.Across) > 1e-12 {
		t.Errorf("%+v", got)
	}
}

func TestSumUp_OfOneStretch(t *testing.T) {
	m, at := plane(10, 10, 0.3)
	s := mustSheet(t, m)
	longer := mapped(at, func(p geom.Point) geom.Point { return geom.Point{X: 2 * p.X, Y: p.Y / 2} })
	w := sumUp(s, longer, faceStrains(s, longer), newBorder(m.BoundaryLoops()...))
	want := Strain{Dirichlet: 8.5, Quasi: 4, Stretch: [3]float64{1, -0.5, 1}}
	for i, pair := range [][2]float64{{w.Dirichlet, want.Dirichlet}, {w.Quasi, want.Quasi}, {w.AreaRMS, 0}, {w.Stretch[0], 1}, {w.Stretch[1], -0.5}, {w.Along[0], -0.5}, {w.Across[1], 1}} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("figure %d is %g, want %g", i, pair[0], pair[1])
		}
	}
}

func TestAlign_EvenAndRoundShapesToo(t *testing.T) {
	level := func(u, v float64) mesh.Vec { return mesh.Vec{X: 30 * u, Y: 10 * v} }
	square := func(u, v float64) mesh.Vec { return mesh.Vec{X: 10 * u, Y: 10 * v} }
	for name, m := range map[string]mesh.Mesh{"oblong": patch(8, 4, level), "square": patch(6, 6, square), "round": dome(6, 100, 0.01)} {
		d, err := open(Problem{Surface: m})
		if err != nil {
			t.Fatal(err)
		}
		s, flat := mustSheet(t, d.mesh), make([]geom.Point, len(m.Points))
		for v, p := range m.Points {
			flat[v] = geom.Point{X: p.X, Y: p.Y}
		}
		var first []geom.Point
		for i := range 12 {
			at := spun(flat, 0.1+0.55*float64(i), 1)
			if err := align(d, s, at, Grain{}); err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = at
			}
			if off := at[3].Distance(first[3]); off > 1e-6 {
				t.Errorf("%s: turned %d times, a vertex lies %g off", name, i, off)
			}
		}
	}
}

func TestAlign_LiesTheSameWayHoweverFound(t *testing.T) {
	wedge := patch(12, 6, func(u, v float64) mesh.Vec { return mesh.Vec{X: 30 * u, Y: (10 - 4*u) * (v - 0.5), Z: 0.2 * u * v} })
	d, err := open(Problem{Surface: wedge})
	if err != nil {
		t.Fatal(err)
	}
	s := mustSheet(t, d.mesh)
	flat := make([]geom.Point, len(wedge.Points))
	for v, p := range wedge.Points {
		flat[v] = geom.Point{X: p.X, Y: p.Y}
	}
	var first []geom.Point
	for _, angle := range []float64{0, 0.3, 2, -1.5, 3.1} {
		at := spun(flat, angle, 1)
		if err := align(d, s, at, Grain{}); err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = slices.Clone(at)
		}
		for v := range at {
			if at[v].Distance(first[v]) > 1e-9 {
				t.Fatalf("turned by %g, vertex %d lies at %v, not at %v", angle, v, at[v], first[v])
			}
		}
		if err := align(d, s, at, Grain{From: 6, To: 0}); err != nil {
			t.Fatal(err)
		}
		if way := at[0].Sub(at[6]); math.Abs(way.Y) > 1e-9 || way.X <= 0 {
			t.Errorf("the grain runs along %v", way)
		}
	}
	if err := align(d, s, first, Grain{From: 0, To: 999}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("a grain off the surface: %v", err)
	}
}

func TestCheck_FindsWhatIsWrong(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	p := Problem{Surface: dome(8, 100, 1), Cuts: [][]int32{{0, 1, 7, 19, 37, 61, 91, 127, 169}}}
	good := lay(t, p)
	if _, err := Check(p, good); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(*Result){
		"a point moved":          func(r *Result) { r.Flat.Points[40].X += 0.1 },
		"a face turned over":     func(r *Result) { r.Flat.Points[40] = r.Flat.Points[10] },
		"a point nowhere":        func(r *Result) { r.Flat.Points[40].X = math.Inf(1) },
		"a face left out":        func(r *Result) { r.Flat.Faces = r.Flat.Faces[1:] },
		"faces in another order": func(r *Result) { r.Flat.Faces[0], r.Flat.Faces[9] = r.Flat.Faces[9], r.Flat.Faces[0] },
		"a cut not told":         func(r *Result) { r.Cuts = nil },
		"a better strain told":   func(r *Result) { r.Material.Dirichlet -= 1e-4 },
		"a better stretch told":  func(r *Result) { r.Material.Stretch[0] -= 1e-4 },
		"a worse crossing told":  func(r *Result) { r.Material.Overlaps = 3 },
		"grown":                  func(r *Result) { r.Flat.Points = spun(r.Flat.Points, 0.1, 1.001) },
		"a source mistaken":      func(r *Result) { r.Flat.Source[5] = int32(rng.IntN(5)) },
	} {
		r := good
		r.Flat.Points, r.Flat.Faces, r.Flat.Source = slices.Clone(r.Flat.Points), slices.Clone(r.Flat.Faces), slices.Clone(r.Flat.Source)
		spoil(&r)
		if _, err := Check(p, r); fault.KindOf(err) != fault.Invalid || err == nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestCheck_FindsOverlapsAndDoubleTurns(t *testing.T) {
	m := ramp(1.3)
	d, s, at, _ := laidConformal(t, Problem{Surface: m})
	r := Result{Flat: Flat{Points: at, Faces: d.mesh.Faces, Source: d.source}}
	r.Material = sumUp(s, at, faceStrains(s, at), d.border)
	got, err := Check(Problem{Surface: m}, r)
	if err != nil || got.Overlaps == 0 {
		t.Errorf("%d overlaps, %v", got.Overlaps, err)
	}
	r.Material.Overlaps = 0
	if _, err := Check(Problem{Surface: m}, r); err == nil {
		t.Error("overlaps that are not told pass")
	}
}
