package loom

import (
	"container/heap"
	"math"
)

// tree is the ways along metal from one terminal, the least ohms first, every
// contact taken as closed.
type tree struct {
	ohms  []float64
	by    []int32 // branch that leads there, −1 at the start and where nothing leads
	guard []int32 // fuse with the smallest rating on the way, −1: none
	depth []int32 // branches on the way
}

type reach struct {
	node int32
	ohms float64
}
type reaches []reach

func (q reaches) Len() int { return len(q) }
func (q reaches) Less(i, j int) bool {
	return q[i].ohms < q[j].ohms || q[i].ohms == q[j].ohms && q[i].node < q[j].node
}
func (q reaches) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *reaches) Push(x any)   { *q = append(*q, x.(reach)) }
func (q *reaches) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}

// from grows the tree from nodes with ohms of each branch; open says which
// branches do not lead on.
func (n *net) from(start []int32, ohms []float64, open func(int) bool) tree {
	t := tree{ohms: make([]float64, len(n.names)), by: make([]int32, len(n.names)), guard: make([]int32, len(n.names)), depth: make([]int32, len(n.names))}
	for i := range t.ohms {
		t.ohms[i], t.by[i], t.guard[i] = math.Inf(1), -1, -1
	}
	q := &reaches{}
	for _, s := range start {
		if t.ohms[s] != 0 {
			t.ohms[s] = 0
			heap.Push(q, reach{s, 0})
		}
	}
	for q.Len() > 0 {
		at := heap.Pop(q).(reach)
		if at.ohms > t.ohms[at.node] {
			continue
		}
		for _, i := range n.touching[at.node] {
			e := &n.branches[i]
			if !e.kind.passes() || open != nil && open(int(i)) {
				continue
			}
			to := e.other(at.node)
			if r := at.ohms + ohms[i]; r < t.ohms[to] {
				t.ohms[to], t.by[to], t.depth[to] = r, i, t.depth[at.node]+1
				t.guard[to] = n.tighter(t.guard[at.node], e)
				heap.Push(q, reach{to, r})
			}
		}
	}
	return t
}

// tighter returns which fuse guards behind a branch.
func (n *net) tighter(guard int32, e *branch) int32 {
	if e.kind != fuseBranch {
		return guard
	}
	if guard < 0 || n.p.Fuses[e.of].Amps < n.p.Fuses[guard].Amps {
		return int32(e.of)
	}
	return guard
}

// reached reports whether the tree comes to a node.
func (t *tree) reached(node int32) bool { return !math.IsInf(t.ohms[node], 1) }

// walk calls with every branch from a node back to where the tree starts, until
// told to stop.
func (n *net) walk(t *tree, node int32, with func(int) bool) {
	for t.by[node] >= 0 {
		i := int(t.by[node])
		if !with(i) {
			return
		}
		node = n.branches[i].other(node)
	}
}

// earthed returns the terminals of batteries at earth, and the live ones.
func (n *net) terminals() (live, back []int32) {
	for _, i := range n.cells {
		e := &n.branches[i]
		if n.p.PositiveEarth {
			live, back = append(live, e.b), append(back, e.a)
		} else {
			live, back = append(live, e.a), append(back, e.b)
		}
	}
	return live, back
}
