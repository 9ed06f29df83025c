package loom_test

import (
	"context"
	"fmt"
	"testing"

	"fettle/engine/loom"
	"fettle/engine/loom/board"
	"fettle/engine/loom/route"
)

// body draws three rails along a vehicle with cross ways and holes, and so many
// connectors on short tails.
func body(connectors int) route.Problem {
	var p route.Problem
	const along = 40
	name := func(rail, k int) string { return fmt.Sprintf("%c%d", 'p'+rail, k) }
	for k := range along {
		for rail := range 3 {
			n := route.Node{ID: name(rail, k), Kind: route.Breakout, At: [3]float64{95 * float64(k), 600 * float64(rail-1), 500 + 300*float64(rail%2)}}
			if k%13 == 6 {
				n.Kind = route.Hole
			}
			p.Nodes = append(p.Nodes, n)
			if k > 0 {
				p.Edges = append(p.Edges, route.Edge{From: name(rail, k-1), To: name(rail, k)})
			}
			if rail > 0 && k%4 == 1 {
				p.Edges = append(p.Edges, route.Edge{From: name(rail-1, k), To: name(rail, k)})
			}
		}
	}
	for c := range connectors {
		k, rail := (c*7)%along, c%3
		if k%13 == 6 {
			k++
		}
		at := p.Nodes[3*k+rail].At
		p.Nodes = append(p.Nodes, route.Node{ID: fmt.Sprintf("c%d", c), Kind: route.Connector, At: [3]float64{at[0] + 30, at[1] + 100 + 3*float64(c), at[2] + float64(c%9)*10}})
		p.Edges = append(p.Edges, route.Edge{From: name(rail, k), To: fmt.Sprintf("c%d", c)})
	}
	return p
}

// laidOver leads the wires of a solved coach over a body: the fuse of eight
// circuits, its switches and relays sit in one of five boxes, four consumers in a
// connector with their earth beside them. What stays within one connector or box
// needs no way, so a wire a circuit is led.
func laidOver(p route.Problem, l loom.Problem, r loom.Result, connectors int) route.Problem {
	const boxes = 5
	sits := func(part string) int {
		var kind rune
		var k int
		fmt.Sscanf(part, "%c%d", &kind, &k)
		switch kind {
		case 'c':
			return boxes + k/4%(connectors-boxes)
		case 'F':
			return k % boxes
		}
		return k / 8 % boxes
	}
	earth := func(pin loom.Pin) bool { return pin.Terminal == "-" || pin.Part == loom.Body }
	for i, w := range l.Wires {
		from, to := sits(w.From.Part), sits(w.To.Part)
		if from == to || earth(w.From) || earth(w.To) {
			continue
		}
		one := r.Runs[len(l.Circuits)+i]
		p.Wires = append(p.Wires, route.Wire{
			ID: w.ID, From: route.End{Node: fmt.Sprint("c", from), Cavity: w.ID + "a"}, To: route.End{Node: fmt.Sprint("c", to), Cavity: w.ID + "b"},
			Outside: 1.2 + one.MM2/2, Mass: 9 * one.MM2, Ohms: 0.02, Colour: "G", Section: one.Section,
		})
	}
	return p
}

// BenchmarkWhole works a loom of 400 circuits out whole: every section from the
// net, every wire's way over the body, the trunk packed and laid on the board.
func BenchmarkWhole(b *testing.B) {
	const connectors = 110
	p, over := loom.Coach(400), body(connectors)
	var solved loom.Result
	var q route.Problem
	for b.Loop() {
		var err error
		if solved, err = loom.Solve(context.Background(), p, loom.Options{}); err != nil {
			b.Fatal(err)
		}
		q = laidOver(over, p, solved, connectors)
		routed, err := route.Solve(context.Background(), q, route.Options{})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := board.Solve(context.Background(), board.Problem{Loom: q, Routed: routed}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(solved.Stats.States), "states")
	b.ReportMetric(float64(len(q.Wires)), "wires")
}
