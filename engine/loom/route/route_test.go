package route_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"fettle/engine/loom/route"
)

// bay is a small body: battery and fuse box behind the bulkhead, lamps before
// it, two holes through.
func bay() route.Problem {
	return route.Problem{
		Nodes: []route.Node{
			{ID: "fuse box", Kind: route.Connector, At: [3]float64{900, 300, 900}},
			{ID: "column", Kind: route.Breakout, At: [3]float64{600, 300, 900}},
			{ID: "H1", Kind: route.Hole, Panel: "bulkhead", At: [3]float64{400, 300, 900}, Bore: 16},
			{ID: "H2", Kind: route.Hole, Panel: "bulkhead", At: [3]float64{400, -300, 900}, New: true},
			{ID: "nose", Kind: route.Breakout, At: [3]float64{-300, 0, 800}},
			{ID: "lamp L", Kind: route.Connector, At: [3]float64{-500, 500, 800}},
			{ID: "lamp R", Kind: route.Connector, At: [3]float64{-500, -500, 800}, Stub: 30},
		},
		Edges: []route.Edge{
			{From: "fuse box", To: "column"}, {From: "column", To: "H1"}, {From: "column", To: "H2"},
			{From: "H1", To: "nose", Via: [][3]float64{{-300, 300, 800}}}, {From: "H2", To: "nose"},
			{From: "nose", To: "lamp L"}, {From: "nose", To: "lamp R", Length: 600},
			{From: "column", To: "nose", Forbidden: "exhaust"},
		},
		Wires: []route.Wire{
			{ID: "C08", From: route.End{Node: "fuse box", Cavity: "F5"}, To: route.End{Node: "lamp L", Cavity: "56b"}, Outside: 2.1, Mass: 12, Ohms: 0.0195, Colour: "U/R", Section: "1"},
			{ID: "C09", From: route.End{Node: "fuse box", Cavity: "F6"}, To: route.End{Node: "lamp R", Cavity: "56b"}, Outside: 2.1, Mass: 12, Ohms: 0.0195, Colour: "U/R", Section: "1"},
		},
	}
}

func solve(t testing.TB, p route.Problem) route.Result {
	t.Helper()
	r, err := route.Solve(context.Background(), p, route.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := route.Check(p, r); err != nil {
		t.Fatal(err)
	}
	return r
}

func ids(r route.Result) string {
	var s []string
	for _, x := range r.Runs {
		s = append(s, x.ID)
	}
	return strings.Join(s, ", ")
}

// TestSolve_Bay reckons one wire by hand: 300 + 200 + 707.1 + 300 + 538.5 to
// the left lamp, 4 % slack, two stripped ends, two loops.
func TestSolve_Bay(t *testing.T) {
	r := solve(t, bay())
	if want := "fuse box–column, column–H1, H1–nose, nose–lamp L, nose–lamp R"; ids(r) != want {
		t.Errorf("runs over %s", ids(r))
	}
	along := 300 + 200 + math.Hypot(700, 100) + 300 + math.Hypot(200, 500)
	l := r.Wires[0]
	if math.Abs(l.Along-along) > 1e-6 || l.Cut != math.Ceil((along*1.04+14+150)/5)*5 {
		t.Errorf("%v along, cut %v; %s", l.Along, l.Cut, l.Working.With)
	}
	if want := "2045.6 + 81.8 + 2 × 7 + 150 = 2291.4, up to 2295 mm"; l.Working.With != want {
		t.Errorf("working %q", l.Working.With)
	}
	if got := r.Wires[1].Working.With; !strings.Contains(got, " + 30 + 2 × 7") {
		t.Errorf("the stub is missing: %s", got)
	}
	if math.Abs(l.Mass-12*2.295) > 1e-9 || math.Abs(l.Ohms-0.0195*2.295) > 1e-9 {
		t.Errorf("mass %v g, %v Ω", l.Mass, l.Ohms)
	}
	if r.Status != route.Proved || r.Tree.Gap != 0 {
		t.Errorf("%s, gap %v", r.Status, r.Tree.Gap)
	}
	if s := r.Runs[0]; s.Packed != 4.2 || s.Outside != 5 || s.Bend != 20 || math.Abs(s.Rule-4.2) > 1e-9 {
		t.Errorf("two wires of 2.1: packed %v, outside %v, bend %v, rule %v", s.Packed, s.Outside, s.Bend, s.Rule)
	}
	if h := r.Holes; len(h) != 1 || h[0].ID != "H1" || h[0].Panel != "bulkhead" || !h[0].Fits || h[0].Inside != 11 {
		t.Errorf("holes %+v", h)
	}
}

// TestSolve_Reroutes makes the bundle too thick for H1: the new hole is taken,
// with the size that it needs; when that is limited too, both are told.
func TestSolve_Reroutes(t *testing.T) {
	p := bay()
	p.Wires[0].Outside = 11
	r := solve(t, p)
	if !strings.Contains(ids(r), "column–H2") || len(r.Holes) != 1 || !r.Holes[0].New || r.Holes[0].Bore != 20 || r.Tree.Rounds < 2 {
		t.Errorf("over %s, holes %+v, rounds %d", ids(r), r.Holes, r.Tree.Rounds)
	}
	p.Nodes[3].Largest = 9
	r = solve(t, p)
	if r.Status != route.Infeasible || len(r.Findings) == 0 || r.Findings[0].Rule != route.RuleHole ||
		!strings.Contains(r.Findings[0].Hint, "20 mm would pass it") {
		t.Errorf("%s: %+v", r.Status, r.Findings)
	}
}

// TestSolve_NoWay names the wire and the forbidden stretch that would join.
func TestSolve_NoWay(t *testing.T) {
	p := bay()
	p.Edges[1].Forbidden, p.Edges[2].Forbidden = "steering shaft", "wiper arm"
	r := solve(t, p)
	if r.Status != route.Infeasible || len(r.Findings) != 2 || r.Findings[0].Rule != route.RuleNoWay || r.Findings[0].Where != "wire C08" ||
		r.Findings[0].Hint != "stretch column–H1 would join them, but is forbidden: steering shaft" {
		t.Errorf("%+v", r.Findings)
	}
}

// TestSolve_Splice sets a splice of three wires where they use least copper:
// between the column and the nose, clear of holes and breakouts.
func TestSolve_Splice(t *testing.T) {
	p := bay()
	p.Splices = []route.Splice{{ID: "S1"}, {ID: "S2"}}
	for s := range 2 {
		name := fmt.Sprintf("S%d", s+1)
		for k, end := range []string{"fuse box", "lamp L", "lamp R"} {
			p.Wires = append(p.Wires, route.Wire{ID: fmt.Sprintf("%s%c", name, 'a'+k), From: route.End{Node: end, Cavity: name}, To: route.End{Node: name}, Outside: 1.9})
		}
	}
	r := solve(t, p)
	if len(r.Splices) != 2 || r.Status != route.Proved {
		t.Fatalf("%+v, %s", r.Splices, r.Status)
	}
	a, b := r.Splices[0], r.Splices[1]
	if p.Edges[a.Edge].From != "H1" || p.Edges[b.Edge].To != "lamp L" || b.At != 40 {
		t.Errorf("%+v and %+v: want them 40 mm on both sides of the nose", a, b)
	}
	long := math.Hypot(700, 100) + 300
	if math.Abs(long-40-a.At) > 1e-6 {
		t.Errorf("the first lies at %v, 40 mm before the nose is %v", a.At, long-40)
	}
	if got, want := r.Wires[2].Cut, math.Ceil(((500+a.At)*1.04+14+75)/5)*5; got != want {
		t.Errorf("to the splice %v, want %v", got, want)
	}
}

// TestSolve_Bend finds the corner that a thick bundle cannot take.
func TestSolve_Bend(t *testing.T) {
	p := bay()
	p.Edges[3].Via = [][3]float64{{380, 300, 900}, {380, 280, 900}, {-300, 280, 800}}
	r := solve(t, p)
	if len(r.Findings) != 1 || r.Findings[0].Rule != route.RuleBend || r.Findings[0].Where != "stretch H1–nose" || r.Status != route.Proved {
		t.Errorf("%s: %+v", r.Status, r.Findings)
	}
	if got := r.Runs[2].Clearest; math.Abs(got-10) > 1e-9 {
		t.Errorf("legs of 20 mm and a right angle leave a radius of 10, got %v", got)
	}
}

func TestSolve_Bad(t *testing.T) {
	for _, tt := range []struct {
		name string
		edit func(p *route.Problem)
		want string
	}{
		{"twice", func(p *route.Problem) { p.Nodes[1].ID = "H1" }, "waypoint H1: it has no name, or another has the same"},
		{"wire twice", func(p *route.Problem) { p.Wires[1].ID = "C08" }, "wire C08: it has no name, or another has the same"},
		{"stretch twice", func(p *route.Problem) { p.Edges[1] = p.Edges[0] }, "stretch fuse box–column: another has the same name"},
		{"nowhere", func(p *route.Problem) { p.Wires[0].To.Node = "moon" }, `wire C08: it ends at "moon", which is nowhere`},
		{"in a hole", func(p *route.Problem) { p.Wires[0].To.Node = "H1" }, "wire C08: it ends in hole H1"},
		{"no length", func(p *route.Problem) { p.Nodes[1].At = p.Nodes[0].At }, "stretch fuse box–column: it is 0 mm long"},
		{"below nothing", func(p *route.Problem) { p.Edges[0].Length = -3 }, "stretch fuse box–column: it is -3 mm long"},
		{"not a number", func(p *route.Problem) { p.Nodes[0].At[1] = math.NaN() }, "waypoint fuse box: it lies at [900 NaN 900]"},
		{"no thickness", func(p *route.Problem) { p.Wires[0].Outside = 0 }, "wire C08: 0 mm thick, 12 g/m, 0.0195 Ω/m"},
		{"one place", func(p *route.Problem) { p.Wires[0].To = p.Wires[0].From }, "wire C08: both ends are at fuse box:F5"},
		{"kind", func(p *route.Problem) { p.Nodes[0].Kind = "" }, `waypoint fuse box: it is a ""`},
		{"lonely splice", func(p *route.Problem) { p.Splices = []route.Splice{{ID: "S"}} }, "splice S: 0 wires end in it"},
		{"rule", func(p *route.Problem) { p.Rules.Slack = 7 }, "rules, slack: 7"},
		{"many", func(p *route.Problem) { p.Wires = make([]route.Wire, 10000) }, "7 waypoints, 8 stretches, 10000 wires"},
	} {
		p := bay()
		tt.edit(&p)
		if _, err := route.Solve(context.Background(), p, route.Options{}); err == nil || err.Error() != tt.want {
			t.Errorf("%s: %v, want %s", tt.name, err, tt.want)
		}
	}
}

// TestSolve_Nothing routes no wires, and one part of two.
func TestSolve_Nothing(t *testing.T) {
	if r := solve(t, route.Problem{}); r.Status != route.Proved || len(r.Runs) != 0 {
		t.Errorf("%+v", r)
	}
}

// TestCheck_Lies shows that each lie is found.
func TestCheck_Lies(t *testing.T) {
	for name, lie := range map[string]func(r *route.Result){
		"cost":   func(r *route.Result) { r.Tree.Cost-- },
		"cut":    func(r *route.Result) { r.Wires[0].Cut -= 5 },
		"step":   func(r *route.Result) { r.Wires[0].Steps = r.Wires[0].Steps[1:] },
		"bundle": func(r *route.Result) { r.Runs[0].Packed *= 0.99 },
		"wires":  func(r *route.Result) { r.Runs[0].Wires = r.Runs[0].Wires[:1] },
		"hole":   func(r *route.Result) { r.Holes[0].Bundle /= 2 },
		"ring":   func(r *route.Result) { r.Runs = append(r.Runs, r.Runs[0]) },
		"taboo":  func(r *route.Result) { r.Runs[0].Edge = 7 },
		"silent": func(r *route.Result) { r.Wires[0].Cut = 0 },
	} {
		r := solve(t, bay())
		lie(&r)
		if route.Check(bay(), r) == nil {
			t.Errorf("%s: the checker believed it", name)
		}
	}
}

// car draws a body of waypoints on a grid with connectors and wires on it.
func car(seed uint64, nodes, connectors, wires int) route.Problem {
	rng := rand.New(rand.NewPCG(seed, 1))
	var p route.Problem
	for i := range nodes {
		n := route.Node{ID: fmt.Sprintf("n%d", i), Kind: route.Clip, At: [3]float64{3700 * rng.Float64(), 1500*rng.Float64() - 750, 300 + 900*rng.Float64()}}
		switch {
		case i%9 == 4:
			n.Kind, n.New = route.Hole, i%2 == 0
		case i%3 == 1:
			n.Kind = route.Breakout
		}
		p.Nodes = append(p.Nodes, n)
	}
	far := func(i, j int) float64 {
		d := 0.0
		for k := range 3 {
			d += (p.Nodes[i].At[k] - p.Nodes[j].At[k]) * (p.Nodes[i].At[k] - p.Nodes[j].At[k])
		}
		return d
	}
	join := func(i, most int) {
		for k := range most {
			best := -1
			for j := range i {
				if j < nodes && (best < 0 || far(i, j) < far(i, best)) && (k == 0 || !joined(p, i, j)) {
					best = j
				}
			}
			if best < 0 || joined(p, i, best) {
				return
			}
			e := route.Edge{From: p.Nodes[i].ID, To: p.Nodes[best].ID}
			if rng.IntN(20) == 0 && k > 0 {
				e.Forbidden = "exhaust"
			}
			p.Edges = append(p.Edges, e)
		}
	}
	for i := 1; i < nodes; i++ {
		join(i, 3)
	}
	for c := range connectors {
		i := len(p.Nodes)
		p.Nodes = append(p.Nodes, route.Node{ID: fmt.Sprintf("c%d", c), Kind: route.Connector, At: [3]float64{3700 * rng.Float64(), 1500*rng.Float64() - 750, 300 + 900*rng.Float64()}})
		join(i, 1+rng.IntN(2))
	}
	sizes := []float64{1.7, 1.9, 2.1, 2.4, 2.8, 3.4}
	for w := range wires {
		a, b := rng.IntN(min(connectors, 6)), rng.IntN(connectors)
		if w < connectors {
			b = w
		}
		p.Wires = append(p.Wires, route.Wire{ID: fmt.Sprintf("w%d", w), From: route.End{Node: fmt.Sprintf("c%d", a), Cavity: fmt.Sprintf("o%d", w)},
			To: route.End{Node: fmt.Sprintf("c%d", b), Cavity: fmt.Sprintf("i%d", w)}, Outside: sizes[rng.IntN(1+rng.IntN(len(sizes)))], Mass: 9, Ohms: 0.02})
	}
	return p
}

func joined(p route.Problem, i, j int) bool {
	for _, e := range p.Edges {
		if e.From == p.Nodes[i].ID && e.To == p.Nodes[j].ID {
			return true
		}
	}
	return false
}

// TestSolve_Cars checks random looms of all sizes, and that they come out the same twice.
func TestSolve_Cars(t *testing.T) {
	for i := range 30 {
		rng := rand.New(rand.NewPCG(11, uint64(i)))
		k := 2 + rng.IntN(40)
		p := car(uint64(i), 20+rng.IntN(80), k, k+rng.IntN(60))
		if i%3 == 0 {
			p.Splices = []route.Splice{{ID: "S1"}, {ID: "S2"}, {ID: "S3"}}
			for w := range min(9, len(p.Wires)) {
				p.Wires[w].From = route.End{Node: fmt.Sprintf("S%d", 1+w%3)}
			}
			if len(p.Wires) < 9 {
				p.Splices = nil
				continue
			}
		}
		a := solve(t, p)
		if a.Tree.Gap > 0.05 && a.Tree.Rounds == 1 {
			t.Errorf("loom %d: gap %.1f %%", i, 100*a.Tree.Gap)
		}
		if b := solve(t, p); !reflect.DeepEqual(a, b) {
			t.Errorf("loom %d comes out differently", i)
		}
	}
}

// FuzzSolve reads problems as they come: no panic, and what is handed out holds.
func FuzzSolve(f *testing.F) {
	for _, p := range []route.Problem{bay(), car(1, 12, 4, 8)} {
		text, err := json.Marshal(p)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var p route.Problem
		if json.Unmarshal(text, &p) != nil || len(p.Nodes) > 60 || len(p.Edges) > 120 || len(p.Wires) > 60 {
			return
		}
		r, err := route.Solve(context.Background(), p, route.Options{Starts: 1})
		if err != nil {
			return
		}
		if err := route.Check(p, r); err != nil {
			t.Fatal(err)
		}
	})
}

// FuzzSolve_Edited draws a loom and spoils it: whatever is wrong, it is told or
// what is handed out holds.
func FuzzSolve_Edited(f *testing.F) {
	f.Add(uint64(1), []byte{0, 3, 200, 1, 9, 0, 2, 4, 9})
	f.Add(uint64(2), []byte{3, 1, 6, 4, 2, 30, 5, 0, 0, 6, 3, 3})
	f.Fuzz(func(t *testing.T, seed uint64, edits []byte) {
		p := car(seed, 12+int(seed%20), 6, 10)
		p.Splices = []route.Splice{{ID: "S"}}
		for i := range 3 {
			p.Wires[i].From = route.End{Node: "S"}
		}
		for ; len(edits) > 2; edits = edits[3:] {
			at, by := int(edits[1]), float64(edits[2])
			n, e, w := &p.Nodes[at%len(p.Nodes)], &p.Edges[at%len(p.Edges)], &p.Wires[at%len(p.Wires)]
			switch edits[0] % 8 {
			case 0:
				n.Largest = by / 10
			case 1:
				e.Forbidden = "moves"
			case 2:
				e.Length = by*4 - 3
			case 3:
				w.Outside = by / 5
			case 4:
				n.Bore, n.New = by/4, !n.New
			case 5:
				w.To.Node = "S"
			case 6:
				n.At[int(by)%3] = 20 * by
			case 7:
				p.Splices[0].Edge = e.From + "–" + e.To
			}
		}
		r, err := route.Solve(context.Background(), p, route.Options{Starts: 1})
		if err != nil {
			if !strings.Contains(err.Error(), ": ") {
				t.Fatalf("no place: %v", err)
			}
			return
		}
		if err := route.Check(p, r); err != nil {
			t.Fatal(err)
		}
	})
}

func Example() {
	p := route.Problem{
		Nodes: []route.Node{
			{ID: "battery", Kind: route.Connector, At: [3]float64{0, 0, 0}},
			{ID: "H1", Kind: route.Hole, Panel: "bulkhead", At: [3]float64{400, 0, 0}, New: true},
			{ID: "fuse box", Kind: route.Connector, At: [3]float64{400, 300, 0}},
		},
		Edges: []route.Edge{{From: "battery", To: "H1"}, {From: "H1", To: "fuse box"}},
		Wires: []route.Wire{{ID: "C03", From: route.End{Node: "battery"}, To: route.End{Node: "fuse box"}, Outside: 7.6}},
	}
	r, err := route.Solve(context.Background(), p, route.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Wires[0].Working.With)
	fmt.Println(r.Holes[0].Working.With)
	// Output:
	// 700 + 28 + 2 × 7 + 150 = 892, up to 895 mm
	// bundle 8.4 mm ≤ 9.5 mm through a hole of 14 mm
}

// BenchmarkSolve routes a loom of 400 wires over 260 waypoints.
func BenchmarkSolve(b *testing.B) {
	for _, bb := range []struct {
		name string
		p    route.Problem
	}{{"wires=40", car(3, 60, 25, 40)}, {"wires=400", car(5, 160, 100, 400)}} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			var r route.Result
			var err error
			for b.Loop() {
				if r, err = route.Solve(context.Background(), bb.p, route.Options{}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(100*r.Tree.Gap, "%gap")
			b.ReportMetric(float64(len(r.Runs)), "stretches")
		})
	}
}
