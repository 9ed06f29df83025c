package steiner

import (
	"context"
	"math/rand/v2"
)

// From how many terminals cuts are raised and trees grown, and how often over
// shaken costs: always, and at most while the gap is above enough.
const (
	roots, mostRoots   = 6, 8
	rounds, mostRounds = 8, 60
	enough             = 0.02
)

// search finds a good tree and a bound where the table of subsets is too large.
func (g *graph) search(ctx context.Context, o Options) Result {
	best := Result{Cost: far, Status: Bounded}
	keep := func() {
		best.Trees++
		if c := g.improve(); c < best.Cost {
			best.Cost, best.Edges = c, g.picked()
		}
	}
	plain := func(a int32) float64 { return g.p.Edges[a>>1].Cost }
	grown := func(left []float64, root int) { // over what cuts have left
		g.grow(root, func(a int32) float64 { return min(left[a], left[a^1]) + float64(1e-3*plain(a)) })
		keep()
	}
	terms := g.p.Terminals
	order := rand.New(rand.NewPCG(o.Seed, 1<<32)).Perm(len(terms))
	for i := range min(mostRoots, len(terms)) {
		if i >= roots && best.Gap() <= enough {
			break
		}
		root := terms[order[i]]
		left, proof, bound := g.ascend(root, nil)
		best.raise(g, &proof, bound)
		grown(left, root)
		g.grow(root, plain)
		keep()
		if best.done() || ctx.Err() != nil {
			break
		}
	}
	least, most := o.Rounds, o.Rounds
	if o.Rounds == 0 {
		least, most = rounds, mostRounds
	}
	shaken := make([]float64, len(g.p.Edges))
	for r := 0; (r < least || r < most && best.Gap() > enough) && !best.done() && ctx.Err() == nil; r++ {
		rng := rand.New(rand.NewPCG(o.Seed, uint64(r)))
		for e := range shaken {
			shaken[e] = g.p.Edges[e].Cost * (1 + float64(0.3*rng.Float64()))
		}
		g.grow(terms[rng.IntN(len(terms))], func(a int32) float64 { return shaken[a>>1] })
		keep()
	}
	g.raiseBound(ctx, o.Seed, order, &best, grown)
	best.Cost = g.cost(best.Edges)
	switch {
	case best.done():
		best.Status = Proved
	case ctx.Err() != nil:
		best.Status = Interrupted
	}
	return best
}

// done reports whether the cost meets the bound, but for rounding.
func (r *Result) done() bool { return r.Cost <= r.Bound*(1+1e-12) }
