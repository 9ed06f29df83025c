package route

import (
	"fmt"
	"math"
)

// settle finds a place for every splice: where the copper of its wires is
// least, as far from breakouts, holes, connectors, corners and other splices as
// the rules ask.
func (g *given) settle(t *trunk) (places []place, joints []Joint, findings []Finding) {
	places = make([]place, len(g.p.Splices))
	for s := range places {
		places[s] = place{node: -1, edge: -1}
	}
	for s, sp := range g.p.Splices {
		ends, names := g.spliceEnds(s)
		if g.home[s] < 0 || len(ends) == 0 {
			continue
		}
		at, pull := g.pulls(t, ends)
		best, cost, free := g.seat(t, s, at, pull, places[:s])
		if best.edge < 0 {
			findings = append(findings, Finding{Rule: RuleSplice, Where: "splice " + sp.ID, Text: "all that it joins ends in one place, or not on the stretch that it must lie on", Hint: "join the wires in the connector, or name another stretch"})
			continue
		}
		places[s] = best
		why := fmt.Sprintf("%s of wire to the ends that it joins, the least that keeps %s mm from breakouts, holes, connectors and other splices", mm(cost), num(g.r.SpliceApart))
		if !free {
			why = "no stretch has room for it"
			findings = append(findings, Finding{Rule: RuleSplice, Where: "splice " + sp.ID,
				Text: "no stretch of its tree leaves " + num(g.r.SpliceApart) + " mm on both sides of it", Hint: "add a longer stretch, or allow splices closer together"})
		}
		joints = append(joints, Joint{ID: sp.ID, Edge: best.edge, At: best.at, Wires: names, Why: why})
	}
	return places, joints, findings
}

// spliceEnds are the nodes that the wires of a splice lead to, those over
// another splice left out unless there are no others, and the wires' names.
func (g *given) spliceEnds(s int) (ends []int, names []string) {
	for i, w := range g.wires {
		for k, v := range w {
			if v != -1-s {
				continue
			}
			names = append(names, g.p.Wires[i].ID)
			if far := w[1-k]; far >= 0 && !g.lost(i) {
				ends = append(ends, far)
			}
		}
	}
	if len(ends) == 0 {
		for i, w := range g.wires {
			for _, v := range w {
				if v >= 0 && !g.lost(i) && g.part[v] == g.home[s] {
					return []int{v}, names
				}
			}
		}
	}
	return ends, names
}

// pulls returns by node the length of wire from it to all ends, and how many
// ends hang below it.
func (g *given) pulls(t *trunk, ends []int) (at []float64, below []int) {
	n := len(g.p.Nodes)
	at, below = make([]float64, n), make([]int, n)
	root := t.root[ends[0]]
	for _, v := range ends {
		below[v]++
		at[root] += t.dist[v]
	}
	for i := len(t.order) - 1; i >= 0; i-- {
		if v := t.order[i]; t.up[v] >= 0 {
			below[g.other(t.up[v], v)] += below[v]
		}
	}
	for _, v := range t.order {
		if e := t.up[v]; e >= 0 && t.root[v] == root {
			at[v] = at[g.other(e, v)] + g.length[e]*float64(len(ends)-2*below[v])
		}
	}
	return at, below
}

// seat looks along every stretch for the cheapest place that is free; when
// none is, the middle of the stretch that is cheapest there.
func (g *given) seat(t *trunk, s int, at []float64, below []int, taken []place) (best place, cost float64, free bool) {
	best, cost = place{node: -1, edge: -1}, math.Inf(1)
	spare, spareCost := best, math.Inf(1)
	root := g.home[s]
	for _, e := range t.edges {
		if want := g.p.Splices[s].Edge; g.part[g.ends[e][0]] != root || want != "" && want != g.edgeID(e) {
			continue
		}
		a, b := g.ends[e][0], g.ends[e][1]
		long := g.length[e]
		if mid := (at[a] + at[b]) / 2; mid < spareCost {
			spare, spareCost = place{-1, e, long / 2}, mid
		}
		if min(at[a], at[b]) >= cost {
			continue
		}
		lo, hi := g.margin(t, a), long-g.margin(t, b)
		const step = 5 // millimetres between places tried
		for k := range int((hi-lo)/step) + 1 {
			x := lo + step*float64(k)
			if at[b] < at[a] {
				x = hi - step*float64(k)
			}
			c := at[a] + (at[b]-at[a])*x/long
			if hi < lo || c >= cost {
				break
			}
			if p := (place{-1, e, x}); g.clearOf(t, p, taken) {
				best, cost, free = p, c, true
				break
			}
		}
	}
	if !free {
		return spare, spareCost, false
	}
	return best, cost, true
}

// margin is how far a splice keeps from a node.
func (g *given) margin(t *trunk, v int) float64 {
	if t.degree[v] != 2 || g.p.Nodes[v].Kind == Hole || g.p.Nodes[v].Kind == Connector {
		return g.r.SpliceApart
	}
	return g.r.SpliceApart / 2
}

// clearOf reports whether a place keeps off corners of its line and off taken places.
func (g *given) clearOf(t *trunk, p place, taken []place) bool {
	line, run := g.line(p.edge), 0.0
	for k := 1; k+1 < len(line); k++ {
		run += distance(line[k-1], line[k]) * g.scale[p.edge]
		if math.Abs(run-p.at) < g.r.SpliceApart/2 && turn(line[k-1], line[k], line[k+1]) > sharp {
			return false
		}
	}
	for _, q := range taken {
		if q.edge < 0 {
			continue
		}
		if g.closer(t, p, q, g.r.SpliceApart) {
			return false
		}
	}
	return true
}

// sharp is the turn from which a corner is a bend, radians (30°).
const sharp = math.Pi / 6

// turn is the angle between two legs of a line, radians; 0 straight on.
func turn(a, b, c [3]float64) float64 {
	dot := 0.0
	for k := range 3 {
		dot += float64((b[k] - a[k]) * (c[k] - b[k]))
	}
	l := distance(a, b) * distance(b, c)
	if l == 0 {
		return 0
	}
	return math.Acos(max(min(dot/l, 1), -1))
}
