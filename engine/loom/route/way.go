package route

import "math"

// place is a point of the forest: a node, or a point on a stretch where node is −1.
type place struct {
	node int
	edge int
	at   float64 // from the From end of the stretch
}

// lower is the end of a stretch of the forest that hangs on the other.
func (g *given) lower(t *trunk, e int) int {
	if t.up[g.ends[e][0]] == e {
		return g.ends[e][0]
	}
	return g.ends[e][1]
}

// way lists the steps from one place to another inside the forest, nil where
// they lie in different trees.
func (g *given) way(t *trunk, from, to place) []Step {
	steps := []Step{}
	if from.node < 0 && to.node < 0 && from.edge == to.edge {
		return append(steps, Step{from.edge, from.at, to.at})
	}
	var tail []Step
	a, first := g.leave(t, from, to)
	b, last := g.leave(t, to, from)
	if t.root[a] != t.root[b] {
		return nil
	}
	if from.node < 0 {
		steps = append(steps, first)
	}
	if to.node < 0 {
		tail = append(tail, Step{last.Edge, last.To, last.From})
	}
	for a != b {
		if !t.below(b, a) {
			e := t.up[a]
			steps = append(steps, g.whole(e, a))
			a = g.other(e, a)
			continue
		}
		e := t.up[b]
		u := g.other(e, b)
		tail = append(tail, g.whole(e, u))
		b = u
	}
	for i := len(tail) - 1; i >= 0; i-- {
		steps = append(steps, tail[i])
	}
	return steps
}

// leave is the node by which the way from one place to another leaves its
// stretch, and the step to it; an empty step from a node.
func (g *given) leave(t *trunk, from, to place) (int, Step) {
	if from.node >= 0 {
		return from.node, Step{}
	}
	down := g.lower(t, from.edge)
	target := to.node
	if target < 0 {
		target = g.lower(t, to.edge)
	}
	out := g.other(from.edge, down)
	if t.below(target, down) {
		out = down
	}
	s := Step{Edge: from.edge, From: from.at}
	if g.ends[from.edge][1] == out {
		s.To = g.length[from.edge]
	}
	return out, s
}

// whole is the step over all of a stretch, from a node on.
func (g *given) whole(e, from int) Step {
	if g.ends[e][0] == from {
		return Step{e, 0, g.length[e]}
	}
	return Step{e, g.length[e], 0}
}

// span is how long a step is.
func (s Step) span() float64 {
	if s.To > s.From {
		return s.To - s.From
	}
	return s.From - s.To
}

// closer reports whether a way shorter than a limit leads from one place to
// another along the forest.
func (g *given) closer(t *trunk, from, to place, limit float64) bool {
	if from.node < 0 && to.node < 0 && from.edge == to.edge {
		return math.Abs(from.at-to.at) < limit
	}
	a, first := g.leave(t, from, to)
	b, last := g.leave(t, to, from)
	if t.root[a] != t.root[b] {
		return false
	}
	sum := first.span() + last.span()
	for a != b && sum < limit {
		v := &b
		if !t.below(b, a) {
			v = &a
		}
		e := t.up[*v]
		sum += g.length[e]
		*v = g.other(e, *v)
	}
	return sum < limit
}
