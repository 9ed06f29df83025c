package route

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/figure"
)

// leads finds the way and the length of every wire.
func (g *given) leads(t *trunk, places []place) []Lead {
	leads := make([]Lead, len(g.p.Wires))
	for i, w := range g.p.Wires {
		leads[i] = Lead{ID: w.ID, Steps: []Step{}}
		if g.lost(i) {
			continue
		}
		from, to := g.placeOf(g.wires[i][0], places), g.placeOf(g.wires[i][1], places)
		if from.node < 0 && from.edge < 0 || to.node < 0 && to.edge < 0 {
			continue
		}
		leads[i].Steps = g.way(t, from, to)
		g.measure(i, &leads[i])
	}
	return leads
}

func (g *given) placeOf(end int, places []place) place {
	if end >= 0 {
		return place{node: end, edge: -1}
	}
	return places[-1-end]
}

// measure adds up the length to cut: each step with its slack, what moves, the
// stubs, the stripped ends and the service loops, rounded up.
func (g *given) measure(i int, l *Lead) {
	w := g.p.Wires[i]
	slack, flex := 0.0, 0.0
	for _, s := range l.Steps {
		l.Along += s.span()
		slack += s.span() * g.slack(s.Edge)
		if g.p.Edges[s.Edge].Flex != "" {
			flex += g.r.FlexSlack
		}
	}
	stubs, loops, at := 0.0, 0.0, 0
	for _, end := range g.wires[i] {
		if end < 0 {
			continue
		}
		n := g.p.Nodes[end]
		stubs += n.Stub
		if !n.NoService {
			at++
			if n.Service > 0 {
				loops += n.Service
			} else {
				loops += g.r.Service
			}
		}
	}
	sum := l.Along + slack + flex + stubs + 2*g.r.Strip + loops
	l.Cut = math.Ceil(sum/g.r.RoundUp-1e-9) * g.r.RoundUp
	l.Mass = w.Mass * l.Cut / 1000
	l.Ohms = w.Ohms * l.Cut / 1000
	l.Working = g.leadWorking(w, *l, slack, flex, stubs, loops, sum)
}

// slack is the share of a stretch that is added.
func (g *given) slack(e int) float64 {
	if s := g.p.Edges[e].Slack; s > 0 {
		return s
	}
	return g.r.Slack
}

func (g *given) leadWorking(w Wire, l Lead, slack, flex, stubs, loops, sum float64) figure.Figure {
	var with strings.Builder
	with.WriteString(num(l.Along) + " + " + num(slack))
	for _, x := range []float64{flex, stubs} {
		if x > 0 {
			with.WriteString(" + " + num(x))
		}
	}
	with.WriteString(" + 2 × " + num(g.r.Strip) + " + " + num(loops) + " = " + num(sum) + ", up to " + mm(l.Cut))
	inputs := []figure.Input{
		{Name: "along the loom", Value: mm(l.Along), Source: figure.Measured, Note: strconv.Itoa(len(l.Steps)) + " stretches, " + w.From.String() + " to " + w.To.String()},
		{Name: "slack", Value: mm(slack), Source: figure.TradeDefault, Note: "share of each stretch, " + num(100*g.r.Slack) + " % unless it says otherwise"},
	}
	if flex > 0 {
		inputs = append(inputs, figure.Input{Name: "between parts that move", Value: mm(flex), Source: figure.TradeDefault})
	}
	if stubs > 0 {
		inputs = append(inputs, figure.Input{Name: "stubs", Value: mm(stubs), Source: figure.Measured})
	}
	inputs = append(inputs,
		figure.Input{Name: "stripped", Value: "2 × " + mm(g.r.Strip), Source: figure.TradeDefault},
		figure.Input{Name: "service loops", Value: mm(loops), Source: figure.TradeDefault, Note: "for making ends anew; none at splices"})
	return figure.Figure{Name: "length of " + w.ID, Text: mm(l.Cut),
		Formula: "Σ stretch × (1 + slack) + moving parts + stubs + stripped ends + service loops, rounded up to " + mm(g.r.RoundUp),
		With:    with.String(), Inputs: inputs}
}

// num writes a number with at most one decimal, or two below ten.
func num(x float64) string {
	places := 1
	if math.Abs(x) < 10 {
		places = 2
	}
	s := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// mm writes millimetres.
func mm(x float64) string { return num(x) + " mm" }

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
