package loom

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fettle/figure"
)

// bundled is n circuits of some amps behind fuses of their own.
func bundled(n int, amps, fuse float64) Problem {
	p := Problem{Batteries: []Battery{{Name: "battery"}}}
	for i := range n {
		f := fmt.Sprintf("F%d", i)
		p.Fuses = append(p.Fuses, Fuse{Name: f, Amps: fuse})
		p.Circuits = append(p.Circuits, Circuit{Run: Run{ID: fmt.Sprintf("C%d", i), LengthM: 0.5}, From: "box", To: "lamp", Amps: amps, Fuse: f})
	}
	return p
}

// TestSolve_LeastOfItsBundles: a run that lies in two bundles is judged by the
// one that leaves it least; one in none by the flat factor.
func TestSolve_LeastOfItsBundles(t *testing.T) {
	p := bundled(12, 3, 5)
	ids := func(n int) []string {
		var list []string
		for i := range n {
			list = append(list, p.Circuits[i].ID)
		}
		return list
	}
	p.Circuits[0].Bundle = "branch"
	p.Bundles = []Bundle{{Name: "branch", Runs: ids(2)}, {Name: "trunk", Runs: ids(10)}, {Name: "nothing", Wires: 4}}
	r, err := Solve(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	carried, rated := 0.0, 0.0
	for _, x := range r.Runs[:10] {
		c := sizeOf(t, p, x.Section)
		carried, rated = carried+min(x.Amps, c.Amps), rated+c.Amps
	}
	for i, x := range r.Runs {
		want, says := BundleFactor(10, carried/rated), "10 wires in trunk"
		if i >= 10 {
			want, says = 0.7, "flat factor"
		}
		at := slices.IndexFunc(x.Working.Inputs, func(in figure.Input) bool { return in.Name == "bundle" })
		if in := x.Working.Inputs[at]; in.Value != fmt.Sprintf("%.3g", want) || !strings.Contains(in.Note, says) {
			t.Errorf("%s: bundle %s, %s, want %.3g, %s", x.ID, in.Value, in.Note, want, says)
		}
	}

	p.Bundles[0].Runs = []string{"C99"}
	if _, err := Solve(context.Background(), p, Options{}); err == nil || !strings.Contains(err.Error(), "C99") || !strings.Contains(err.Error(), "branch") {
		t.Errorf("an unknown run in a bundle: %v", err)
	}
}

// TestSolve_RandomBundles: whatever lies in whatever, every run is judged by the
// least factor of its bundles at the sections that were chosen.
func TestSolve_RandomBundles(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 100 {
		p := bundled(2+r.IntN(20), 0.5+9*r.Float64(), []float64{5, 10, 20}[r.IntN(3)])
		for k := range r.IntN(6) {
			b := Bundle{Name: fmt.Sprint("stretch ", k), Wires: r.IntN(30)}
			for _, c := range p.Circuits {
				if r.IntN(2) == 0 {
					b.Runs = append(b.Runs, c.ID, c.ID)
				}
			}
			p.Bundles = append(p.Bundles, b)
		}
		got, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range got.Runs {
			least := math.Inf(1)
			for _, b := range p.Bundles {
				carried, rated, n := 0.0, 0.0, 0
				for _, o := range got.Runs {
					if slices.Contains(b.Runs, o.ID) {
						c := sizeOf(t, p, o.Section)
						carried, rated, n = carried+min(o.Amps, c.Amps), rated+c.Amps, n+1
					}
				}
				if slices.Contains(b.Runs, x.ID) {
					least = min(least, BundleFactor(max(n, b.Wires), carried/rated))
				}
			}
			if math.IsInf(least, 1) {
				least = 0.7
			}
			at := slices.IndexFunc(x.Working.Inputs, func(in figure.Input) bool { return in.Name == "bundle" })
			if in := x.Working.Inputs[at]; in.Value != fmt.Sprintf("%.3g", least) {
				t.Errorf("%s in %+v: factor %s, want %.3g", x.ID, p.Bundles, in.Value, least)
			}
		}
	}
}

func sizeOf(t *testing.T, p Problem, name string) Conductor {
	t.Helper()
	_, cable, err := p.rules()
	if err != nil {
		t.Fatal(err)
	}
	return p.sizes(cable)[name]
}
