package board

import "fettle/geom"

// arm is a stretch as the layout sees it.
type arm struct {
	a, b   int // nodes; a lies nearer the root once hung
	length float64
	half   float64 // of its thickness
	bend   float64 // least radius
	run    int     // index into Routed.Runs
}

// tree is a forest with lengths, and where it lies.
type tree struct {
	n     int
	arms  []arm
	at    [][]int   // arms at each node
	end   []float64 // room that a connector takes beyond its node
	depth []float64 // longest way below a node, away from its parent
	up    []int     // arm to the parent, −1
	pos   []geom.Point
	path  [][]geom.Point // of each arm, from a to b
}

func newTree(n int, arms []arm, end []float64) *tree {
	t := &tree{n: n, arms: arms, at: make([][]int, n), end: end, depth: make([]float64, n), up: make([]int, n),
		pos: make([]geom.Point, n), path: make([][]geom.Point, len(arms))}
	for i, a := range arms {
		t.at[a.a], t.at[a.b] = append(t.at[a.a], i), append(t.at[a.b], i)
	}
	return t
}

// other is the far node of an arm.
func (t *tree) other(arm, v int) int {
	if t.arms[arm].a == v {
		return t.arms[arm].b
	}
	return t.arms[arm].a
}

// hang roots the tree of a node and returns its nodes, parents first.
func (t *tree) hang(root int) []int {
	order := []int{root}
	t.up[root] = -1
	for i := 0; i < len(order); i++ {
		v := order[i]
		for _, e := range t.at[v] {
			if e == t.up[v] {
				continue
			}
			u := t.other(e, v)
			t.arms[e].a, t.arms[e].b = v, u
			t.up[u] = e
			order = append(order, u)
		}
	}
	for i := len(order) - 1; i >= 0; i-- {
		v := order[i]
		t.depth[v] = t.end[v]
		for _, e := range t.at[v] {
			if e != t.up[v] {
				t.depth[v] = max(t.depth[v], t.arms[e].length+t.depth[t.arms[e].b])
			}
		}
	}
	return order
}

// trunk is the heaviest way through the tree of a node, as arms in order from
// its first node: length × thickness, so that the thick middle lies straight.
func (t *tree) trunk(root int) (first int, arms []int) {
	far := func(from int) (int, map[int]int) {
		weight, by := map[int]float64{from: 0}, map[int]int{from: -1}
		best := from
		for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
			v := queue[0]
			if weight[v] > weight[best] {
				best = v
			}
			for _, e := range t.at[v] {
				if u := t.other(e, v); e != by[v] {
					by[u] = e
					weight[u] = weight[v] + t.arms[e].length*(1+t.arms[e].half)
					queue = append(queue, u)
				}
			}
		}
		return best, by
	}
	first, _ = far(root)
	last, by := far(first)
	for v := last; by[v] >= 0; v = t.other(by[v], v) {
		arms = append(arms, by[v])
	}
	for i, j := 0, len(arms)-1; i < j; i, j = i+1, j-1 {
		arms[i], arms[j] = arms[j], arms[i]
	}
	return first, arms
}

// heavy is the longest way down from a node over one of its arms.
func (t *tree) heavy(arm int) []int {
	way := []int{arm}
	for {
		v, next, best := t.arms[arm].b, -1, -1.0
		for _, e := range t.at[v] {
			if d := t.arms[e].length + t.depth[t.arms[e].b]; e != t.up[v] && d > best {
				next, best = e, d
			}
		}
		if next < 0 {
			return way
		}
		way, arm = append(way, next), next
	}
}
