package flatten

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

// pierced leaves out the faces whose middle lies in a hole.
func pierced(m mesh.Mesh, hole func(middle mesh.Vec) bool) mesh.Mesh {
	var kept []mesh.Face
	for _, f := range m.Faces {
		if !hole(m.Points[f[0]].Add(m.Points[f[1]]).Add(m.Points[f[2]]).Scale(1.0 / 3)) {
			kept = append(kept, f)
		}
	}
	m.Faces = kept
	return m
}

// within says whether a place, seen along z, is near another.
func within(x, y, radius float64) func(mesh.Vec) bool {
	return func(c mesh.Vec) bool { return math.Hypot(c.X-x, c.Y-y) < radius }
}

// funnel is a cone all the way round, from radius 100 at its mouth to 200 at its
// foot, of the height told.
func funnel(high float64) mesh.Mesh {
	return rolled(60, 20, false, func(u, v float64) mesh.Vec {
		s, c := math.Sincos(2 * math.Pi * u)
		return mesh.Vec{X: (100 + 100*v) * c, Y: (100 + 100*v) * s, Z: -high * v}
	})
}

// vents are five holes halfway up a funnel.
func vents(c mesh.Vec) bool {
	fifth := math.Mod(math.Atan2(c.Y, c.X)+2*math.Pi, 2*math.Pi/5)
	return math.Abs(fifth-math.Pi/5) < 0.3 && math.Abs(math.Hypot(c.X, c.Y)-150) < 15
}

func TestHoles_StayOrAreCut(t *testing.T) {
	bend := bent(40, 40)
	bite := func(c mesh.Vec) bool { // a hole that is no star: its middle lies in the surface
		x, y := c.X-130, c.Y-250
		return math.Abs(x) < 70 && math.Abs(y) < 120 && !(math.Abs(x) < 40 && y > -60)
	}
	for name, c := range map[string]struct {
		surface     mesh.Mesh
		given       [][]int32
		holes, cuts int
		exact       float64 // most strain, where it unrolls
	}{
		"a level plate":            {surface: holed(8), holes: 8, exact: 1e-9},
		"a cylinder":               {surface: pierced(bend, within(100, 200, 40)), holes: 1, exact: 1e-5},
		"a crooked hole":           {surface: pierced(bend, bite), holes: 1, exact: 1e-5},
		"a funnel":                 {surface: funnel(60), cuts: 1, exact: 1e-5},
		"a funnel with vents":      {surface: pierced(funnel(60), vents), holes: 5, cuts: 1, exact: 1e-5},
		"a pipe":                   {surface: pipe(24, 8, 50, 200), cuts: 1, exact: 1e-5},
		"a cap, its top out":       {surface: pierced(dome(20, 100, 1), within(0, 0, 20)), holes: 1},
		"a cap, a side out":        {surface: pierced(dome(20, 100, 1), within(40, 0, 15)), holes: 1},
		"a band of a half sphere":  {surface: pierced(dome(20, 100, 1.5), within(0, 0, 80)), cuts: 1},
		"a plate, cut where asked": {surface: holed(8), given: [][]int32{between(holed(8), 0, 2*25+2)}, holes: 7, cuts: 1, exact: 1e-9},
	} {
		p := Problem{Surface: c.surface, Cuts: c.given}
		r := lay(t, p)
		if _, err := Check(p, r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if got := len(r.Flat.Outline().Holes); got != c.holes || len(r.Cuts) != c.cuts {
			t.Errorf("%s: %d holes stay, %d cuts, want %d and %d", name, got, len(r.Cuts), c.holes, c.cuts)
		}
		if w := r.Isometric; c.exact > 0 && math.Abs(w.Stretch[2]) > c.exact || w.Overlaps > 0 || r.Status != Settled {
			t.Errorf("%s: strain %g, %d overlaps, status %d", name, w.Stretch[2], w.Overlaps, r.Status)
		}
		if area := r.Flat.Outline().Area(); c.exact > 0 && math.Abs(area/c.surface.Area()-1) > c.exact {
			t.Errorf("%s: the outline holds %g, the surface has %g", name, area, c.surface.Area())
		}
	}
}

// between returns the shortest way from one vertex to another along edges.
func between(m mesh.Mesh, from, to int32) []int32 {
	path, _ := m.Adjacency().ShortestPath([]int32{from}, []int32{to}, m.EdgeLength)
	return path
}

// Open holes only ever cost strain: joining them gives the pattern more freedom.
func TestHoles_OpenCostsNoLessThanJoined(t *testing.T) {
	for name, m := range map[string]mesh.Mesh{
		"funnel": pierced(funnel(60), vents), "cap": pierced(dome(20, 100, 1), within(40, 0, 15)), "pipe": pipe(24, 8, 50, 100),
	} {
		d, err := open(Problem{Surface: m})
		if err != nil {
			t.Fatal(err)
		}
		var density []float64
		for _, d := range []*disc{d, joined(t, Problem{Surface: m})} {
			l, err := d.free(context.Background(), Options{Steps: 100}, &Stats{})
			if err != nil {
				t.Fatal(err)
			}
			density = append(density, l.density)
		}
		if density[0] < density[1]-1e-9 {
			t.Errorf("%s: %g open, %g joined", name, density[0], density[1])
		}
	}
}

// The edge of a hole hides what curvature the surface had there: of a sphere, by
// its cap; of a cone, its tip; nothing where it is level.
func TestHidden_IsTheCurvatureCutOut(t *testing.T) {
	half := math.Atan2(100, 60)
	for name, c := range map[string]struct {
		surface mesh.Mesh
		want    float64
	}{
		"plate": {holed(8), 0}, "cylinder": {pierced(bent(40, 40), within(100, 200, 40)), 0},
		"cone": {funnel(60), 2 * math.Pi * (1 - math.Sin(half))},
		"cap":  {pierced(dome(40, 100, 1.2), within(0, 0, 100*math.Sin(0.63))), 2 * math.Pi * (1 - math.Cos(0.645))}, // its edge and half a ring of faces beyond,
	} {
		d, err := open(Problem{Surface: c.surface})
		if err != nil {
			t.Fatal(err)
		}
		_, secret, err := d.hidden()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(secret[0]-c.want) > 0.005*c.want+1e-9 {
			t.Errorf("%s: %.4f hidden, want %.4f", name, secret[0], c.want)
		}
	}
	d, err := open(Problem{Surface: pierced(funnel(60), vents)})
	if err != nil {
		t.Fatal(err)
	}
	holes, secret, err := d.hidden()
	if err != nil || len(holes) != 6 || len(holes[0]) != 60 || secret[0] < 0.5 || secret[1] > 0.01 {
		t.Errorf("the mouth of a funnel is not the first: %v, %v", secret, err)
	}
}

// What is dear is joined; what holds nobody up is not.
func TestBears_ByStrainAndOverlaps(t *testing.T) {
	for name, c := range map[string]struct {
		open, joined float64
		laps         int
		want         bool
	}{
		"as good":                      {4.001, 4.001, 0, true},
		"dearer by little":             {4.02, 4.001, 0, true},
		"dearer by much":               {4.03, 4.001, 0, false},
		"what would unroll":            {4.001, 4 + 1e-9, 0, false},
		"what nobody can tell":         {4.0001, 4 + 1e-9, 0, true},
		"one that lies over itself":    {4.001, 4.001, 1, false},
		"rough ground, dearer by more": {4.5, 4.4, 0, false},
	} {
		open, all := &laying{density: c.open, overlaps: c.laps}, &laying{density: c.joined}
		if open.bears(all) != c.want {
			t.Errorf("%s: %v", name, !c.want)
		}
	}
}

// Steps that end early leave a pattern that is good in itself.
func TestHoles_EndWhenToldTo(t *testing.T) {
	for name, m := range map[string]mesh.Mesh{"funnel": pierced(funnel(60), vents), "pipe": pipe(24, 8, 50, 200)} {
		p := Problem{Surface: m}
		r, err := Solve(context.Background(), p, Options{Steps: 1})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Check(p, r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		ctx, cancel := context.WithCancel(context.Background())
		steps := 0
		r, err = Solve(ctx, p, Options{Progress: func(g Progress) {
			if steps++; steps == 6 {
				cancel()
			}
		}})
		cancel()
		if err != nil || r.Status != Interrupted {
			t.Errorf("%s: status %d, %v", name, r.Status, err)
		}
		if _, err := Check(p, r); err != nil {
			t.Errorf("%s, interrupted: %v", name, err)
		}
	}
}

// Leather over a cap with a hole: no pass closes or crosses the hole.
func TestHoles_StayThroughTheMaterial(t *testing.T) {
	leather := Leather()
	for name, m := range map[string]mesh.Mesh{
		"top": pierced(dome(16, 100, 1), within(0, 0, 20)), "side": pierced(dome(16, 100, 1), within(40, 0, 15)),
	} {
		p := Problem{Surface: m, Material: &leather}
		r := lay(t, p)
		if _, err := Check(p, r); err != nil || r.Material.Overlaps > 0 || len(r.Flat.Outline().Holes) != 1 {
			t.Errorf("%s: %d holes, %d overlaps, %v", name, len(r.Flat.Outline().Holes), r.Material.Overlaps, err)
		}
	}
}

// Rough fields with holes anywhere: nothing is turned over, every open edge is
// a ring of the pattern or joined by a cut, and few patterns lie over themselves.
func TestHoles_RoughFields(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	var kept, cut, crossed, tried int
	for i := range 120 {
		n := 6 + rng.IntN(6)
		high := rng.Float64()
		m := patch(n, n, func(u, v float64) mesh.Vec {
			return mesh.Vec{X: u, Y: v, Z: high * rng.Float64() * rng.Float64()}
		})
		for range 1 + rng.IntN(5) {
			x, y := rng.Float64(), rng.Float64()
			m = pierced(m, within(x, y, 0.05+0.15*rng.Float64()))
		}
		p := Problem{Surface: m}
		r, err := Solve(context.Background(), p, Options{})
		if fault.KindOf(err) == fault.Invalid && err != nil {
			continue // in pieces
		}
		if err != nil {
			t.Fatalf("field %d: %v", i, err)
		}
		tried++
		if _, err := Check(p, r); err != nil {
			t.Errorf("field %d: %v", i, err)
		}
		holes := len(r.Flat.Outline().Holes)
		kept, cut = kept+holes, cut+len(r.Cuts)
		if r.Isometric.Overlaps > 0 {
			crossed++
		}
	}
	t.Logf("%d fields, %d holes kept, %d cuts, %d lie over themselves", tried, kept, cut, crossed)
	if tried < 60 || kept < 30 || cut < 10 || crossed > 2 {
		t.Errorf("of %d fields %d holes stay, %d cuts are made, %d lie over themselves", tried, kept, cut, crossed)
	}
}
