package steiner

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
)

// guide leads an ascent by what is known already. A cut that a tree crosses more
// than once costs the bound its weight for every crossing but one, so those that
// the best tree crosses once are kept from an ascent before, and come first
// [PoggiUchoaWerneck2001].
type guide struct {
	tree  []bool // arcs by which the best tree leaves the root
	cuts  []Cut  // of an ascent before, from any root
	grain float64
	rng   *rand.Rand
}

// How the bound is raised while the gap is above enough: so many ascents, a new
// root after so many, a tree grown over what is left of the costs after so many.
const (
	ascents     = 160
	mostAscents = 800 // while the gap is above twice enough
	perRoot     = 10
	perGrown    = 8
	kept        = 0.9     // of the cuts that are crossed once
	astray      = 1 << 20 // arcs that one crossing too many counts for
	grainOfMean = 0.5     // of the mean cost: most that a cut is raised by at once
)

// raiseBound takes cuts out that the best tree crosses twice, and some others by
// chance, and raises the rest anew, as long as the gap is above enough.
func (g *graph) raiseBound(ctx context.Context, seed uint64, order []int, best *Result, grown func(left []float64, root int)) {
	mean := 0.0
	for _, e := range g.p.Edges {
		mean += e.Cost / float64(len(g.p.Edges))
	}
	at, had := best.Proof, 0.0
	for r := 0; (r < ascents && best.Gap() > enough || r < mostAscents && best.Gap() > 2*enough) && ctx.Err() == nil; r++ {
		root := g.p.Terminals[order[r/perRoot%len(order)]]
		left, proof, bound := g.ascend(root, &guide{
			tree: g.directed(root, best.Edges), cuts: at.Cuts, grain: grainOfMean * mean,
			rng: rand.New(rand.NewPCG(seed, 1<<33+uint64(r))),
		})
		if r%perRoot == 0 || bound >= had {
			at, had = &proof, bound
		}
		best.raise(g, &proof, bound)
		if r%perGrown == 0 {
			grown(left, root)
		}
	}
}

// raise keeps a proof whose bound is above the one known. Where all costs are
// multiples of one whole number, so is the cost of every tree, and the bound goes
// up to the next multiple.
func (r *Result) raise(g *graph, p *Proof, bound float64) {
	if g.unit > 0 && bound < 1e8*g.unit {
		p.Unit = g.unit
		bound = g.unit * math.Ceil(bound/g.unit*(1-1e-9))
	}
	if bound > r.Bound || r.Proof == nil {
		r.Bound, r.Proof = bound, p
	}
}

// measure is the largest whole number of which every cost is a multiple, 0 for none.
func measure(edges []Edge) float64 {
	unit := 0.0
	for _, e := range edges {
		if e.Cost != math.Trunc(e.Cost) {
			return 0
		}
		for rest := e.Cost; rest > 0; {
			unit, rest = rest, math.Mod(unit, rest)
		}
	}
	return unit
}

// again raises kept cuts that the tree crosses once, and returns them.
func (g *graph) again(root int, by *guide, left []float64, mark []bool) (cuts []Cut, bound float64) {
	for _, c := range by.cuts {
		for _, v := range c.Set {
			mark[v] = true
		}
		if !mark[root] && g.crossed(c.Set, mark, by.tree) == 1 && by.rng.Float64() < kept {
			g.raise(c.Set, left, mark, c.Weight)
			cuts = append(cuts, c)
			bound += c.Weight
		}
		for _, v := range c.Set {
			mark[v] = false
		}
	}
	return slices.Clip(cuts), bound
}

// crossed counts the arcs of a tree that lead into a set.
func (g *graph) crossed(set []int32, mark, tree []bool) int {
	n := 0
	for _, v := range set {
		for _, out := range g.arcs(int(v)) {
			if tree[out^1] && !mark[g.head(out)] {
				n++
			}
		}
	}
	return n
}

// directed marks the arcs by which a tree leaves a root.
func (g *graph) directed(root int, tree []int) []bool {
	in, arcs := make([]bool, len(g.p.Edges)), make([]bool, 2*len(g.p.Edges))
	for _, e := range tree {
		in[e] = true
	}
	for queue := []int{root}; len(queue) > 0; queue = queue[1:] {
		for _, a := range g.arcs(queue[0]) {
			if in[a>>1] && !arcs[a^1] {
				arcs[a] = true
				queue = append(queue, g.head(a))
			}
		}
	}
	return arcs
}
