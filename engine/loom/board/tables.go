package board

import (
	"math"

	"fettle/engine/loom/route"
)

// PinRow is one cavity of a connector.
type PinRow struct {
	Connector string `json:"connector"`
	Cavity    string `json:"cavity"`
	Wire      string `json:"wire"` // empty: plug it
	Colour    string `json:"colour,omitempty"`
	Section   string `json:"section,omitempty"`
	Other     string `json:"other_end,omitempty"`
}

// Connectors lists every connector's cavities, unused ones too.
func Connectors(p Problem) []PinRow {
	d := &desk{p: p, node: map[string]int{}}
	for i, n := range p.Loom.Nodes {
		d.node[n.ID] = i
	}
	d.faceSizes()
	var rows []PinRow
	for v, n := range p.Loom.Nodes {
		if len(d.wires[v]) == 0 {
			continue
		}
		names, wire := d.cavities(v)
		for _, name := range names {
			if wire[name] == "" {
				rows = append(rows, PinRow{Connector: n.ID, Cavity: name})
				continue
			}
			for _, s := range d.wires[v] {
				w := p.Loom.Wires[s.wire]
				if s.cavity != name && (s.cavity != "" || w.ID != name) {
					continue
				}
				other := w.From
				if w.From == (route.End{Node: n.ID, Cavity: s.cavity}) {
					other = w.To
				}
				rows = append(rows, PinRow{Connector: n.ID, Cavity: s.cavity, Wire: w.ID, Colour: w.Colour, Section: w.Section, Other: other.String()})
			}
		}
	}
	return rows
}

// SpliceRow is one joint: where it lies along its stretch and how far from what
// it must keep clear of.
type SpliceRow struct {
	ID       string   `json:"id"`
	Stretch  string   `json:"stretch"`
	At       float64  `json:"at_mm"`       // from the From end of the stretch
	Breakout float64  `json:"breakout_mm"` // to the nearer end of the stretch
	Next     float64  `json:"next_mm"`     // to the nearest other on the stretch; 0 for none
	Wires    []string `json:"wires"`
}

// Splices lists the joints.
func Splices(p Problem) []SpliceRow {
	var rows []SpliceRow
	for _, j := range p.Routed.Splices {
		for _, s := range p.Routed.Runs {
			if s.Edge != j.Edge {
				continue
			}
			row := SpliceRow{ID: j.ID, Stretch: s.ID, At: j.At, Breakout: min(j.At, s.Length-j.At), Wires: j.Wires}
			for _, o := range p.Routed.Splices {
				if gap := math.Abs(o.At - j.At); o.ID != j.ID && o.Edge == j.Edge && (row.Next == 0 || gap < row.Next) {
					row.Next = gap
				}
			}
			rows = append(rows, row)
		}
	}
	return rows
}
