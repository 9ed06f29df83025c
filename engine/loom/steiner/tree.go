package steiner

import "slices"

// find is the root of a vertex in the union-find, halving the way.
func (g *graph) find(v int) int {
	for int(g.up[v]) != v {
		g.up[v] = g.up[g.up[v]]
		v = int(g.up[v])
	}
	return v
}

// span takes the cheapest spanning tree of the vertices in the set and prunes
// ends that are no terminals. It returns the cost, far when the set falls
// apart; the edges stand in pick.
func (g *graph) span(in []bool) float64 {
	size := 0
	for v := range in {
		g.up[v], g.deg[v] = int32(v), 0
		if in[v] {
			size++
		}
	}
	g.pick = g.pick[:0]
	sum := 0.0
	for _, e := range g.byCost {
		ed := &g.p.Edges[e]
		if !in[ed.A] || !in[ed.B] {
			continue
		}
		a, b := g.find(ed.A), g.find(ed.B)
		if a == b {
			continue
		}
		g.up[a] = int32(b)
		g.deg[ed.A]++
		g.deg[ed.B]++
		sum += ed.Cost
		g.pick = append(g.pick, e)
		if len(g.pick) == size-1 {
			break
		}
	}
	if len(g.pick) < size-1 {
		return far
	}
	return sum - g.prune()
}

// prune takes ends that are no terminals off pick, and returns what it saved.
func (g *graph) prune() float64 {
	saved := 0.0
	for again := true; again; {
		again = false
		kept := g.pick[:0]
		for _, e := range g.pick {
			ed := &g.p.Edges[e]
			if g.deg[ed.A] == 1 && !g.isTerm[ed.A] || g.deg[ed.B] == 1 && !g.isTerm[ed.B] {
				g.deg[ed.A]--
				g.deg[ed.B]--
				saved += ed.Cost
				again = true
				continue
			}
			kept = append(kept, e)
		}
		g.pick = kept
	}
	return saved
}

// tree makes a true tree of edges that join the terminals: the cheapest
// spanning tree over their vertices, pruned.
func (g *graph) tree(edges []int) []int {
	clear(g.in)
	for _, t := range g.p.Terminals {
		g.in[t] = true
	}
	for _, e := range edges {
		g.in[g.p.Edges[e].A], g.in[g.p.Edges[e].B] = true, true
	}
	g.span(g.in)
	return g.picked()
}

// picked returns the edges of pick, rising.
func (g *graph) picked() []int {
	edges := make([]int, len(g.pick))
	for i, e := range g.pick {
		edges[i] = int(e)
	}
	slices.Sort(edges)
	return edges
}

// grow joins the nearest terminal again and again over the given edge costs,
// and marks the vertices of the tree in g.in. All terminals can be reached.
func (g *graph) grow(root int, cost func(arc int32) float64) {
	clear(g.in)
	for v := range g.dist {
		g.dist[v], g.via[v] = far, -1
	}
	g.heap.clear()
	g.dist[root] = 0
	g.heap.push(g.dist, int32(root))
	left := len(g.p.Terminals)
	for left > 0 && len(g.heap.v) > 0 {
		v := int(g.heap.pop(g.dist))
		if g.isTerm[v] && !g.in[v] {
			left--
			for u := v; !g.in[u]; {
				g.in[u] = true
				if u != v || g.dist[u] > 0 {
					g.dist[u] = 0
					g.heap.push(g.dist, int32(u))
				}
				a := g.via[u]
				g.via[u] = -1
				if a < 0 {
					break
				}
				u = g.head(a ^ 1)
			}
		}
		for _, a := range g.arcs(v) {
			u := g.head(a)
			if c := g.dist[v] + cost(a); c < g.dist[u] {
				g.dist[u], g.via[u] = c, a
				g.heap.push(g.dist, int32(u))
			}
		}
	}
}

// improve takes single vertices in and out of g.in while that makes the pruned
// spanning tree cheaper, and returns its cost; the edges stand in pick.
func (g *graph) improve() float64 {
	best := g.settle(g.span(g.in))
	for again := true; again; {
		again = false
		for v := range g.in {
			if g.isTerm[v] || !g.in[v] && !g.touches(v) {
				continue
			}
			g.in[v] = !g.in[v]
			if c := g.span(g.in); c < best-float64(1e-9*best) {
				best = g.settle(c)
				again = true
				continue
			}
			g.in[v] = !g.in[v]
		}
	}
	return g.span(g.in)
}

// touches reports whether a vertex has two neighbours in g.in.
func (g *graph) touches(v int) bool {
	n := 0
	for _, a := range g.arcs(v) {
		if g.in[g.head(a)] {
			if n++; n == 2 {
				return true
			}
		}
	}
	return false
}

// settle leaves the vertices of pick, and only those, in g.in.
func (g *graph) settle(c float64) float64 {
	if c == far {
		return c
	}
	clear(g.in)
	for _, t := range g.p.Terminals {
		g.in[t] = true
	}
	for _, e := range g.pick {
		g.in[g.p.Edges[e].A], g.in[g.p.Edges[e].B] = true, true
	}
	return c
}
