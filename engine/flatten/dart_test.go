package flatten

import (
	"context"
	"slices"
	"testing"

	"fettle/geom/mesh"
)

func propose(t *testing.T, p Problem, w Ways) Proposed {
	t.Helper()
	r, err := Propose(context.Background(), p, w, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Result.Material.Flips > 0 {
		t.Fatalf("%d faces are turned over", r.Result.Material.Flips)
	}
	return r
}

// A cap of a sphere that no leather covers in one piece is brought within the
// limits by darts, which open; and Solve says the same of the cuts proposed.
func TestPropose_DartsForACap(t *testing.T) {
	for name, m := range map[string]func() mesh.Mesh{
		"dome": func() mesh.Mesh { return dome(12, 400, 1.0472) },
		"cap":  func() mesh.Mesh { return shared(t, "analytic/sphere_cap60.obj") },
	} {
		t.Run(name, func(t *testing.T) {
			if name == "cap" && testing.Short() {
				t.Skip("takes seconds")
			}
			p := Problem{Surface: m(), Material: even(0.12)}
			r := propose(t, p, Ways{})
			if r.Outside < 0.3 || r.Result.Material.Outside > 0.01 || r.Result.Material.Overlaps > 0 {
				t.Errorf("outside %.4f before, %.4f after, %d overlaps", r.Outside, r.Result.Material.Outside, r.Result.Material.Overlaps)
			}
			for i, round := range r.Rounds {
				if best := round[0]; best.Opening != Dart || best.Angle <= 0 || best.Length <= 0 {
					t.Errorf("round %d: %+v", i, best)
				}
				p.Cuts = append(p.Cuts, round[0].Path)
			}
			if anew := lay(t, p); anew.Material.Outside > 0.015 {
				t.Errorf("%.4f outside when laid anew with the cuts proposed", anew.Material.Outside)
			}
			t.Logf("%d darts, %.0f mm of seam: %.2f %% outside, before %.2f %%", len(r.Rounds), r.Length, 100*r.Result.Material.Outside, 100*r.Outside)
		})
	}
}

func TestPropose_NothingWhereNothingIsNeeded(t *testing.T) {
	if r := propose(t, Problem{Surface: dome(6, 400, 0.2), Material: even(0.1)}, Ways{}); len(r.Rounds) != 0 || r.Length != 0 {
		t.Errorf("%d rounds", len(r.Rounds))
	}
}

func TestPropose_NoMoreThanAsked(t *testing.T) {
	r := propose(t, Problem{Surface: dome(8, 400, 1.3), Material: even(0.03)}, Ways{Most: 1})
	if len(r.Rounds) != 1 {
		t.Fatalf("%d rounds", len(r.Rounds))
	}
	for i := 1; i < len(r.Rounds[0]); i++ {
		if r.Rounds[0][i].Gain > r.Rounds[0][i-1].Gain && i > 1 {
			t.Errorf("not ranked: %v", r.Rounds[0])
		}
	}
}

// A style line that is there already is followed where the straight way is
// another, and an edge that shows is kept clear of.
func TestPropose_PathsFollowStyleAndShunWhatShows(t *testing.T) {
	m := dome(8, 400, 1.0472)
	p := Problem{Surface: m, Material: even(0.12)}
	r := lay(t, p)
	q, err := newTrial(p, r)
	if err != nil {
		t.Fatal(err)
	}
	ring := func(k, i int32) int32 { return 1 + 3*k*(k-1) + (i+6*k)%(6*k) }
	line := []int32{0}
	for k := int32(1); k <= 8; k++ {
		line = append(line, ring(k, 2*k)) // the third spoke
	}
	rim := marked(q.rim)
	path, _ := q.near.ShortestPath([]int32{ring(2, 0)}, rim, q.cost(Ways{Lines: [][]int32{line}}))
	if !slices.Contains(path, ring(5, 10)) {
		t.Errorf("%v leaves the line %v aside", path, line)
	}
	plain, _ := q.near.ShortestPath([]int32{ring(2, 0)}, rim, q.cost(Ways{}))
	shows := func(u, v int32) float64 {
		if u == plain[2] || v == plain[2] {
			return 10
		}
		return 0
	}
	if path, _ := q.near.ShortestPath([]int32{ring(2, 0)}, rim, q.cost(Ways{Weight: shows})); slices.Contains(path, plain[2]) {
		t.Errorf("%v goes through what shows", path)
	}
}

// A saddle has too much rim, which no dart takes: its cuts close, or part it.
func TestPropose_SaddleIsSlitOrParted(t *testing.T) {
	m := patch(12, 12, func(u, v float64) mesh.Vec {
		x, y := 400*(u-0.5), 400*(v-0.5)
		return mesh.Vec{X: x, Y: y, Z: (x*x - y*y) / 250}
	})
	r := propose(t, Problem{Surface: m, Material: even(0.04)}, Ways{Most: 1})
	if len(r.Rounds) == 0 {
		t.Fatalf("nothing is proposed, %.3f outside", r.Outside)
	}
	parted := false
	for _, q := range r.Rounds[0] {
		if q.Opening == Dart {
			t.Errorf("a dart of %.3f rad in a saddle", q.Angle)
		}
		parted = parted || q.Opening == Parting
	}
	if !parted {
		t.Error("no parting was tried that gains")
	}
}

func TestPropose_Bad(t *testing.T) {
	if _, err := Propose(context.Background(), Problem{Surface: dome(2, 1, 1)}, Ways{}, Options{}); err == nil {
		t.Error("no material passed")
	}
	ctx, cancel := context.WithCancel(context.Background())
	r, err := Propose(ctx, Problem{Surface: dome(8, 400, 1.3), Material: even(0.03)}, Ways{}, Options{Progress: func(p Progress) {
		if p.Stage == "cuts" {
			cancel()
		}
	}})
	if err != nil || r.Result.Status != Interrupted || len(r.Rounds) > 0 {
		t.Errorf("%d rounds, status %v, %v", len(r.Rounds), r.Result.Status, err)
	}
}
