package board_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"fettle/engine/loom/board"
	"fettle/engine/loom/route"
)

// nose is a feed that is spliced to two lamps, and a wire beside it.
func nose() route.Problem {
	end := func(node, cavity string) route.End { return route.End{Node: node, Cavity: cavity} }
	return route.Problem{
		Nodes:   []route.Node{{ID: "box", Kind: route.Connector, Cavities: 4}, {ID: "fork", Kind: route.Breakout}, {ID: "L", Kind: route.Connector}, {ID: "R", Kind: route.Connector}},
		Edges:   []route.Edge{{From: "box", To: "fork", Length: 1000}, {From: "fork", To: "L", Length: 500}, {From: "fork", To: "R", Length: 600}},
		Splices: []route.Splice{{ID: "S1"}},
		Wires: []route.Wire{
			{ID: "W1", From: end("box", "1"), To: end("S1", ""), Outside: 2.4, Ohms: 0.0133, Section: "1.5", Colour: "R", Net: "side"},
			{ID: "W2", From: end("S1", ""), To: end("L", "58"), Outside: 1.9, Ohms: 0.026, Section: "0.75", Colour: "R", Net: "side"},
			{ID: "W3", From: end("S1", ""), To: end("R", "58"), Outside: 1.9, Ohms: 0.026, Section: "0.75", Colour: "R", Net: "side"},
			{ID: "W4", From: end("box", "10"), To: end("R", "31"), Outside: 1.9, Ohms: 0.026, Section: "0.75", Colour: "B", Net: "earth"},
		},
	}
}

func TestTables_Nose(t *testing.T) {
	b, r := lay(t, nose(), board.Rules{})
	if r.Status != board.Laid || len(r.Faces) != 3 {
		t.Errorf("%s, %d faces", r.Status, len(r.Faces))
	}
	var cut []string
	for _, c := range board.Cut(b) {
		cut = append(cut, fmt.Sprintf("%s %.0f", c.Text, c.Cut))
	}
	// W4: 1600 × 1.04 + 14 + 150 = 1828; the splice lies 40 mm before the fork:
	// W1 960 × 1.04 + 14 + 75 = 1087.4; W2 540 → 650.6; W3 640 → 754.6.
	want := "W4 box:10 → R:31 B 0.75 1830|W3 S1 → R:58 R 0.75 755|W2 S1 → L:58 R 0.75 655|W1 box:1 → S1 R 1.5 1090"
	if got := strings.Join(cut, "|"); got != want {
		t.Errorf("cut list\n%s, want\n%s", got, want)
	}
	labels, err := board.Labels(b)
	if err != nil || len(labels) != 8 {
		t.Fatalf("%d labels, %v", len(labels), err)
	}
	for i, c := range board.Cut(b) {
		for k, end := range []string{c.From, c.To} {
			if l := labels[2*i+k]; l.Text != c.Text || l.End != end || l.From != 40 {
				t.Errorf("label %+v of row %+v", l, c)
			}
		}
	}
	reels, err := board.Reels(b)
	if err != nil || len(reels) != 3 || reels[1].Wires != 2 || reels[1].Buy != 1.5 {
		t.Errorf("%+v, %v: 1.41 m and 5 %% is 1.5 m", reels, err)
	}
	splices := board.Splices(b)
	if len(splices) != 1 || splices[0].Breakout < 40 || splices[0].Stretch != "box–fork" {
		t.Errorf("%+v", splices)
	}
	var pins []string
	for _, p := range board.Connectors(b) {
		pins = append(pins, p.Connector+":"+p.Cavity+"="+p.Wire+">"+p.Other)
	}
	if got, want := strings.Join(pins, " "), "box:1=W1>S1 box:2=> box:3=> box:10=W4>R:31 L:58=W2>S1 R:31=W4>box:10 R:58=W3>S1"; got != want {
		t.Errorf("connectors %s, want %s", got, want)
	}
}

// TestContinuity_Nose reads box:1 to L:58 over both wires: 1.09 m × 13.3 mΩ
// and 0.655 m × 26 mΩ are 31.5 mΩ.
func TestContinuity_Nose(t *testing.T) {
	b, _ := lay(t, nose(), board.Rules{})
	plan, err := board.Continuity(b)
	if err != nil || len(plan.Nets) != 2 || len(plan.Findings) != 0 {
		t.Fatalf("%+v, %v", plan, err)
	}
	side := plan.Nets[0]
	if side.Net != "side" || strings.Join(side.Ends, " ") != "box:1 L:58 R:58" || len(side.Pairs) != 2 {
		t.Fatalf("%+v", side)
	}
	if got := side.Pairs[0].Working.With; got != "0.0315 + 0.1 = 0.132 Ω" {
		t.Errorf("box:1 to L:58 reads %s", got)
	}
	if side.Guard != "side against all other 1 nets joined: more than 1 MΩ" {
		t.Error(side.Guard)
	}
	joined := nose()
	joined.Wires[3].To.Cavity = "58"
	b, _ = lay(t, joined, board.Rules{})
	plan, err = board.Continuity(b)
	if err != nil || len(plan.Nets) != 1 || len(plan.Findings) != 1 || plan.Findings[0].Rule != board.RuleNets || plan.Findings[0].Where != "wire W4" {
		t.Errorf("two nets in one cavity: %+v, %v", plan.Findings, err)
	}
}

// TestSolve_Board folds a loom of 5 m onto a board of 2 m, and says how large a
// board must be that is far too small.
func TestSolve_Board(t *testing.T) {
	p := nose()
	p.Edges[0].Length = 4000
	_, r := lay(t, p, board.Rules{Width: 2000, Height: 1000})
	if r.Status != board.Laid || r.Width != 2000 || r.Height != 1000 {
		t.Errorf("%s on %v by %v: %+v", r.Status, r.Width, r.Height, r.Findings)
	}
	for _, b := range r.Branches {
		for _, q := range b.Points {
			if q.X < 59.9 || q.X > 1940.1 || q.Y < 59.9 || q.Y > 940.1 {
				t.Errorf("%s leaves the board at %v", b.ID, q)
			}
		}
	}
	_, r = lay(t, p, board.Rules{Width: 300, Height: 200})
	if r.Status != board.TooLarge || r.Width <= 300 || !strings.Contains(r.Findings[0].Hint, "it lies on") {
		t.Errorf("%s: %+v", r.Status, r.Findings)
	}
}

// TestSolve_Datum measures from the connector with most wires, and keeps a peg
// at every breakout and none further apart than the pitch.
func TestSolve_Datum(t *testing.T) {
	_, r := lay(t, nose(), board.Rules{})
	from := map[string]float64{}
	for _, p := range r.Places {
		from[p.Node] = p.From
		if p.Datum != (p.Node == "box") || p.Tolerance != 5 {
			t.Errorf("%+v", p)
		}
	}
	if from["fork"] != 1000 || from["R"] != 1600 {
		t.Errorf("from the datum: %v", from)
	}
	count := map[string]int{}
	for _, p := range r.Pegs {
		count[p.Why]++
	}
	if count["breakout"] != 1 || count["end"] != 3 || count["pitch"] != 4+2+2 {
		t.Errorf("pegs %v", count)
	}
}

func TestSolve_Bad(t *testing.T) {
	b, _ := lay(t, nose(), board.Rules{})
	for _, tt := range []struct {
		name string
		edit func(p *board.Problem)
		want string
	}{
		{"rule", func(p *board.Problem) { p.Rules.Margin = -1 }, "rules, margin_mm: -1"},
		{"another loom", func(p *board.Problem) { p.Loom.Edges = nil; p.Routed.Runs = p.Routed.Runs[:0] }, "tree: the routed loom does not hold: cost 0, length 0, bound 2100, said are 2100, 2100"},
		{"nothing", func(p *board.Problem) { p.Loom, p.Routed = route.Problem{}, route.Result{} }, "routed, stretches: no wire leads from one place to another"},
	} {
		p := b
		tt.edit(&p)
		if _, err := board.Solve(context.Background(), p); err == nil || err.Error() != tt.want {
			t.Errorf("%s: %v, want %s", tt.name, err, tt.want)
		}
	}
}

func TestCheck_Lies(t *testing.T) {
	for name, lie := range map[string]func(r *board.Result){
		"length":  func(r *board.Result) { r.Branches[1].Points[1].X += 1e-3 },
		"missing": func(r *board.Result) { r.Branches = r.Branches[1:] },
		"crossed": func(r *board.Result) { r.Branches[2].Points[1] = r.Branches[1].Points[1] },
		"moved":   func(r *board.Result) { r.Places[0].At.X++ },
	} {
		b, r := lay(t, nose(), board.Rules{})
		lie(&r)
		if board.Check(b, r) == nil {
			t.Errorf("%s: the checker believed it", name)
		}
	}
}

func Example() {
	end := func(node, cavity string) route.End { return route.End{Node: node, Cavity: cavity} }
	loom := route.Problem{
		Nodes: []route.Node{{ID: "box", Kind: route.Connector}, {ID: "fork", Kind: route.Breakout}, {ID: "L", Kind: route.Connector}, {ID: "R", Kind: route.Connector}},
		Edges: []route.Edge{{From: "box", To: "fork", Length: 1000}, {From: "fork", To: "L", Length: 500}, {From: "fork", To: "R", Length: 600}},
		Wires: []route.Wire{
			{ID: "C12", From: end("box", "F9"), To: end("L", "58"), Outside: 1.7, Colour: "R/B", Section: "0.5"},
			{ID: "C13", From: end("box", "F10"), To: end("R", "58"), Outside: 1.7, Colour: "R/O", Section: "0.5"},
		},
	}
	routed, err := route.Solve(context.Background(), loom, route.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	p := board.Problem{Loom: loom, Routed: routed, Rules: board.Rules{Width: 1400, Height: 900}}
	laid, err := board.Solve(context.Background(), p)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(laid.Status, len(laid.Branches), "branches")
	for _, c := range board.Cut(p) {
		fmt.Println(c.Text, c.Cut)
	}
	// Output:
	// laid 3 branches
	// C12 box:F9 → L:58 R/B 0.5 1725
	// C13 box:F10 → R:58 R/O 0.5 1830
}
