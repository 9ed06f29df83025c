package steiner

import (
	"fmt"
	"math"
	"slices"

	"fettle/fault"
)

// Check holds a result to the raw problem: the edges are a tree over all
// terminals, they cost what is said, and the bound follows from the proof. It
// shares nothing with the search. A result without proof claims the table of
// subsets: Check fills one of its own, by plain sweeps over the edges, which is
// slow where it is not small.
func Check(p Problem, r Result) error {
	sum, near := 0.0, func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)) }
	next := map[int][]int{}
	for i, e := range r.Edges {
		if e < 0 || e >= len(p.Edges) || i > 0 && r.Edges[i-1] >= e {
			return fault.New(fault.Internal, "no edge, or out of order").At(fmt.Sprintf("edge %d", e))
		}
		ed := p.Edges[e]
		sum += ed.Cost
		next[ed.A], next[ed.B] = append(next[ed.A], ed.B), append(next[ed.B], ed.A)
	}
	if !near(sum, r.Cost) {
		return fault.New(fault.Internal, "the edges cost %g, said is %g", sum, r.Cost)
	}
	if len(p.Terminals) > 0 {
		seen := map[int]bool{p.Terminals[0]: true}
		for queue := []int{p.Terminals[0]}; len(queue) > 0; queue = queue[1:] {
			for _, u := range next[queue[0]] {
				if !seen[u] {
					seen[u] = true
					queue = append(queue, u)
				}
			}
		}
		for _, t := range p.Terminals {
			if !seen[t] {
				return fault.New(fault.Internal, "terminal %d is not joined", t)
			}
		}
		if len(r.Edges) != len(seen)-1 {
			return fault.New(fault.Internal, "%d edges over %d vertices are no tree", len(r.Edges), len(seen))
		}
	}
	if r.Proof == nil {
		if least := cheapest(p); !near(least, r.Bound) {
			return fault.New(fault.Internal, "the cheapest tree costs %g, said is a bound of %g", least, r.Bound)
		}
		return nil
	}
	return checkProof(p, r, near)
}

// cheapest is the cost of the cheapest tree: for every subset of terminals but
// the last, and every vertex, the cheapest tree over both is what two parts of
// the subset cost at the vertex, or at a neighbour and the edge to it.
func cheapest(p Problem) float64 {
	k := len(p.Terminals) - 1
	if k < 1 {
		return 0
	}
	table := make([][]float64, 1<<k)
	for set := 1; set < len(table); set++ {
		row := make([]float64, p.Vertices)
		for v := range row {
			row[v] = math.Inf(1)
			if at := slices.Index(p.Terminals, v); at >= 0 && 1<<at == set {
				row[v] = 0
			}
			for part := set & (set - 1); part > 0; part = (part - 1) & set {
				row[v] = min(row[v], table[part][v]+table[set&^part][v])
			}
		}
		for again := true; again; {
			again = false
			for _, e := range p.Edges {
				for _, way := range [2][2]int{{e.A, e.B}, {e.B, e.A}} {
					if c := row[way[0]] + e.Cost; c < row[way[1]] {
						row[way[1]], again = c, true
					}
				}
			}
		}
		table[set] = row
	}
	return table[len(table)-1][p.Terminals[k]]
}

// checkProof adds the cuts up again, and what each arc pays.
func checkProof(p Problem, r Result, near func(a, b float64) bool) error {
	if r.Proof.Root < 0 || r.Proof.Root >= p.Vertices {
		return fault.New(fault.Internal, "root %d is no vertex", r.Proof.Root)
	}
	sum, paid := 0.0, make([]float64, 2*len(p.Edges))
	for i, c := range r.Proof.Cuts {
		in := make([]bool, p.Vertices)
		for _, v := range c.Set {
			if v < 0 || int(v) >= p.Vertices {
				return fault.New(fault.Internal, "vertex %d is none", v).At(fmt.Sprintf("cut %d", i))
			}
			in[v] = true
		}
		holds := false
		for _, t := range p.Terminals {
			holds = holds || in[t]
		}
		if !holds || in[r.Proof.Root] || c.Weight < 0 {
			return fault.New(fault.Internal, "no tree need cross it").At(fmt.Sprintf("cut %d", i))
		}
		sum += c.Weight
		for e, ed := range p.Edges {
			if in[ed.B] && !in[ed.A] {
				paid[2*e] += c.Weight
			}
			if in[ed.A] && !in[ed.B] {
				paid[2*e+1] += c.Weight
			}
		}
	}
	for a, x := range paid {
		if c := p.Edges[a/2].Cost; x > c && !near(x, c) {
			return fault.New(fault.Internal, "cuts ask %g of an edge that costs %g", x, c).At(fmt.Sprintf("edge %d", a/2))
		}
	}
	root := false
	for _, t := range p.Terminals {
		root = root || t == r.Proof.Root
	}
	if u := r.Proof.Unit; u != 0 {
		for e, ed := range p.Edges {
			if !(u >= 1) || math.Mod(ed.Cost, u) != 0 {
				return fault.New(fault.Internal, "its cost %g is no multiple of %g", ed.Cost, u).At(fmt.Sprintf("edge %d", e))
			}
		}
		if over := r.Bound - sum; over > 0 && over < u && math.Mod(r.Bound, u) == 0 {
			sum = r.Bound
		}
	}
	if !root || !near(sum, r.Bound) {
		return fault.New(fault.Internal, "the cuts add up to %g, said is %g", sum, r.Bound)
	}
	return nil
}
