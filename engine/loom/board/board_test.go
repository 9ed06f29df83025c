package board_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"fettle/engine/loom/board"
	"fettle/engine/loom/route"
	"fettle/geom"
)

// tree draws a random tree of n waypoints with typed lengths, and a wire from
// the first to every leaf.
func tree(seed uint64, n int, reach int) route.Problem {
	rng := rand.New(rand.NewPCG(seed, 21))
	p := route.Problem{}
	leaf := make([]bool, n)
	for i := range n {
		p.Nodes = append(p.Nodes, route.Node{ID: fmt.Sprintf("n%d", i), Kind: route.Connector})
		leaf[i] = true
		if i > 0 {
			up := i - 1 - rng.IntN(min(i, reach))
			leaf[up] = false
			p.Edges = append(p.Edges, route.Edge{From: fmt.Sprintf("n%d", up), To: fmt.Sprintf("n%d", i), Length: math.Round(20 + 580*rng.Float64()*rng.Float64())})
		}
	}
	for i := 1; i < n; i++ {
		if leaf[i] {
			p.Wires = append(p.Wires, route.Wire{ID: fmt.Sprintf("w%d", i), From: route.End{Node: "n0", Cavity: fmt.Sprint(i)}, To: route.End{Node: fmt.Sprintf("n%d", i), Cavity: "1"}, Outside: 2.1, Ohms: 0.0195, Colour: "G", Section: "1"})
		}
	}
	return p
}

func lay(t testing.TB, p route.Problem, rules board.Rules) (board.Problem, board.Result) {
	t.Helper()
	r, err := route.Solve(context.Background(), p, route.Options{Starts: 1})
	if err != nil {
		t.Fatal(err)
	}
	b := board.Problem{Loom: p, Routed: r, Rules: rules}
	got, err := board.Solve(context.Background(), b)
	if err != nil {
		t.Fatal(err)
	}
	if err := board.Check(b, got); err != nil {
		t.Fatal(err)
	}
	return b, got
}

// crossings counts pairs of pieces of different branches that cross, by signs
// of exact-enough areas; ends within a hair of each other are one waypoint.
func crossings(r board.Result) int {
	type piece struct {
		a, b   geom.Point
		branch int
	}
	var all []piece
	for i, b := range r.Branches {
		for k := 1; k < len(b.Points); k++ {
			all = append(all, piece{b.Points[k-1], b.Points[k], i})
		}
	}
	area := func(p, q, r geom.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (r.X-p.X)*(q.Y-p.Y) }
	same := func(p, q geom.Point) bool { return math.Hypot(p.X-q.X, p.Y-q.Y) < 1e-6 }
	n := 0
	for i, x := range all {
		for _, y := range all[:i] {
			if same(x.a, y.a) || same(x.a, y.b) || same(x.b, y.a) || same(x.b, y.b) {
				continue
			}
			if area(x.a, x.b, y.a)*area(x.a, x.b, y.b) <= 0 && area(y.a, y.b, x.a)*area(y.a, y.b, x.b) <= 0 &&
				max(x.a.X, x.b.X) >= min(y.a.X, y.b.X) && max(y.a.X, y.b.X) >= min(x.a.X, x.b.X) &&
				max(x.a.Y, x.b.Y) >= min(y.a.Y, y.b.Y) && max(y.a.Y, y.b.Y) >= min(x.a.Y, x.b.Y) {
				n++
			}
		}
	}
	return n
}

// TestSolve_Trees lays 200 random trees: no crossing, lengths kept, 30° where
// the layout says that it kept them.
func TestSolve_Trees(t *testing.T) {
	count := map[board.Status]int{}
	for i := range 200 {
		rng := rand.New(rand.NewPCG(22, uint64(i)))
		p := tree(uint64(i), 3+rng.IntN(90), 1+rng.IntN(12))
		rules := board.Rules{}
		if i%2 == 1 {
			rules = board.Rules{Width: 2400, Height: 1200}
		}
		b, r := lay(t, p, rules)
		if n := crossings(r); n > 0 {
			t.Errorf("tree %d: %d crossings", i, n)
		}
		for k, branch := range r.Branches {
			sum := 0.0
			for j := 1; j < len(branch.Points); j++ {
				sum += math.Hypot(branch.Points[j].X-branch.Points[j-1].X, branch.Points[j].Y-branch.Points[j-1].Y)
			}
			if want := b.Routed.Runs[k].Length; math.Abs(sum-want) > 1e-6 {
				t.Errorf("tree %d, %s: %v long, want %v", i, branch.ID, sum, want)
			}
		}
		if r.Status == board.Laid && r.Angle > 0 && r.Angle < 30-1e-6 {
			t.Errorf("tree %d: laid, but an angle of %.1f°", i, r.Angle)
		}
		count[r.Status]++
	}
	t.Logf("%v", count)
	if bad := count[board.Wedges]; bad > 4 {
		t.Errorf("%d of 200 in wedges", bad)
	}
}

func TestSolve_Deterministic(t *testing.T) {
	_, a := lay(t, tree(5, 40, 5), board.Rules{Width: 2400, Height: 1200})
	_, b := lay(t, tree(5, 40, 5), board.Rules{Width: 2400, Height: 1200})
	if !reflect.DeepEqual(a, b) {
		t.Error("two layouts of one loom differ")
	}
}
