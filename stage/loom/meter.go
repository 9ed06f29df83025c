package loom

import (
	"strings"

	"fettle/build"
	"fettle/engine/loom/bench"
	"fettle/figure"
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

// continuity is the plan: each run end to end, through its splice to every place
// that it reaches, then against all others at once.
func (s *solved) continuity() []Continuity {
	joints := map[string]bool{}
	var wires []bench.Wire
	for _, branch := range []bool{false, true} { // read from where a run begins
		for _, c := range s.cuts {
			if c.Branch != branch {
				continue
			}
			w := s.wire(c)
			for _, key := range w.Keys {
				joints[key] = joints[key] || strings.HasPrefix(key, splicePrefix)
			}
			wires = append(wires, w)
		}
	}
	var list []Continuity
	for _, net := range bench.Continuity(wires, joints).Nets {
		for _, p := range net.Pairs {
			far := p.Way[len(p.Way)-1]
			list = append(list, Continuity{ID: far.ID, From: p.From, To: p.To, OhmsMax: p.Below, MegMin: bench.LeastMegohm, Read: readings(s.b, far.Net, "continuity", "isolation"), Working: p.Working})
		}
	}
	return list
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
