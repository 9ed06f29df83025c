package bench

import (
	"fmt"
	"slices"
	"strings"

	"fettle/figure"
)

// Habits of the trade for readings.
const (
	Contacts    = 0.1 // Ω that a reading end to end may be above the wire's own
	LeastMegohm = 1.0 // to everything else, lamps and coils unplugged
)

// Net is one net of the finished loom: ends that must be joined.
type Net struct {
	Name  string
	Wires []string
	Ends  []string // without joints, by key, in order
	Pairs []Pair   // from the first end to each other
}

// Pair is a reading between two ends: what they are called, and the wires on
// the way.
type Pair struct {
	From, To string
	Way      []Wire
	Ohms     float64 // reckoned, at 20 °C
	Below    float64
	Working  figure.Figure
}

// Clash is a net that bears two names: what it joins should be apart.
type Clash struct{ Wire, Net, Other string }

// Plan is how a loom is tested before any power.
type Plan struct {
	Nets    []Net
	Clashes []Clash
	Unknown []string // wires without a resistance
}

// Continuity plans the test of wires that joints join beside their ends.
func Continuity(wires []Wire, joints map[string]bool) Plan {
	var plan Plan
	for _, w := range wires {
		if w.MilliOhm == 0 {
			plan.Unknown = append(plan.Unknown, w.ID)
		}
	}
	for _, group := range groups(wires) {
		net := Net{Name: wires[group[0]].Net}
		names := map[string]string{}
		for _, i := range group {
			w := wires[i]
			net.Wires = append(net.Wires, w.ID)
			if net.Name != "" && w.Net != "" && w.Net != net.Name {
				plan.Clashes = append(plan.Clashes, Clash{w.ID, w.Net, net.Name})
			}
			if net.Name == "" {
				net.Name = w.Net
			}
			for k, name := range [2]string{w.From, w.To} {
				if key := w.Keys[k]; !joints[key] && names[key] == "" {
					names[key] = name
					net.Ends = append(net.Ends, key)
				}
			}
		}
		if len(net.Ends) > 0 {
			net.Pairs = pairs(net, names, wires, group)
		}
		plan.Nets = append(plan.Nets, net)
	}
	return plan
}

// groups are the wires that are joined, each group in their order.
func groups(wires []Wire) [][]int {
	group := map[string]int{}
	var list [][]int
	for i, w := range wires {
		a, okA := group[w.Keys[0]]
		b, okB := group[w.Keys[1]]
		switch {
		case !okA && !okB:
			a = len(list)
			list = append(list, nil)
		case !okA:
			a = b
		case okB && a != b:
			for _, o := range list[b] {
				group[wires[o].Keys[0]], group[wires[o].Keys[1]] = a, a
			}
			list[a], list[b] = append(list[a], list[b]...), nil
		}
		group[w.Keys[0]], group[w.Keys[1]] = a, a
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
func pairs(net Net, names map[string]string, wires []Wire, group []int) []Pair {
	first := net.Ends[0]
	type step struct {
		wire int
		from string
	}
	ohms, last := map[string]float64{first: 0}, map[string]step{}
	for again := true; again; {
		again = false
		for _, i := range group {
			for k := range 2 {
				from, to := wires[i].Keys[k], wires[i].Keys[1-k]
				have, ok := ohms[from]
				if !ok {
					continue
				}
				via := have + wires[i].Ohms()
				if now, ok := ohms[to]; !ok || via < now-1e-15 {
					ohms[to], last[to], again = via, step{i, from}, true
				}
			}
		}
	}
	var list []Pair
	for _, end := range net.Ends[1:] {
		p := Pair{From: names[first], To: names[end], Ohms: ohms[end], Below: ohms[end] + Contacts}
		for at := end; at != first; at = last[at].from {
			p.Way = append(p.Way, wires[last[at].wire])
		}
		slices.Reverse(p.Way)
		p.Working = working(p)
		list = append(list, p)
	}
	return list
}

func working(p Pair) figure.Figure {
	f := figure.Figure{Name: "resistance from " + p.From + " to " + p.To, Text: fmt.Sprintf("%.2f Ω at most", p.Below), Formula: "Σ mΩ/m × length along the way, at 20 °C, + 0.1 Ω for contacts and leads",
		Caution: "Battery off; lamps, coils and electronics unplugged. An insulation tester gives a shock and kills electronics: only on the bare loom, after its maker's sheet."}
	var terms []string
	for _, w := range p.Way {
		terms = append(terms, fmt.Sprintf("%.4g mΩ/m × %.2f m", w.MilliOhm, w.Cut/1000))
		size := figure.Input{Name: "size " + w.Section, Value: fmt.Sprintf("%.4g mΩ/m", w.MilliOhm), Source: figure.Sheet}
		if !slices.Contains(f.Inputs, size) {
			f.Inputs = append(f.Inputs, size)
		}
	}
	f.With = fmt.Sprintf("%s + %.1f Ω = %.3f Ω", strings.Join(terms, " + "), Contacts, p.Below)
	f.Inputs = append(f.Inputs, figure.Input{Name: "contacts and leads", Value: fmt.Sprintf("%.1f Ω", Contacts), Source: figure.TradeDefault})
	return f
}
