package steiner

import (
	"context"
	"slices"
)

// How a cell of the table got its value.
const (
	cellNone  = -1
	cellSplit = 1 << 28 // or-ed with the subset that was split off
)

// exact fills the table of Dreyfus and Wagner: the cheapest tree over a subset
// of terminals and one vertex. Either two trees meet at the vertex, or the
// vertex hangs on a neighbour's tree by one edge. It reports false when it was
// cancelled or the table would be too large.
func (g *graph) exact(ctx context.Context) ([]int, bool) {
	n, k := g.p.Vertices, len(g.p.Terminals)-1
	if work := float64(n); work*pow3(k) > 4e8 || n<<k > 1<<25 {
		return nil, false
	}
	cost := make([]float64, n<<k)
	how := make([]int32, n<<k) // an arc into the vertex, or cellSplit with a subset
	for i := range cost {
		cost[i], how[i] = far, cellNone
	}
	for i, t := range g.p.Terminals[:k] {
		cost[n<<i+t] = 0
	}
	for set := 1; set < 1<<k; set++ {
		if ctx.Err() != nil {
			return nil, false
		}
		row, by := cost[set*n:set*n+n], how[set*n:set*n+n]
		low := set & -set
		for part := (set - 1) & set; part > 0; part = (part - 1) & set {
			if part&low == 0 { // each split once
				continue
			}
			a, b := cost[part*n:part*n+n], cost[(set^part)*n:(set^part)*n+n]
			for v := range row {
				if c := a[v] + b[v]; c < row[v] {
					row[v], by[v] = c, cellSplit|int32(part)
				}
			}
		}
		g.spread(row, by)
	}
	return g.trace(how, 1<<k-1, g.p.Terminals[k]), true
}

func pow3(k int) float64 {
	p := 1.0
	for range k {
		p *= 3
	}
	return p
}

// spread lowers the costs of a row along edges until none can be lowered.
func (g *graph) spread(row []float64, by []int32) {
	for v := range row {
		if row[v] < far {
			g.heap.push(row, int32(v))
		}
	}
	for len(g.heap.v) > 0 {
		v := int(g.heap.pop(row))
		for _, a := range g.arcs(v) {
			u := g.head(a)
			if c := row[v] + g.p.Edges[a>>1].Cost; c < row[u] {
				row[u], by[u] = c, a
				g.heap.push(row, int32(u))
			}
		}
	}
}

// trace collects the edges of a cell.
func (g *graph) trace(how []int32, set, v int) []int {
	var edges []int
	type cell struct{ set, v int }
	for stack := []cell{{set, v}}; len(stack) > 0; {
		c := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		switch h := how[c.set*g.p.Vertices+c.v]; {
		case h == cellNone:
		case h >= cellSplit:
			part := int(h &^ cellSplit)
			stack = append(stack, cell{part, c.v}, cell{c.set ^ part, c.v})
		default:
			edges = append(edges, int(h>>1))
			stack = append(stack, cell{c.set, g.head(h ^ 1)})
		}
	}
	slices.Sort(edges)
	return g.tree(slices.Compact(edges))
}
