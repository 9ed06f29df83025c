package steiner

import (
	"cmp"
	"math"
	"slices"
)

// graph is a problem ready for walking: the arcs that leave each vertex stand
// together. Arc 2e runs from A to B of edge e, arc 2e+1 back.
type graph struct {
	p      Problem
	first  []int32 // of the arcs that leave a vertex; one more than vertices
	leave  []int32 // arcs
	isTerm []bool
	byCost []int32 // edges, cheapest first
	unit   float64 // of which all costs are multiples, 0 for none

	// Scratch, used again by every tree.
	heap  heap
	dist  []float64
	via   []int32 // the arc by which a vertex was reached, −1 for none
	in    []bool
	up    []int32 // union-find
	deg   []int32
	queue []int32
	pick  []int32
}

func newGraph(p Problem) *graph {
	n := p.Vertices
	g := &graph{p: p, unit: measure(p.Edges), first: make([]int32, n+1), leave: make([]int32, 2*len(p.Edges)), isTerm: make([]bool, n),
		dist: make([]float64, n), via: make([]int32, n), in: make([]bool, n), up: make([]int32, n), deg: make([]int32, n)}
	for _, e := range p.Edges {
		g.first[e.A+1]++
		g.first[e.B+1]++
	}
	for v := range n {
		g.first[v+1] += g.first[v]
	}
	at := slices.Clone(g.first[:n])
	for i, e := range p.Edges {
		g.leave[at[e.A]] = int32(2 * i)
		g.leave[at[e.B]] = int32(2*i + 1)
		at[e.A]++
		at[e.B]++
	}
	for _, t := range p.Terminals {
		g.isTerm[t] = true
	}
	g.byCost = make([]int32, len(p.Edges))
	for i := range g.byCost {
		g.byCost[i] = int32(i)
	}
	slices.SortStableFunc(g.byCost, func(a, b int32) int { return cmp.Compare(p.Edges[a].Cost, p.Edges[b].Cost) })
	g.heap.at = make([]int32, n)
	return g
}

// arcs returns the arcs that leave a vertex.
func (g *graph) arcs(v int) []int32 { return g.leave[g.first[v]:g.first[v+1]] }

// head returns where an arc leads.
func (g *graph) head(arc int32) int {
	if e := &g.p.Edges[arc>>1]; arc&1 == 0 {
		return e.B
	} else {
		return e.A
	}
}

// cost adds up edges.
func (g *graph) cost(edges []int) float64 {
	sum := 0.0
	for _, e := range edges {
		sum += g.p.Edges[e].Cost
	}
	return sum
}

// apart returns a terminal that cannot be reached from the first, or −1.
func (g *graph) apart() int {
	seen := make([]bool, g.p.Vertices)
	queue := []int{g.p.Terminals[0]}
	seen[queue[0]] = true
	for len(queue) > 0 {
		v := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		for _, a := range g.arcs(v) {
			if u := g.head(a); !seen[u] {
				seen[u] = true
				queue = append(queue, u)
			}
		}
	}
	for _, t := range g.p.Terminals {
		if !seen[t] {
			return t
		}
	}
	return -1
}

// heap is a binary heap of vertices by distance, nearest first, the lower
// number where two are as near; at[v] is one more than the vertex's place.
type heap struct {
	v  []int32
	at []int32
}

func before(dist []float64, a, b int32) bool {
	return dist[a] < dist[b] || dist[a] == dist[b] && a < b
}

// push puts a vertex in, or moves it up after its distance fell.
func (h *heap) push(dist []float64, v int32) {
	if h.at[v] == 0 {
		h.v = append(h.v, v)
		h.at[v] = int32(len(h.v))
	}
	i := int(h.at[v]) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !before(dist, v, h.v[up]) {
			break
		}
		h.v[i] = h.v[up]
		h.at[h.v[i]] = int32(i + 1)
		i = up
	}
	h.v[i] = v
	h.at[v] = int32(i + 1)
}

// pop takes the nearest vertex out.
func (h *heap) pop(dist []float64) int32 {
	top, last := h.v[0], h.v[len(h.v)-1]
	h.v = h.v[:len(h.v)-1]
	h.at[top] = 0
	if len(h.v) == 0 {
		return top
	}
	i := 0
	for {
		down := 2*i + 1
		if down >= len(h.v) {
			break
		}
		if down+1 < len(h.v) && before(dist, h.v[down+1], h.v[down]) {
			down++
		}
		if !before(dist, h.v[down], last) {
			break
		}
		h.v[i] = h.v[down]
		h.at[h.v[i]] = int32(i + 1)
		i = down
	}
	h.v[i] = last
	h.at[last] = int32(i + 1)
	return top
}

// clear empties the heap.
func (h *heap) clear() {
	for _, v := range h.v {
		h.at[v] = 0
	}
	h.v = h.v[:0]
}

var far = math.Inf(1)
