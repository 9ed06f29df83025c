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
	count, small := map[board.Status]int{}, map[board.Status]int{}
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
		if rules.Width > 0 {
			small[r.Status]++
		} else {
			count[r.Status]++
		}
	}
	t.Logf("without a size %v, on 2.4 by 1.2 m %v", count, small)
	if count[board.Laid] < 98 || small[board.Laid] < 65 || count[board.Wedges]+small[board.Wedges] > 0 {
		t.Error("fewer keep all that is asked")
	}
}

// TestSolve_Star lays twenty branches at one breakout: 18° is all there is.
func TestSolve_Star(t *testing.T) {
	p := route.Problem{Nodes: []route.Node{{ID: "n0", Kind: route.Connector}, {ID: "hub", Kind: route.Breakout}}, Edges: []route.Edge{{From: "n0", To: "hub", Length: 500}}}
	for i := range 19 {
		id := fmt.Sprint("s", i)
		p.Nodes = append(p.Nodes, route.Node{ID: id, Kind: route.Connector})
		p.Edges = append(p.Edges, route.Edge{From: "hub", To: id, Length: 400 + 10*float64(i)})
		p.Wires = append(p.Wires, route.Wire{ID: id, From: route.End{Node: "n0", Cavity: id}, To: route.End{Node: id, Cavity: "1"}, Outside: 1.9})
	}
	_, r := lay(t, p, board.Rules{})
	if r.Status == board.Wedges || r.Angle < 8-1e-9 || crossings(r) > 0 {
		t.Errorf("%s, least angle %.1f°", r.Status, r.Angle)
	}
}

// TestSolve_Faces keeps connectors off branches and off each other.
func TestSolve_Faces(t *testing.T) {
	_, r := lay(t, vehicle(110, 400), board.Rules{Width: 5000, Height: 2400})
	if r.Status != board.Laid || r.Width != 5000 || r.Height != 2400 {
		t.Errorf("%s on %v by %v", r.Status, r.Width, r.Height)
	}
	for _, f := range r.Findings {
		t.Errorf("%+v", f)
	}
	if len(r.Faces) != 110 {
		t.Errorf("%d faces", len(r.Faces))
	}
	for i, f := range r.Faces {
		for _, g := range r.Faces[:i] {
			if f.Outline[0].X < g.Outline[2].X && g.Outline[0].X < f.Outline[2].X && f.Outline[0].Y < g.Outline[2].Y && g.Outline[0].Y < f.Outline[2].Y {
				t.Errorf("the faces of %s and %s overlap, and nothing says so", f.Node, g.Node)
			}
		}
	}
}

func TestSolve_Deterministic(t *testing.T) {
	_, a := lay(t, tree(5, 40, 5), board.Rules{Width: 2400, Height: 1200})
	_, b := lay(t, tree(5, 40, 5), board.Rules{Width: 2400, Height: 1200})
	if !reflect.DeepEqual(a, b) {
		t.Error("two layouts of one loom differ")
	}
}
