package board_test

import (
	"fmt"
	"math/rand/v2"

	"fettle/engine/loom/route"
)

// vehicle draws a body: two rails along it with cross ways, two holes each, and
// connectors on short tails; wires from a few boxes to all of them.
func vehicle(connectors, wires int) route.Problem {
	rng := rand.New(rand.NewPCG(31, uint64(connectors)))
	var p route.Problem
	name := func(rail, k int) string { return fmt.Sprintf("%c%d", 'p'+rail, k) }
	const along = 40
	for k := range along {
		for rail := range 3 {
			n := route.Node{ID: name(rail, k), Kind: route.Breakout, At: [3]float64{95 * float64(k), 600 * float64(rail-1), 500 + 300*float64(rail%2) + 40*rng.Float64()}}
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
		k, rail := rng.IntN(along), rng.IntN(3)
		if k%13 == 6 {
			k++
		}
		at := p.Nodes[3*k+rail].At
		p.Nodes = append(p.Nodes, route.Node{ID: fmt.Sprintf("c%d", c), Kind: route.Connector, At: [3]float64{at[0] + 30, at[1] + 100 + 300*rng.Float64(), at[2] + 100*rng.Float64()}})
		p.Edges = append(p.Edges, route.Edge{From: name(rail, k), To: fmt.Sprintf("c%d", c)})
	}
	for w := range wires {
		a, b := rng.IntN(5), w%connectors
		p.Wires = append(p.Wires, route.Wire{ID: fmt.Sprintf("w%d", w), From: route.End{Node: fmt.Sprintf("c%d", a), Cavity: fmt.Sprintf("o%d", w)}, To: route.End{Node: fmt.Sprintf("c%d", b), Cavity: fmt.Sprintf("i%d", w)},
			Outside: []float64{1.7, 1.9, 2.1, 2.4, 3}[rng.IntN(5)], Mass: 9, Ohms: 0.02, Colour: []string{"G", "R", "B", "N"}[rng.IntN(4)], Section: "1"})
	}
	return p
}
