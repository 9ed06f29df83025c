package flatten

import (
	"context"
	"math"
	"testing"

	"fettle/geom/mesh"
)

func lay(t testing.TB, p Problem) Result {
	t.Helper()
	r, err := Solve(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Material.Flips != 0 {
		t.Fatalf("%d faces are turned over", r.Material.Flips)
	}
	return r
}

func TestMaterial_CylinderStaysUnstrained(t *testing.T) {
	m := patch(12, 10, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(1.2 * u)
		return mesh.Vec{X: 300 * s, Y: 500 * v, Z: 300 * c}
	})
	for _, material := range []Material{Leather(), Vinyl(), Cloth()} {
		r := lay(t, Problem{Surface: m, Material: &material})
		if most := math.Abs(r.Material.Stretch[2]); most > 1e-6 {
			t.Errorf("%s: strain of %g on what rolls out flat", material.Name, most)
		}
	}
}

// The cushion that can be covered at 12 % and not at 8 %, and what no leather
// covers in one piece.
func TestMaterial_VerdictsOfKnownSurfaces(t *testing.T) {
	for _, c := range []struct {
		name        string
		tension     float64
		least, most float64 // share outside
	}{
		{"seat_cushion", 0.12, 0, 0.005},
		{"seat_cushion", 0.08, 0.05, 0.15},
		{"rim_sector", 0.12, 0.1, 0.4},
		{"rim_sector", 0.08, 0.3, 0.8},
		{"sphere_cap60", 0.12, 0.25, 1},
		{"sphere_cap20", 0.08, 0, 1e-9},
	} {
		r := lay(t, Problem{Surface: shared(t, "analytic/"+c.name+".obj"), Material: even(c.tension)})
		if got := r.Material.Outside; got < c.least || got > c.most {
			t.Errorf("%s at %g: %.2f %% outside, want %g to %g %%", c.name, c.tension, 100*got, 100*c.least, 100*c.most)
		}
		t.Logf("%s at %g: %.2f %% outside (near isometry %.2f %%), %v", c.name, c.tension, 100*r.Material.Outside, 100*r.Isometric.Outside, r.Material.Stretch)
	}
}

func TestMaterial_DomeIsPulledNotPushed(t *testing.T) {
	r := lay(t, Problem{Surface: dome(12, 400, 0.35), Material: even(0.08)})
	if r.Material.Outside > 0 {
		t.Errorf("%.2f %% is outside", 100*r.Material.Outside)
	}
	if r.Material.Stretch[1] < -0.0105 || r.Material.Stretch[0] <= 0 {
		t.Errorf("stretch %v", r.Material.Stretch)
	}
}

// A dome is the same all round, so the strains of a pattern of one material are.
func TestMaterial_SymmetryIsKept(t *testing.T) {
	m := dome(8, 400, 0.5)
	r := lay(t, Problem{Surface: m, Material: even(0.05)})
	for six := range 6 { // the first face of each sixth of the outermost ring
		f, g := r.Faces[6*49+six*15], r.Faces[6*49]
		if math.Abs(f.Stretch[0]-g.Stretch[0]) > 1e-3 || math.Abs(f.Stretch[1]-g.Stretch[1]) > 1e-3 {
			t.Errorf("sixth %d: %v, first: %v", six, f.Stretch, g.Stretch)
		}
	}
}

// A slit in a saddle of the cushion closes: its sides would lie over each other
// on the pattern, and are kept apart.
func TestMaterial_OutlineIsKeptApart(t *testing.T) {
	r := lay(t, Problem{Surface: shared(t, "analytic/seat_cushion.obj"), Material: even(0.08), Cuts: [][]int32{{493, 492, 442, 392}}})
	if r.Isometric.Overlaps != 0 || r.Material.Overlaps != 0 {
		t.Errorf("%d overlaps, %d before the material", r.Material.Overlaps, r.Isometric.Overlaps)
	}
}

func TestMaterial_GrainIsHeld(t *testing.T) {
	m := patch(10, 10, func(u, v float64) mesh.Vec {
		return mesh.Vec{X: 300 * u, Y: 300 * v, Z: 60 * math.Sin(math.Pi*u) * math.Sin(math.Pi*v)}
	})
	leather := Leather()
	from, to := int32(0), int32(10*11+7)
	r := lay(t, Problem{Surface: m, Material: &leather, Grain: Grain{from, to}})
	a, b := r.Flat.Points[from], r.Flat.Points[to]
	if math.Abs(a.Y-b.Y) > 1e-9 || b.X <= a.X {
		t.Errorf("grain runs from %v to %v", a, b)
	}
}

// Leather that gives across more than along is laid so that it is pulled across.
func TestMaterial_FreeGrainTakesTheEasierWay(t *testing.T) {
	m := patch(24, 8, func(u, v float64) mesh.Vec { // a barrel, rolled along x, bulged along y
		a, r := 1.5*(u-0.5), 200-60*math.Pow(2*v-1, 2)
		s, c := math.Sincos(a)
		return mesh.Vec{X: r * s, Y: 160 * v, Z: r * c}
	})
	material := Leather()
	material.Tension, material.Stiffness = [2]float64{0.03, 0.12}, [2]float64{1, 0.3}
	free := lay(t, Problem{Surface: m, Material: &material})
	along := lay(t, Problem{Surface: m, Material: &material, Grain: Grain{int32(4), int32(24*9 + 4)}}) // along the roll, which must be pulled
	if free.Material.Outside >= along.Material.Outside {
		t.Errorf("free %.2f %% outside, against its nature %.2f %%", 100*free.Material.Outside, 100*along.Material.Outside)
	}
}

func TestMaterial_Deterministic(t *testing.T) {
	p := Problem{Surface: dome(6, 400, 0.6), Material: even(0.05)}
	a, b := lay(t, p), lay(t, p)
	for v := range a.Flat.Points {
		if a.Flat.Points[v] != b.Flat.Points[v] {
			t.Fatalf("vertex %d: %v, then %v", v, a.Flat.Points[v], b.Flat.Points[v])
		}
	}
}

func TestMaterial_Interrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	r, err := Solve(ctx, Problem{Surface: dome(6, 400, 0.6), Material: even(0.05)}, Options{Progress: func(p Progress) {
		if p.Stage == "material" {
			cancel()
		}
	}})
	if err != nil || r.Status != Interrupted || r.Material.Flips != 0 {
		t.Errorf("status %v, flips %d, %v", r.Status, r.Material.Flips, err)
	}
}

func TestMaterial_BadFigures(t *testing.T) {
	for name, spoil := range map[string]func(*Material){
		"tension":   func(m *Material) { m.Tension[0] = -0.1 },
		"squeeze":   func(m *Material) { m.Squeeze[1] = 1 },
		"stiffness": func(m *Material) { m.Stiffness[0] = 0 },
		"Poisson":   func(m *Material) { m.Poisson = 0.7 },
		"shear":     func(m *Material) { m.Shear = 0 },
		"slack":     func(m *Material) { m.Slack = math.NaN() },
		"metal":     func(m *Material) { m.Metal = &Metal{} },
	} {
		m := Leather()
		spoil(&m)
		if _, err := Solve(context.Background(), Problem{Surface: dome(2, 400, 0.2), Material: &m}, Options{}); err == nil {
			t.Errorf("%s passed", name)
		}
	}
}

// Glued, a cover takes up what would wrinkle it sewn.
func TestMaterial_GluedBearsMore(t *testing.T) {
	surface := dome(10, 400, 0.75)
	sewn := *even(0.06)
	glued := sewn.Glued()
	a, b := lay(t, Problem{Surface: surface, Material: &sewn}), lay(t, Problem{Surface: surface, Material: &glued})
	if a.Material.Outside <= b.Material.Outside {
		t.Errorf("sewn %.3f outside, glued %.3f", a.Material.Outside, b.Material.Outside)
	}
}
