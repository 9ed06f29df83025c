package flatten

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
)

func TestSolve_ExactOnWhatUnrolls(t *testing.T) {
	level, _ := plane(12, 8, 0.4)
	for name, p := range map[string]Problem{
		"one face":         {Surface: mesh.Mesh{Points: []mesh.Vec{{}, {X: 3}, {Z: 2}}, Faces: []mesh.Face{{0, 1, 2}}}},
		"two faces":        {Surface: mesh.Mesh{Points: []mesh.Vec{{}, {X: 3}, {Z: 2}, {Y: 2}}, Faces: []mesh.Face{{0, 1, 2}, {1, 0, 3}}}},
		"plane":            {Surface: level},
		"cylinder":         {Surface: bent(30, 12)},
		"cone":             {Surface: horn(30, 12)},
		"pipe":             {Surface: pipe(24, 8, 50, 200)},
		"plate with holes": {Surface: holed(8)},
		"box, cut open":    {Surface: box(), Cuts: [][]int32{{0, 4}, {1, 5}, {2, 6}, {3, 7}, {4, 5, 6, 7}}},
	} {
		r := lay(t, p)
		if _, err := Check(p, r); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if w := r.Isometric; !(math.Abs(w.Stretch[2]) < 1e-6) || w.Overlaps > 0 {
			t.Errorf("%s: strain %g, %d overlaps", name, w.Stretch[2], w.Overlaps)
		}
	}
}

// One unit or another makes no difference to what has no unit.
func TestSolve_AtAnyScale(t *testing.T) {
	var first float64
	for _, scale := range []float64{1, 1e-3, 1.0 / 25.4, 1e4} {
		m := dome(10, 100*scale, 1)
		r := lay(t, Problem{Surface: m})
		if first == 0 {
			first = r.Isometric.Dirichlet
		}
		if math.Abs(r.Isometric.Dirichlet-first) > 1e-9 {
			t.Errorf("scaled by %g: %g, not %g", scale, r.Isometric.Dirichlet, first)
		}
	}
}

func TestSolve_SameEveryTime(t *testing.T) {
	p := Problem{Surface: ring(24, 12, 100, 30)}
	if one, two := lay(t, p), lay(t, p); !reflect.DeepEqual(one, two) {
		t.Error("two runs differ")
	}
}

// Rougher than anything of the trade: the conformal map of some of these turns
// faces over or all but vanishes, and the answer must not.
func TestSolve_WildSurfaces(t *testing.T) {
	for name, shape := range map[string]func(u, v float64) mesh.Vec{
		"egg box": func(u, v float64) mesh.Vec {
			return mesh.Vec{X: u, Y: v, Z: 0.2 * math.Sin(15*u) * math.Sin(15*v)}
		},
		"spikes": func(u, v float64) mesh.Vec {
			return mesh.Vec{X: u, Y: v, Z: 2 * math.Exp(-40*((u-0.3)*(u-0.3)+(v-0.5)*(v-0.5)))}
		},
		"sock": func(u, v float64) mesh.Vec {
			s, c := math.Sincos(1.98 * math.Pi * u)
			r := 0.3 * math.Sqrt(math.Max(1-v*v, 1e-3))
			return mesh.Vec{X: r * c, Y: r * s, Z: 2 * v}
		},
		"slivers": func(u, v float64) mesh.Vec {
			return mesh.Vec{X: math.Pow(u, 6), Y: v, Z: 0.3 * math.Sin(3*v)}
		},
	} {
		p := Problem{Surface: patch(24, 24, shape)}
		r := lay(t, p)
		if _, err := Check(p, r); err != nil || r.Isometric.Overlaps > 0 || r.Status != Settled {
			t.Errorf("%s: %d overlaps, status %d, %v", name, r.Isometric.Overlaps, r.Status, err)
		}
		if !(r.Isometric.Dirichlet <= r.Conformal.Dirichlet*(1+1e-9)) && r.Conformal.Flips == 0 {
			t.Errorf("%s: %g is worse than the conformal %g", name, r.Isometric.Dirichlet, r.Conformal.Dirichlet)
		}
	}
}

func TestSolve_EndsWhenToldTo(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	stages := map[string]int{}
	p := Problem{Surface: dome(12, 100, 1.3)}
	r, err := Solve(ctx, p, Options{Progress: func(g Progress) {
		stages[g.Stage]++
		if g.Stage == "isometric" && g.Step == 1 {
			cancel()
		}
	}})
	if err != nil || r.Status != Interrupted || len(stages) != 3 {
		t.Fatalf("status %d, stages %v, %v", r.Status, stages, err)
	}
	if _, err := Check(p, r); err != nil {
		t.Error(err)
	}
	r, err = Solve(context.Background(), p, Options{Steps: 1})
	if err != nil || r.Status != OutOfSteps {
		t.Fatalf("status %d, %v", r.Status, err)
	}
	if _, err := Check(p, r); err != nil {
		t.Error(err)
	}
}

func TestSolve_Refuses(t *testing.T) {
	for name, p := range map[string]Problem{
		"nothing":             {},
		"a face without area": {Surface: mesh.Mesh{Points: []mesh.Vec{{}, {X: 1}, {X: 2}}, Faces: []mesh.Face{{0, 1, 2}}}},
		"a grain off it":      {Surface: dome(3, 10, 0.5), Grain: Grain{From: 0, To: 500}},
	} {
		if _, err := Solve(context.Background(), p, Options{}); fault.KindOf(err) != fault.Invalid || err == nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Fields of random heights, some slit, are far beyond what anybody would lay in
// one piece; still nothing is turned over, and all but very few are laid so that
// they cover no place twice.
func TestSolve_RoughFields(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	const fields = 200
	var crossed, free int
	for i := range fields {
		n := 2 + 2*rng.IntN(5)
		m := patch(n, n, func(u, v float64) mesh.Vec { return mesh.Vec{X: u, Y: v} })
		for v := range rng.IntN(len(m.Points) + 1) {
			m.Points[v].Z = 4 * rng.Float64()
		}
		p := Problem{Surface: m}
		if i%2 == 0 {
			p.Cuts = [][]int32{{0, int32(n + 2)}}
		}
		r := lay(t, p)
		if _, err := Check(p, r); err != nil {
			t.Errorf("field %d: %v", i, err)
		}
		if r.Isometric.Overlaps > 0 {
			crossed++
		}
		if r.Conformal.Overlaps > 0 {
			free++
		}
	}
	if crossed > 2 || free < fields/5 {
		t.Errorf("%d of %d fields cover a place twice, of %d laid by angles", crossed, fields, free)
	}
}

// A scan has needles: vertices that lie almost on the side across.
func TestSolve_Needles(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	for _, height := range []float64{1e-3, 1e-5, 1e-7} {
		m := patch(20, 20, func(u, v float64) mesh.Vec {
			return mesh.Vec{X: 1000 * u, Y: 1000 * v, Z: 100 * math.Sin(4*u) * math.Cos(3*v)}
		})
		for range 10 {
			f := m.Faces[rng.IntN(len(m.Faces))]
			a, b := m.Points[f[0]], m.Points[f[1]]
			m.Points[f[2]] = a.Add(b).Scale(0.5).Add(m.Points[f[2]].Sub(a).Scale(height))
		}
		p := Problem{Surface: m}
		r := lay(t, p)
		if _, err := Check(p, r); err != nil || r.Status != Settled || r.Isometric.Overlaps > 0 || r.Isometric.Dirichlet > 4.0003 {
			t.Errorf("%g: %g, status %d, %v", height, r.Isometric.Dirichlet, r.Status, err)
		}
	}
}

// FuzzSolve lays small rough patches: whatever comes out passes the checker.
func FuzzSolve(f *testing.F) {
	f.Add([]byte("a rough field of heights to be laid flat, one byte a vertex"), uint8(3), false)
	f.Add([]byte{0, 255, 0, 255, 0, 255, 0, 255, 0}, uint8(2), true)
	f.Fuzz(func(t *testing.T, heights []byte, size uint8, slit bool) {
		n := 2 + 2*int(size%5)
		m := patch(n, n, func(u, v float64) mesh.Vec { return mesh.Vec{X: u, Y: v} })
		for v := range m.Points {
			if v < len(heights) {
				m.Points[v].Z = float64(heights[v]) / 64
			}
		}
		p := Problem{Surface: m}
		if slit {
			p.Cuts = [][]int32{{0, int32(n + 2)}}
		}
		r, err := Solve(context.Background(), p, Options{Steps: 60})
		if err != nil {
			if fault.KindOf(err) == fault.Internal {
				t.Fatal(err)
			}
			return
		}
		if _, err := Check(p, r); err != nil {
			t.Fatal(err)
		}
	})
}
