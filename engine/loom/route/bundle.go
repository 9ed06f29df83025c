package route

import (
	"context"
	"fmt"
	"strings"

	"fettle/engine/loom/circles"
	"fettle/figure"
)

// stretches are the bundles of a forest's edges.
func (g *given) stretches(ctx context.Context, t *trunk, leads []Lead, k *packs) ([]Stretch, error) {
	inside := make([][]int, len(g.ends))
	for i, l := range leads {
		for _, s := range l.Steps {
			if n := len(inside[s.Edge]); n == 0 || inside[s.Edge][n-1] != i {
				inside[s.Edge] = append(inside[s.Edge], i)
			}
		}
	}
	bundles := make([]bundle, len(t.edges))
	for i, e := range t.edges {
		bundles[i] = g.bundle(inside[e])
	}
	k.ahead(ctx, bundles)
	runs := make([]Stretch, 0, len(t.edges))
	for i, e := range t.edges {
		if ctx.Err() != nil {
			return runs, nil
		}
		ed := g.p.Edges[e]
		s := Stretch{Edge: e, ID: g.edgeID(e), From: ed.From, To: ed.To, Length: g.length[e], Wires: inside[e], Cover: ed.Cover}
		if s.Cover == "" {
			s.Cover = Tape
		}
		if s.Wires == nil {
			s.Wires = []int{}
		}
		var err error
		if s.Packed, s.At, err = k.pack(bundles[i]); err != nil {
			return nil, err
		}
		s.Outside = s.Packed
		if len(s.Wires) > 0 {
			s.Outside += 2 * g.wall(s.Cover)
		}
		s.Bend = g.r.Bend * s.Outside
		s.Rule, s.Working = g.bundleWorking(s)
		runs = append(runs, s)
	}
	return runs, nil
}

// wall is the thickness of a cover.
func (g *given) wall(c Cover) float64 {
	switch c {
	case Tape:
		return g.r.TapeWall
	case Sleeve:
		return g.r.SleeveWall
	}
	return 0
}

// bundleWorking is the rule of thumb of a bundle, and how its diameter came about.
func (g *given) bundleWorking(s Stretch) (float64, figure.Figure) {
	d := make([]float64, len(s.Wires))
	for i, w := range s.Wires {
		d[i] = g.p.Wires[w].Outside
	}
	rule, k := circles.Rule(d)
	var with strings.Builder
	fmt.Fprintf(&with, "%d wires packed round: %s + 2 × %s (%s) = %s", len(d), num(s.Packed), num(g.wall(s.Cover)), s.Cover, mm(s.Outside))
	return rule, figure.Figure{Name: "bundle of " + s.ID, Text: mm(s.Outside),
		Formula: "smallest circle found round the wires + 2 × wall of the cover; by the rule k·√(Σd²)",
		With:    with.String(),
		Inputs: []figure.Input{
			{Name: "packed", Value: mm(s.Packed), Source: figure.Worked, Note: "circles without overlap, checked"},
			{Name: "rule of thumb", Value: mm(rule), Source: figure.Worked, Note: "k = " + num(k)},
			{Name: "cover", Value: mm(g.wall(s.Cover)), Source: figure.TradeDefault, Note: string(s.Cover)},
			{Name: "least bend", Value: mm(s.Bend), Source: figure.TradeDefault, Note: num(g.r.Bend) + " × the outer diameter"},
		}}
}
