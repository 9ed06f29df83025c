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
	splices := board.Splices(b.Routed)
	if len(splices) != 1 || splices[0].Breakout < 40 || splices[0].Stretch != "box–fork" {
		t.Errorf("%+v", splices)
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
	// Output:
	// laid 3 branches
}
