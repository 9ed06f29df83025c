package steiner_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"fettle/engine/loom/steiner"
)

// random draws a connected graph: a random tree and some more edges, costs
// whole numbers so that sums are exact.
func random(rng *rand.Rand, n, more, terminals int) steiner.Problem {
	p := steiner.Problem{Vertices: n, Terminals: rng.Perm(n)[:terminals]}
	for v := 1; v < n; v++ {
		p.Edges = append(p.Edges, steiner.Edge{A: v, B: rng.IntN(v), Cost: float64(1 + rng.IntN(50))})
	}
	for range more {
		if a, b := rng.IntN(n), rng.IntN(n); a != b {
			p.Edges = append(p.Edges, steiner.Edge{A: a, B: b, Cost: float64(1 + rng.IntN(50))})
		}
	}
	return p
}

// body draws points in a long box, each joined to its nearest few: a graph as
// waypoints on a body make it.
func body(rng *rand.Rand, n, terminals int) steiner.Problem {
	at := make([][3]float64, n)
	for i := range at {
		at[i] = [3]float64{3700 * rng.Float64(), 1500 * rng.Float64(), 900 * rng.Float64()}
	}
	dist := func(i, j int) float64 {
		return math.Hypot(math.Hypot(at[i][0]-at[j][0], at[i][1]-at[j][1]), at[i][2]-at[j][2])
	}
	p := steiner.Problem{Vertices: n, Terminals: rng.Perm(n)[:terminals]}
	for i := 1; i < n; i++ {
		near := 0
		for j := range i {
			if dist(i, j) < dist(i, near) {
				near = j
			}
		}
		p.Edges = append(p.Edges, steiner.Edge{A: i, B: near, Cost: dist(i, near)})
		for j := range i {
			if j != near && dist(i, j) < 520 {
				p.Edges = append(p.Edges, steiner.Edge{A: i, B: j, Cost: dist(i, j)})
			}
		}
	}
	return p
}

// brute tries every set of vertices beyond the terminals and takes the cheapest
// spanning tree by Prim's rule: slow, and nothing of the engine in it.
func brute(p steiner.Problem) float64 {
	w := make([][]float64, p.Vertices)
	for i := range w {
		w[i] = make([]float64, p.Vertices)
		for j := range w[i] {
			w[i][j] = math.Inf(1)
		}
	}
	for _, e := range p.Edges {
		w[e.A][e.B] = min(w[e.A][e.B], e.Cost)
		w[e.B][e.A] = w[e.A][e.B]
	}
	must := 0
	for _, t := range p.Terminals {
		must |= 1 << t
	}
	best := math.Inf(1)
	for set := range 1 << p.Vertices {
		if set&must != must {
			continue
		}
		best = min(best, prim(w, set, p.Terminals[0]))
	}
	return best
}

func prim(w [][]float64, set, from int) float64 {
	dist := make([]float64, len(w))
	copy(dist, w[from])
	left, sum := set&^(1<<from), 0.0
	for left != 0 {
		next := -1
		for v := range w {
			if left>>v&1 == 1 && (next < 0 || dist[v] < dist[next]) {
				next = v
			}
		}
		sum += dist[next]
		left &^= 1 << next
		for v := range w {
			dist[v] = min(dist[v], w[next][v])
		}
	}
	return sum
}

func solve(t *testing.T, p steiner.Problem, o steiner.Options) steiner.Result {
	t.Helper()
	r, err := steiner.Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := steiner.Check(p, r); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestSolve_Brute holds both ways of solving to trying everything: the table
// is exact, the bound is below and the trees are not cheaper.
func TestSolve_Brute(t *testing.T) {
	met := 0
	for i := range 500 {
		rng := rand.New(rand.NewPCG(1, uint64(i)))
		n := 6 + rng.IntN(8)
		p := random(rng, n, rng.IntN(2*n), 2+rng.IntN(min(n, 10)-1))
		want := brute(p)
		if r := solve(t, p, steiner.Options{}); r.Cost != want || r.Status != steiner.Proved {
			t.Fatalf("graph %d: the table says %v (%s), trying everything %v", i, r.Cost, r.Status, want)
		}
		r := solve(t, p, steiner.Options{Exact: -1})
		if r.Cost < want || r.Bound > want*(1+1e-12) {
			t.Fatalf("graph %d: found %v, bound %v, the best is %v", i, r.Cost, r.Bound, want)
		}
		if r.Cost == want {
			met++
		}
	}
	if met < 495 {
		t.Errorf("the search met the best on %d of 500", met)
	}
}

// TestSolve_Gap holds large graphs to a proved gap.
func TestSolve_Gap(t *testing.T) {
	worst, mean, runs := 0.0, 0.0, 0
	for i := range 40 {
		rng := rand.New(rand.NewPCG(2, uint64(i)))
		k := []int{15, 40, 80}[i%3]
		p := body(rng, 200, k)
		if i%2 == 1 {
			p = random(rng, 200, 400, k)
		}
		r := solve(t, p, steiner.Options{})
		if r.Gap() > 0.05 {
			t.Errorf("graph %d, %d edges, %d terminals: %.0f over a bound of %.0f, gap %.2f %%", i, len(p.Edges), k, r.Cost, r.Bound, 100*r.Gap())
		}
		worst, mean, runs = max(worst, r.Gap()), mean+r.Gap(), runs+1
	}
	t.Logf("gap over %d graphs: mean %.2f %%, worst %.2f %%", runs, 100*mean/float64(runs), 100*worst)
}

func TestSolve_Deterministic(t *testing.T) {
	p := body(rand.New(rand.NewPCG(3, 3)), 120, 30)
	a, b := solve(t, p, steiner.Options{Seed: 5}), solve(t, p, steiner.Options{Seed: 5})
	if a.Cost != b.Cost || len(a.Edges) != len(b.Edges) || a.Bound != b.Bound {
		t.Errorf("got %v and %v", a, b)
	}
}

func TestSolve_Bad(t *testing.T) {
	edge := []steiner.Edge{{A: 0, B: 1, Cost: 1}}
	for _, tt := range []struct {
		name string
		p    steiner.Problem
		want string
	}{
		{"no vertex", steiner.Problem{}, "vertices: 0 vertices"},
		{"loop", steiner.Problem{Vertices: 2, Edges: []steiner.Edge{{A: 1, B: 1}}}, "edge 0: it joins 1 to 1 of 2 vertices"},
		{"cost", steiner.Problem{Vertices: 2, Edges: []steiner.Edge{{A: 0, B: 1, Cost: math.NaN()}}}, "edge 0: its cost is NaN"},
		{"twice", steiner.Problem{Vertices: 2, Edges: edge, Terminals: []int{0, 0}}, "terminal 1: vertex 0 is no vertex or stands twice"},
		{"apart", steiner.Problem{Vertices: 3, Edges: edge, Terminals: []int{0, 2}}, "terminals: no way leads from vertex 0 to vertex 2"},
	} {
		if _, err := steiner.Solve(context.Background(), tt.p, steiner.Options{}); err == nil || err.Error() != tt.want {
			t.Errorf("%s: %v, want %s", tt.name, err, tt.want)
		}
	}
}

// TestCheck_Lies shows that each lie is found.
func TestCheck_Lies(t *testing.T) {
	p := body(rand.New(rand.NewPCG(4, 4)), 60, 20)
	honest := solve(t, p, steiner.Options{Exact: -1})
	for name, lie := range map[string]func(r *steiner.Result){
		"cost":     func(r *steiner.Result) { r.Cost *= 0.99 },
		"edge off": func(r *steiner.Result) { r.Edges = r.Edges[1:]; r.Cost -= p.Edges[honest.Edges[0]].Cost },
		"bound":    func(r *steiner.Result) { r.Bound *= 1.01 },
		"cuts": func(r *steiner.Result) {
			r.Proof = &steiner.Proof{Root: r.Proof.Root, Cuts: append(append([]steiner.Cut{}, r.Proof.Cuts...), r.Proof.Cuts...)}
			r.Bound *= 2
		},
	} {
		r := honest
		lie(&r)
		if steiner.Check(p, r) == nil {
			t.Errorf("%s: the checker believed it", name)
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, bb := range []struct {
		name string
		p    steiner.Problem
	}{
		{"table,200x10", body(rand.New(rand.NewPCG(5, 1)), 200, 10)},
		{"search,200x40", body(rand.New(rand.NewPCG(5, 1)), 200, 40)},
		{"search,300x150", body(rand.New(rand.NewPCG(5, 1)), 300, 150)},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			gap := 0.0
			for b.Loop() {
				r, err := steiner.Solve(context.Background(), bb.p, steiner.Options{})
				if err != nil {
					b.Fatal(err)
				}
				gap = r.Gap()
			}
			b.ReportMetric(100*gap, "%gap")
		})
	}
}
