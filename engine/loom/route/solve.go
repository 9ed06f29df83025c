package route

import (
	"context"
	"fmt"

	"fettle/figure"
)

var cautions = []string{
	"Battery earth off first, on last, before any hole is drilled or wire is led.",
	"Keep the loom away from exhaust, moving parts, fuel and brake lines; clip and sleeve it as the vehicle's maker asks.",
	"A chafed live wire can set the vehicle alight: a grommet in every hole, no wire over an edge.",
	"This is a proposal from the places given. Who fits it checks it on the shell; roadworthiness and the law where the vehicle is used rule.",
}

// attempt is one choice of the tree and what follows from it.
type attempt struct {
	t        *trunk
	leads    []Lead
	joints   []Joint
	runs     []Stretch
	holes    []HoleRow
	narrow   []tight
	findings []Finding
}

// over is by how much bundles exceed what they must pass, millimetres.
func (a *attempt) over() float64 {
	sum := 0.0
	for _, n := range a.narrow {
		sum += n.bundle - n.largest
	}
	return sum
}

// Solve routes the loom. Cancelled, it returns the best so far, Interrupted.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	g, err := accept(p)
	if err != nil {
		return Result{}, err
	}
	k := &packs{starts: o.Starts, known: map[string]packed{}}
	dear := make([]float64, len(p.Nodes))
	for i := range dear {
		dear[i] = 1
	}
	var best *attempt
	bound, proved, rounds, stopped := 0.0, false, 0, false
	for rounds < g.r.Rounds {
		a, err := g.attempt(ctx, o, dear, k)
		if err != nil {
			return Result{}, err
		}
		if rounds == 0 {
			bound, proved = a.t.bound, a.t.proved
		}
		rounds++
		if best == nil || a.over() < best.over()-1e-9 {
			best = a
		}
		stopped = ctx.Err() != nil || a.t.stopped
		if stopped || len(a.narrow) == 0 {
			break
		}
		for _, n := range a.narrow { // dearer, and in the end as good as closed
			dear[n.node] *= 1.5 + float64(rounds)
		}
	}
	return g.result(best, bound, proved, rounds, stopped), nil
}

func (g *given) attempt(ctx context.Context, o Options, dear []float64, k *packs) (*attempt, error) {
	t, err := g.choose(ctx, o, dear)
	if err != nil {
		return nil, err
	}
	a := &attempt{t: t}
	var places []place
	places, a.joints, a.findings = g.settle(t)
	a.leads = g.leads(t, places)
	if a.runs, err = g.stretches(ctx, t, a.leads, k); err != nil {
		return nil, err
	}
	a.holes, a.narrow, err = g.passes(t, a.runs, k)
	return a, err
}

// result puts the best attempt into words.
func (g *given) result(a *attempt, bound float64, proved bool, rounds int, stopped bool) Result {
	r := Result{Status: Bounded, Runs: a.runs, Wires: a.leads, Splices: a.joints, Holes: a.holes, Cautions: cautions}
	r.Findings = append(r.Findings, g.noWay()...)
	r.Findings = append(r.Findings, g.narrowFindings(a.narrow)...)
	r.Findings = append(r.Findings, a.findings...)
	hard := len(r.Findings)
	r.Findings = append(r.Findings, g.bends(a.t, a.runs)...)
	r.Tree = Tree{Cost: a.t.cost, Bound: min(bound, a.t.cost), Rounds: rounds}
	for _, e := range a.t.edges {
		r.Tree.Length += g.length[e]
	}
	if r.Tree.Bound > 0 {
		r.Tree.Gap = r.Tree.Cost/r.Tree.Bound - 1
	}
	switch {
	case stopped:
		r.Status = Interrupted
		r.Findings = append(r.Findings, Finding{Rule: RuleStopped, Where: "the loom", Text: "it was stopped before all was worked out"})
	case hard > 0:
		r.Status = Infeasible
	case proved && r.Tree.Gap < 1e-9:
		r.Status = Proved
	}
	r.Tree.Working = figure.Figure{Name: "length of the loom", Text: mm(r.Tree.Length),
		Formula: "Σ stretches of the tree that joins all ends at least cost; cost = length × (1 + λ at a new hole)",
		With: fmt.Sprintf("%s over %s; cost %s, no tree costs less than %s: at most %s %% above the best",
			mm(r.Tree.Length), plural(len(a.t.edges), "stretch", "stretches"), num(r.Tree.Cost), num(r.Tree.Bound), num(100*r.Tree.Gap)),
		Inputs: []figure.Input{
			{Name: "λ", Value: num(g.r.NewHole), Source: figure.TradeDefault, Note: "a new hole makes its stretches dearer"},
			{Name: "bound", Value: mm(r.Tree.Bound), Source: figure.Worked, Note: "sizes of holes not counted"},
			{Name: "rounds", Value: fmt.Sprint(rounds), Source: figure.Worked, Note: "chosen anew where a bundle did not pass"},
		}}
	r.Mass = g.mass(a.leads)
	return r
}

// mass is what the wires weigh.
func (g *given) mass(leads []Lead) figure.Figure {
	sum, cut, unknown := 0.0, 0.0, 0
	for i, l := range leads {
		sum += l.Mass
		cut += l.Cut
		if g.p.Wires[i].Mass == 0 {
			unknown++
		}
	}
	f := figure.Figure{Name: "mass of wire", Text: num(sum/1000) + " kg", Formula: "Σ cut length × mass of a metre",
		With:   fmt.Sprintf("%s, %s m cut = %s g", plural(len(leads), "wire", "wires"), num(cut/1000), num(sum)),
		Inputs: []figure.Input{{Name: "mass of a metre", Value: "of each wire", Source: figure.Sheet}}}
	if unknown > 0 {
		f.Inputs[0].Note = plural(unknown, "wire", "wires") + " without one count for nothing"
	}
	return f
}

// noWay tells wires whose ends no allowed stretches join, and which forbidden
// stretch would.
func (g *given) noWay() []Finding {
	var all []Finding
	for i, w := range g.p.Wires {
		if !g.lost(i) {
			continue
		}
		f := Finding{Rule: RuleNoWay, Where: "wire " + w.ID, Text: fmt.Sprintf("no way leads from %s to %s", w.From, w.To), Hint: "add a stretch between the two parts of the body"}
		a, b := g.partOf(g.home, g.wires[i][0]), g.partOf(g.home, g.wires[i][1])
		for e, ends := range g.ends {
			p, q := g.part[ends[0]], g.part[ends[1]]
			if why := g.p.Edges[e].Forbidden; why != "" && (p == a && q == b || p == b && q == a) {
				f.Hint = fmt.Sprintf("stretch %s would join them, but is forbidden: %s", g.edgeID(e), why)
				break
			}
		}
		all = append(all, f)
	}
	return all
}
