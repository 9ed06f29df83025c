package mesh

import (
	"container/heap"
	"math"
	"slices"
)

// Cost is what it costs to go along the edge from vertex u to vertex v, which is
// not negative; +Inf forbids it.
type Cost func(u, v int32) float64

// EdgeLength costs what an edge is long.
func (m Mesh) EdgeLength(u, v int32) float64 { return m.Points[v].Sub(m.Points[u]).Length() }

// Reach is how every vertex is best come to along edges from where a search
// began.
type Reach struct {
	Cost []float64 // by vertex, +Inf where no way leads
	From []int32   // by vertex: the one before it, None at the beginning
}

// Path returns the vertices from the beginning to v, or nothing where no way
// leads there.
func (r Reach) Path(v int32) []int32 {
	if math.IsInf(r.Cost[v], 1) {
		return nil
	}
	var path []int32
	for ; v != None; v = r.From[v] {
		path = append(path, v)
	}
	slices.Reverse(path)
	return path
}

// Reach searches from some vertices to all others [Dijkstra1959]. Equal costs
// are settled by the lower vertex.
func (a Adjacency) Reach(from []int32, cost Cost) Reach {
	r, _ := a.reach(from, nil, cost)
	return r
}

// ShortestPath returns the cheapest way along edges from any of some vertices to
// the cheapest to reach of others, both ends included, and its cost; no path
// and +Inf where none leads there.
func (a Adjacency) ShortestPath(from, to []int32, cost Cost) ([]int32, float64) {
	aim := make([]bool, len(a.first)-1)
	for _, v := range to {
		aim[v] = true
	}
	r, end := a.reach(from, aim, cost)
	if end == None {
		return nil, math.Inf(1)
	}
	return r.Path(end), r.Cost[end]
}

// reach stops at the first vertex that is an aim.
func (a Adjacency) reach(from []int32, aim []bool, cost Cost) (Reach, int32) {
	n := len(a.first) - 1
	r := Reach{Cost: make([]float64, n), From: make([]int32, n)}
	for v := range n {
		r.Cost[v], r.From[v] = math.Inf(1), None
	}
	var front queue
	for _, v := range from {
		if r.Cost[v] > 0 {
			r.Cost[v] = 0
			heap.Push(&front, waiting{0, v})
		}
	}
	for front.Len() > 0 {
		w := heap.Pop(&front).(waiting)
		if w.cost > r.Cost[w.v] {
			continue
		}
		if aim != nil && aim[w.v] {
			return r, w.v
		}
		step := func(to int32) {
			if c := w.cost + cost(w.v, to); c < r.Cost[to] {
				r.Cost[to], r.From[to] = c, w.v
				heap.Push(&front, waiting{c, to})
			}
		}
		for _, h := range a.Leaving(w.v) {
			step(a.Head(h))
			if p := Prev(h); a.Twin[p] == None {
				step(a.Tail[p])
			}
		}
	}
	return r, None
}

type waiting struct {
	cost float64
	v    int32
}

// queue is a heap of vertices, the cheapest first.
type queue []waiting

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	return q[i].cost < q[j].cost || q[i].cost == q[j].cost && q[i].v < q[j].v
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(waiting)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
