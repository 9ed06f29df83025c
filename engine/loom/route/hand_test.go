package route_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"fettle/engine/loom/route"
	"fettle/engine/loom/steiner"
)

// TestSolve_RawGraph holds the tree to that of the graph as it is given, where
// no chain is drawn together and no dead end left out.
func TestSolve_RawGraph(t *testing.T) {
	held := 0
	for i := range 60 {
		p := car(uint64(100+i), 20+i%40, 3+i%8, 8)
		r := solve(t, p)
		if r.Status != route.Proved || r.Tree.Rounds > 1 {
			continue
		}
		number := map[string]int{}
		raw := steiner.Problem{Vertices: len(p.Nodes)}
		for k, n := range p.Nodes {
			number[n.ID] = k
		}
		for _, e := range p.Edges {
			a, b := p.Nodes[number[e.From]], p.Nodes[number[e.To]]
			cost := math.Hypot(math.Hypot(a.At[0]-b.At[0], a.At[1]-b.At[1]), a.At[2]-b.At[2])
			if a.New || b.New {
				cost *= 2
			}
			if e.Forbidden == "" {
				raw.Edges = append(raw.Edges, steiner.Edge{A: number[e.From], B: number[e.To], Cost: cost})
			}
		}
		for _, w := range p.Wires {
			for _, end := range []string{w.From.Node, w.To.Node} {
				if !slices.Contains(raw.Terminals, number[end]) {
					raw.Terminals = append(raw.Terminals, number[end])
				}
			}
		}
		best, err := steiner.Solve(context.Background(), raw, steiner.Options{})
		if err != nil {
			continue // the ends lie in parts that nothing joins: a tree for each
		}
		if held++; math.Abs(best.Cost-r.Tree.Cost) > 1e-6*best.Cost {
			t.Errorf("loom %d: %v, the raw graph has %v", i, r.Tree.Cost, best.Cost)
		}
	}
	if held < 30 {
		t.Errorf("only %d looms were held to it", held)
	}
}

// TestSolve_HandSums: every term of a cut length by hand. 300 + 400 along; 10 %
// of the first stretch and 4 % of the second; 50 where something moves; a stub
// of 20; 2 × 7 stripped; a loop of 60 at one end, none at the other.
func TestSolve_HandSums(t *testing.T) {
	p := route.Problem{
		Nodes: []route.Node{
			{ID: "a", Kind: route.Connector, Stub: 20, Service: 60},
			{ID: "b", Kind: route.Clip, At: [3]float64{300, 0, 0}},
			{ID: "c", Kind: route.Connector, At: [3]float64{300, 240, 320}, NoService: true},
		},
		Edges: []route.Edge{{From: "a", To: "b", Slack: 0.1}, {From: "b", To: "c", Flex: "hinge", Cover: route.Sleeve}},
		Wires: []route.Wire{{ID: "w", From: route.End{Node: "a"}, To: route.End{Node: "c"}, Outside: 2}},
	}
	r := solve(t, p)
	if got, want := r.Wires[0].Cut, 5*math.Ceil((300+400+30+16+50+20+14+60)/5.0); r.Wires[0].Along != 700 || got != want || want != 890 {
		t.Errorf("%v along, cut %v, want %v: %s", r.Wires[0].Along, got, want, r.Wires[0].Working.With)
	}
	if a, b := r.Runs[0], r.Runs[1]; a.Outside != 2.8 || b.Outside != 4 || a.Bend != 4*2.8 || b.Bend != 16 {
		t.Errorf("taped %v, bend %v; sleeved %v, bend %v", a.Outside, a.Bend, b.Outside, b.Bend)
	}
}

// TestCheck_FitsLie: a hole that is said to pass more than its largest bundle.
func TestCheck_FitsLie(t *testing.T) {
	p := bay()
	p.Nodes[2].Largest = 9
	r := solve(t, p)
	r.Holes[0].Bundle = 30
	if route.Check(p, r) == nil {
		t.Error("30 mm through 9 mm is believed")
	}
}
