package board

import (
	"fmt"
	"math"
	"slices"

	"fettle/engine/loom/route"
	"fettle/figure"
)

// NetTest is one net of the finished loom: ends that must be joined.
type NetTest struct {
	Net   string   `json:"net"`
	Wires []string `json:"wires"`
	Ends  []string `json:"ends"`  // without splices, in order
	Pairs []Pair   `json:"pairs"` // from the first end to each other
	Guard string   `json:"guard"` // the test of this net against all others
}

// Pair is a reading between two ends.
type Pair struct {
	From    string        `json:"from"`
	To      string        `json:"to"`
	Ohms    float64       `json:"ohms"` // reckoned, at 20 °C
	Below   float64       `json:"below_ohms"`
	Working figure.Figure `json:"working"`
}

// Plan is how the finished loom is tested before any power.
type Plan struct {
	Nets     []NetTest       `json:"nets"`
	Findings []route.Finding `json:"findings,omitempty"` // nets that the drawing joins
	Unknown  []string        `json:"unknown,omitempty"`  // wires without a resistance count for none
	Cautions []string        `json:"cautions"`
}

// Continuity plans the test: within each net every end reads less than what is
// reckoned and a little more; each net against all others joined together reads
// more than the isolation, so n tests do for n(n−1)/2 pairs of nets. Nets are
// found by what the wires join, cavities and splices; where they bear two names,
// that is a finding.
func Continuity(p Problem) (Plan, error) {
	r, err := p.Rules.filled()
	if err != nil {
		return Plan{}, err
	}
	plan := Plan{Cautions: []string{"Test on the board, nothing connected: lamps, coils and electronics unplugged, battery away.", "An insulation tester gives a shock and kills electronics: only on the bare loom, after its maker's sheet."}}
	joints := map[string]bool{}
	for _, s := range p.Loom.Splices {
		joints[s.ID] = true
	}
	g := newNets(p)
	for i, w := range p.Loom.Wires {
		if w.Ohms == 0 && p.Routed.Wires[i].Cut > 0 {
			plan.Unknown = append(plan.Unknown, w.ID)
		}
	}
	groups := g.groups()
	for _, wires := range groups {
		net := NetTest{Net: p.Loom.Wires[wires[0]].Net}
		for _, i := range wires {
			w := p.Loom.Wires[i]
			net.Wires = append(net.Wires, w.ID)
			if w.Net != net.Net {
				if net.Net != "" && w.Net != "" {
					plan.Findings = append(plan.Findings, route.Finding{Rule: RuleNets, Where: "wire " + w.ID,
						Text: fmt.Sprintf("it belongs to net %s and is joined to net %s", w.Net, net.Net), Hint: "give it a cavity or splice of its own"})
				}
				if net.Net == "" {
					net.Net = w.Net
				}
			}
			for k, e := range []route.End{w.From, w.To} {
				if name := g.ends[i][k]; !joints[e.Node] && !slices.Contains(net.Ends, name) {
					net.Ends = append(net.Ends, name)
				}
			}
		}
		if net.Net == "" {
			net.Net = net.Wires[0]
		}
		if len(net.Ends) > 0 {
			net.Pairs = g.pairs(net, wires, r)
		}
		net.Guard = fmt.Sprintf("%s against all other %d nets joined: more than %g MΩ", net.Net, len(groups)-1, r.Isolation/1e6)
		plan.Nets = append(plan.Nets, net)
	}
	return plan, nil
}

// nets are the ends of wires by name; an end without a cavity is its own.
type nets struct {
	p    Problem
	ends [][2]string
}

func newNets(p Problem) *nets {
	g := &nets{p: p, ends: make([][2]string, len(p.Loom.Wires))}
	joints := map[string]bool{}
	for _, s := range p.Loom.Splices {
		joints[s.ID] = true
	}
	for i, w := range p.Loom.Wires {
		for k, e := range []route.End{w.From, w.To} {
			g.ends[i][k] = e.String()
			if e.Cavity == "" && !joints[e.Node] {
				g.ends[i][k] += " (" + w.ID + ")"
			} else if joints[e.Node] {
				g.ends[i][k] = e.Node
			}
		}
	}
	return g
}

// groups are the wires that are joined, each group in the order of the wires.
func (g *nets) groups() [][]int {
	group := map[string]int{}
	var list [][]int
	for i := range g.p.Loom.Wires {
		if g.p.Routed.Wires[i].Cut == 0 {
			continue
		}
		a, okA := group[g.ends[i][0]]
		b, okB := group[g.ends[i][1]]
		switch {
		case !okA && !okB:
			a = len(list)
			list = append(list, nil)
		case !okA:
			a = b
		case okB && a != b:
			for _, w := range list[b] {
				group[g.ends[w][0]], group[g.ends[w][1]] = a, a
			}
			list[a], list[b] = append(list[a], list[b]...), nil
		}
		group[g.ends[i][0]], group[g.ends[i][1]] = a, a
		list[a] = append(list[a], i)
	}
	list = slices.DeleteFunc(list, func(l []int) bool { return len(l) == 0 })
	for _, l := range list {
		slices.Sort(l)
	}
	return list
}

// pairs reckons the resistance from the first end to every other along the best
// way; wires side by side read less.
func (g *nets) pairs(net NetTest, wires []int, r Rules) []Pair {
	ohms := map[string]float64{net.Ends[0]: 0}
	for again := true; again; {
		again = false
		for _, i := range wires {
			for k := range 2 {
				from, to := g.ends[i][k], g.ends[i][1-k]
				have, ok := ohms[from]
				if !ok {
					continue
				}
				via := have + g.p.Routed.Wires[i].Ohms
				if now, ok := ohms[to]; !ok || via < now-1e-15 {
					ohms[to], again = via, true
				}
			}
		}
	}
	var pairs []Pair
	for _, end := range net.Ends[1:] {
		x := ohms[end]
		below := math.Ceil((x+r.Above)*1000-1e-9) / 1000
		pairs = append(pairs, Pair{From: net.Ends[0], To: end, Ohms: x, Below: below,
			Working: figure.Figure{Name: net.Ends[0] + " to " + end, Text: fmt.Sprintf("< %.3f Ω", below), Formula: "Σ wire × Ω/m along the way + margin",
				With: fmt.Sprintf("%.4f + %g = %.3f Ω", x, r.Above, below),
				Inputs: []figure.Input{{Name: "wire", Value: fmt.Sprintf("%.4f Ω", x), Source: figure.Worked, Note: "at 20 °C, cut lengths"},
					{Name: "margin", Value: fmt.Sprintf("%g Ω", r.Above), Source: figure.TradeDefault, Note: "joints, and leads zeroed"}}}})
	}
	return pairs
}
