package steiner

import (
	"context"
	"fmt"
	"math"

	"fettle/fault"
)

// Edge joins two vertices at a cost, in any unit, not below 0.
type Edge struct {
	A    int     `json:"a"`
	B    int     `json:"b"`
	Cost float64 `json:"cost"`
}

// Problem is a graph and the vertices that are to be joined. Parallel edges
// are allowed.
type Problem struct {
	Vertices  int    `json:"vertices"`
	Edges     []Edge `json:"edges"`
	Terminals []int  `json:"terminals"` // each once
}

// Options bound the work.
type Options struct {
	Seed   uint64 `json:"seed,omitempty"`
	Exact  int    `json:"exact,omitempty"`  // most terminals for the table of subsets; 0 for 10, at most 14; below 0 never
	Rounds int    `json:"rounds,omitempty"` // trees grown over shaken costs; 0 for 8, and up to 60 while the gap is above 2 %, below 0 for none
}

// Status says what is known of a tree.
type Status string

// What is known.
const (
	Proved      Status = "proved best"
	Bounded     Status = "within the gap"
	Interrupted Status = "interrupted"
)

// Cut is a set of vertices that every tree must enter, and its weight.
type Cut struct {
	Set    []int32 `json:"set"`
	Weight float64 `json:"weight"`
}

// Proof is why no tree costs less than the bound: the weights add up to it, up
// to the next multiple of a unit where all costs are multiples of one.
type Proof struct {
	Root int     `json:"root"`
	Cuts []Cut   `json:"cuts"`
	Unit float64 `json:"unit,omitempty"` // a whole number, 0 for none
}

// Result is a tree and how good it is known to be.
type Result struct {
	Edges  []int   `json:"edges"` // rising
	Cost   float64 `json:"cost"`
	Bound  float64 `json:"bound"` // no tree costs less
	Status Status  `json:"status"`
	Trees  int     `json:"trees"`           // grown and improved
	Proof  *Proof  `json:"proof,omitempty"` // nil where the table of subsets proves it
}

// Gap is how far above the bound the cost is, as a share of the bound.
func (r Result) Gap() float64 {
	if r.Cost <= r.Bound {
		return 0
	}
	return (r.Cost - r.Bound) / r.Bound
}

// validate holds the problem to its rules: 1 there are vertices, 2 edges join
// two of them, 3 at a cost that is a number and not below 0, 4 terminals are
// vertices, each named once.
func (p Problem) validate() error {
	if p.Vertices < 1 || p.Vertices > math.MaxInt32 {
		return fault.New(fault.Invalid, "%d vertices", p.Vertices).At("vertices")
	}
	for i, e := range p.Edges {
		where := fmt.Sprintf("edge %d", i)
		if min(e.A, e.B) < 0 || max(e.A, e.B) >= p.Vertices || e.A == e.B {
			return fault.New(fault.Invalid, "it joins %d to %d of %d vertices", e.A, e.B, p.Vertices).At(where)
		}
		if !(e.Cost >= 0 && e.Cost <= 1e15) {
			return fault.New(fault.Invalid, "its cost is %v", e.Cost).At(where)
		}
	}
	seen := make([]bool, p.Vertices)
	for i, t := range p.Terminals {
		if t < 0 || t >= p.Vertices || seen[t] {
			return fault.New(fault.Invalid, "vertex %d is no vertex or stands twice", t).At(fmt.Sprintf("terminal %d", i))
		}
		seen[t] = true
	}
	return nil
}

// Solve finds a tree over the terminals. It is a fault when they cannot be
// joined. Cancelled, it returns the best so far.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := p.validate(); err != nil {
		return Result{}, err
	}
	if len(p.Terminals) < 2 {
		return Result{Edges: []int{}, Status: Proved}, nil
	}
	g := newGraph(p)
	if t := g.apart(); t >= 0 {
		return Result{}, fault.New(fault.Invalid, "no way leads from vertex %d to vertex %d", p.Terminals[0], t).At("terminals")
	}
	most := min(o.Exact, 14)
	if most == 0 {
		most = 10
	}
	if len(p.Terminals) <= most {
		if edges, ok := g.exact(ctx); ok {
			c := g.cost(edges)
			return Result{Edges: edges, Cost: c, Bound: c, Status: Proved, Trees: 1}, nil
		}
	}
	return g.search(ctx, o), nil
}
