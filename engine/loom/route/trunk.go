package route

import (
	"context"

	"fettle/engine/loom/steiner"
)

// price is what a stretch costs: its length, more at a hole that is not there
// yet, and more again where bundles did not fit.
func (g *given) price(e int, dear []float64) float64 {
	c := g.cost(e)
	if dear != nil {
		c *= max(dear[g.ends[e][0]], dear[g.ends[e][1]])
	}
	return c
}

// cost is length × (1 + λ at a new hole).
func (g *given) cost(e int) float64 {
	if g.p.Nodes[g.ends[e][0]].New || g.p.Nodes[g.ends[e][1]].New {
		return g.length[e] * (1 + g.r.NewHole)
	}
	return g.length[e]
}

// parts numbers the parts of the graph that hang together over stretches that
// are not forbidden.
func (g *given) parts() []int {
	part := make([]int, len(g.p.Nodes))
	for i := range part {
		part[i] = i
	}
	find := func(v int) int {
		for part[v] != v {
			part[v] = part[part[v]]
			v = part[v]
		}
		return v
	}
	for e, ends := range g.ends {
		if g.p.Edges[e].Forbidden == "" {
			part[find(ends[0])] = find(ends[1])
		}
	}
	for i := range part {
		part[i] = find(i)
	}
	return part
}

// homes tells the part of each splice: that of the first of its wires whose
// other end has one.
func (g *given) homes() []int {
	home := make([]int, len(g.p.Splices))
	for s := range home {
		home[s] = -1
	}
	for again := true; again; {
		again = false
		for _, w := range g.wires {
			for k, v := range w {
				if v < 0 && home[-1-v] < 0 {
					if p := g.partOf(home, w[1-k]); p >= 0 {
						home[-1-v], again = p, true
					}
				}
			}
		}
	}
	return home
}

// partOf is the part that an end of a wire lies in.
func (g *given) partOf(home []int, end int) int {
	if end >= 0 {
		return g.part[end]
	}
	return home[-1-end]
}

// lost reports whether no way leads from end to end of a wire.
func (g *given) lost(i int) bool {
	a, b := g.partOf(g.home, g.wires[i][0]), g.partOf(g.home, g.wires[i][1])
	return a != b || a < 0
}

// trunk is a forest over the places where wires end, hung up by its roots.
type trunk struct {
	edges  []int     // rising
	has    []bool    // by edge
	degree []int     // by node, in the tree
	up     []int     // the edge to the parent, −1 at roots and off the tree
	in     []int     // order in which a node was met, and when its branch was done
	out    []int     // both −1 off the tree
	dist   []float64 // from the root
	root   []int
	order  []int // nodes of the forest, parents first

	cost, bound float64
	proved      bool
	stopped     bool
}

// choose finds the tree of each part.
func (g *given) choose(ctx context.Context, o Options, dear []float64) (*trunk, error) {
	t := &trunk{has: make([]bool, len(g.ends)), proved: true}
	terminals := map[int][]int{}
	var roots []int
	seen := make([]bool, len(g.p.Nodes))
	for i, w := range g.wires {
		if g.lost(i) {
			continue
		}
		for _, v := range w {
			if v >= 0 && !seen[v] {
				seen[v] = true
				if len(terminals[g.part[v]]) == 0 {
					roots = append(roots, g.part[v])
				}
				terminals[g.part[v]] = append(terminals[g.part[v]], v)
			}
		}
	}
	tree := o.Tree
	tree.Seed = o.Seed
	for _, r := range roots {
		p, edges := g.graph(r, terminals[r], dear)
		got, err := steiner.Solve(ctx, p, tree)
		if err != nil {
			return nil, err
		}
		if err := steiner.Check(p, got); err != nil {
			return nil, err
		}
		for _, e := range got.Edges {
			for _, own := range edges[e] {
				t.has[own] = true
			}
		}
		t.bound += got.Bound
		t.proved = t.proved && got.Status == steiner.Proved
		t.stopped = t.stopped || got.Status == steiner.Interrupted
	}
	for e, has := range t.has {
		if has {
			t.edges = append(t.edges, e)
			t.cost += g.cost(e)
		}
	}
	g.hang(t)
	return t, nil
}

// graph is one part as a Steiner problem: chains of waypoints that only lead on
// are one edge, dead ends are left out. edges tells which stretches each is.
func (g *given) graph(root int, terminals []int, dear []float64) (steiner.Problem, [][]int) {
	next := make([][]int, len(g.p.Nodes))
	for e, ends := range g.ends {
		if g.p.Edges[e].Forbidden == "" && g.part[ends[0]] == root {
			next[ends[0]], next[ends[1]] = append(next[ends[0]], e), append(next[ends[1]], e)
		}
	}
	keep := make([]bool, len(g.p.Nodes))
	for _, v := range terminals {
		keep[v] = true
	}
	gone := make([]bool, len(g.ends))
	left := func(v int) (n int) {
		for _, e := range next[v] {
			if !gone[e] {
				n++
			}
		}
		return n
	}
	for v := range next { // dead ends, back to the first fork or terminal
		for u := v; !keep[u] && left(u) == 1; {
			for _, e := range next[u] {
				if !gone[e] {
					gone[e] = true
					u = g.other(e, u)
					break
				}
			}
		}
	}
	number := make([]int, len(g.p.Nodes))
	n := 0
	for v := range next {
		if keep[v] || left(v) > 2 {
			keep[v] = true
			number[v] = n
			n++
		}
	}
	p := steiner.Problem{Vertices: n}
	for _, v := range terminals {
		p.Terminals = append(p.Terminals, number[v])
	}
	var chains [][]int
	for v := range next {
		if !keep[v] {
			continue
		}
		for _, e := range next[v] {
			if gone[e] {
				continue
			}
			chain, cost, u := []int{}, 0.0, v
			for on := e; ; {
				gone[on] = true
				chain = append(chain, on)
				cost += g.price(on, dear)
				u = g.other(on, u)
				if keep[u] {
					break
				}
				for _, f := range next[u] {
					if !gone[f] {
						on = f
					}
				}
				if gone[on] {
					break
				}
			}
			if keep[u] && u != v {
				p.Edges = append(p.Edges, steiner.Edge{A: number[v], B: number[u], Cost: cost})
				chains = append(chains, chain)
			}
		}
	}
	return p, chains
}

// other is the far end of a stretch.
func (g *given) other(e, v int) int {
	if g.ends[e][0] == v {
		return g.ends[e][1]
	}
	return g.ends[e][0]
}

// hang roots the forest and measures it from its roots.
func (g *given) hang(t *trunk) {
	n := len(g.p.Nodes)
	t.degree, t.up, t.in, t.out, t.dist, t.root = make([]int, n), make([]int, n), make([]int, n), make([]int, n), make([]float64, n), make([]int, n)
	next := make([][]int, n)
	for _, e := range t.edges {
		for _, v := range g.ends[e] {
			next[v] = append(next[v], e)
			t.degree[v]++
		}
	}
	for v := range n {
		t.up[v], t.in[v], t.out[v], t.root[v] = -1, -1, -1, -1
	}
	clock := 0
	var walk func(v, root int)
	walk = func(v, root int) {
		t.in[v], t.root[v] = clock, root
		clock++
		t.order = append(t.order, v)
		for _, e := range next[v] {
			if u := g.other(e, v); t.in[u] < 0 {
				t.up[u], t.dist[u] = e, t.dist[v]+g.length[e]
				walk(u, root)
			}
		}
		t.out[v] = clock
	}
	for _, w := range g.wires {
		for _, v := range w {
			if v >= 0 && t.in[v] < 0 {
				walk(v, v)
			}
		}
	}
}

// below reports whether a node hangs in the branch of another, or is it.
func (t *trunk) below(v, top int) bool { return t.in[v] >= t.in[top] && t.out[v] <= t.out[top] }
