package steiner

import "slices"

// ascend raises cuts from a root until every terminal is reached from it by
// arcs that have nothing left, and returns what is left of every arc, with the
// proof of the bound. A cut is the set of all vertices from which saturated
// arcs lead to a terminal; it is raised while no other unreached terminal lies
// in it, the one with fewest arcs first [Wong1984]. A guide may be nil.
func (g *graph) ascend(root int, by *guide) (left []float64, proof Proof, bound float64) {
	left = make([]float64, 2*len(g.p.Edges))
	for e, ed := range g.p.Edges {
		left[2*e], left[2*e+1] = ed.Cost, ed.Cost
	}
	proof.Root = root
	mark := make([]bool, g.p.Vertices)
	var active []int
	waits := make([]bool, g.p.Vertices) // active, as a mark
	waits[root] = true
	for _, t := range g.p.Terminals {
		if t != root {
			active = append(active, t)
			waits[t] = true
		}
	}
	size := make([]int, g.p.Vertices) // of the cut of a terminal when last seen
	if by != nil {
		proof.Cuts, bound = g.again(root, by, left, mark)
		by.rng.Shuffle(len(active), func(i, j int) { active[i], active[j] = active[j], active[i] })
	}
	for len(active) > 0 {
		at := 0
		for i, t := range active {
			if size[t] < size[active[at]] {
				at = i
			}
		}
		t := active[at]
		set, free := g.cut(t, waits, left, mark)
		arcs := 0
		if free {
			var least float64
			least, arcs = g.crossing(set, left, mark)
			if by != nil {
				least = min(least, by.grain)
				arcs += astray * (g.crossed(set, mark, by.tree) - 1)
			}
			if size[t] == 0 || arcs <= size[t] || len(active) == 1 || g.smallest(active, t, arcs, size) {
				g.raise(set, left, mark, least)
				bound += least
				proof.Cuts = append(proof.Cuts, Cut{Set: slices.Clone(set), Weight: least})
			}
			size[t] = arcs
		} else {
			active = slices.Delete(active, at, at+1)
			waits[t] = false
		}
		for _, v := range set {
			mark[v] = false
		}
	}
	return left, proof, bound
}

// smallest reports whether no other active terminal had a smaller cut.
func (g *graph) smallest(active []int, t, arcs int, size []int) bool {
	for _, u := range active {
		if u != t && size[u] < arcs {
			return false
		}
	}
	return true
}

// cut collects in g.queue, and marks, the vertices from which saturated arcs
// lead to a terminal. It is not free when the root or another waiting terminal
// is among them: that one reaches it, so its own cuts do for both.
func (g *graph) cut(t int, waits []bool, left []float64, mark []bool) (set []int32, free bool) {
	set = append(g.queue[:0], int32(t))
	mark[t] = true
	free = true
	for i := 0; i < len(set) && free; i++ {
		for _, out := range g.arcs(int(set[i])) {
			u := g.head(out)
			if mark[u] || left[out^1] > 0 {
				continue
			}
			if waits[u] {
				free = false
				break
			}
			mark[u] = true
			set = append(set, int32(u))
		}
	}
	g.queue = set
	return set, free
}

// crossing returns the least that is left of the arcs into a set, and their number.
func (g *graph) crossing(set []int32, left []float64, mark []bool) (least float64, arcs int) {
	least = far
	for _, v := range set {
		for _, out := range g.arcs(int(v)) {
			if !mark[g.head(out)] {
				arcs++
				least = min(least, left[out^1])
			}
		}
	}
	return least, arcs
}

// raise takes an amount from every arc into a set.
func (g *graph) raise(set []int32, left []float64, mark []bool, by float64) {
	for _, v := range set {
		for _, out := range g.arcs(int(v)) {
			if !mark[g.head(out)] {
				left[out^1] -= by
			}
		}
	}
}
