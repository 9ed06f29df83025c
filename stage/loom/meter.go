package loom

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
)

// Habits of the trade for readings.
const (
	contactOhms = 0.1 // that a reading end to end may be above the wire's own
	leastMegohm = 1.0 // to everything else, lamps and coils unplugged
)

// Continuity is what a meter must read on one run before power.
type Continuity struct {
	ID      string          `json:"id"`
	From    string          `json:"from"`
	To      string          `json:"to"`
	OhmsMax float64         `json:"ohms_max"` // end to end
	MegMin  float64         `json:"megohm_min"`
	Read    []build.Metered `json:"read,omitempty"`
	Working figure.Figure   `json:"working"`
}

// continuityOf is the plan: each run end to end, through its splice to every
// place that it reaches, then against all others at once. n runs take n
// readings against the rest, not one for each pair.
func continuityOf(b *build.Build, known sizes, cuts []Cut) []Continuity {
	var list []Continuity
	ohms := func(c Cut) float64 { return known[c.Section].Ohms(c.CutMM/1000, 20) }
	for _, c := range cuts {
		if c.Branch {
			continue
		}
		ends := 0
		for _, x := range cuts {
			if x.Branch && x.Circuit == c.Circuit {
				list = append(list, continuity(b, x.ID, c.From, x.To, []Cut{c, x}, ohms(c)+ohms(x), known))
				ends++
			}
		}
		if ends == 0 {
			list = append(list, continuity(b, c.ID, c.From, c.To, []Cut{c}, ohms(c), known))
		}
	}
	return list
}

func continuity(b *build.Build, id, from, to string, cuts []Cut, wire float64, known sizes) Continuity {
	size := known[cuts[0].Section]
	var lengths []string
	for _, c := range cuts {
		lengths = append(lengths, fmt.Sprintf("%.2f m", c.CutMM/1000))
	}
	return Continuity{ID: id, From: from, To: to, OhmsMax: wire + contactOhms, MegMin: leastMegohm, Read: readings(b, cuts[0].Circuit, "continuity", "isolation"),
		Working: figure.Figure{Name: "resistance of " + id, Text: fmt.Sprintf("%.2f Ω at most", wire+contactOhms), Formula: "mΩ/m × length at 20 °C + 0.1 Ω for contacts and leads",
			With: fmt.Sprintf("%.4g mΩ/m × (%s) + %.1f Ω = %.3f Ω", size.MilliOhmPerM, strings.Join(lengths, " + "), contactOhms, wire+contactOhms),
			Inputs: []figure.Input{{Name: "size " + size.Name, Value: fmt.Sprintf("%.4g mΩ/m", size.MilliOhmPerM), Source: figure.Sheet},
				{Name: "contacts and leads", Value: "0.1 Ω", Source: figure.TradeDefault}}, Caution: "Battery off; lamps, coils and electronics unplugged. An insulation tester gives a shock and kills electronics: only on the bare loom, after its maker's sheet."}}
}

func readings(b *build.Build, circuit string, kinds ...string) []build.Metered {
	var list []build.Metered
	for _, m := range b.Loom.Metered {
		for _, k := range kinds {
			if m.Circuit == circuit && m.Kind == k {
				list = append(list, m)
			}
		}
	}
	return list
}
