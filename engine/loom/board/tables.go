package board

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/engine/loom/route"
	"fettle/figure"
)

// CutRow is one wire to cut. Text stands on the labels of both its ends.
type CutRow struct {
	Wire    string  `json:"wire"`
	Colour  string  `json:"colour"`
	Section string  `json:"section"`
	Cut     float64 `json:"cut_mm"`
	From    string  `json:"from"`
	To      string  `json:"to"`
	Text    string  `json:"text"`
}

// Cut lists the wires to cut, by colour, then section, the longest first.
// Wires without a way are left out; the routed loom tells them.
func Cut(p Problem) []CutRow {
	var rows []CutRow
	for i, l := range p.Routed.Wires {
		if w := p.Loom.Wires[i]; l.Cut > 0 {
			rows = append(rows, CutRow{Wire: w.ID, Colour: w.Colour, Section: w.Section, Cut: l.Cut, From: w.From.String(), To: w.To.String(), Text: text(w)})
		}
	}
	slices.SortStableFunc(rows, func(a, b CutRow) int {
		return cmp.Or(cmp.Compare(a.Colour, b.Colour), byNumber(a.Section, b.Section), cmp.Compare(b.Cut, a.Cut), cmp.Compare(a.Wire, b.Wire))
	})
	return rows
}

// text is what stands on a wire: its name, from where to where, colour, section.
func text(w route.Wire) string {
	s := w.ID + " " + w.From.String() + " → " + w.To.String()
	for _, x := range []string{w.Colour, w.Section} {
		if x != "" {
			s += " " + x
		}
	}
	return s
}

// LabelRow is a label to print.
type LabelRow struct {
	Wire string  `json:"wire"`
	End  string  `json:"end"`
	From float64 `json:"from_end_mm"` // where it sits
	Text string  `json:"text"`        // that of the cut list
	Core float64 `json:"core_mm"`     // diameter that it goes round
}

// Labels are two for each wire of the cut list, in its order.
func Labels(p Problem) ([]LabelRow, error) {
	r, err := p.Rules.filled()
	if err != nil {
		return nil, err
	}
	by := map[string]route.Wire{}
	for _, w := range p.Loom.Wires {
		by[w.ID] = w
	}
	var rows []LabelRow
	for _, c := range Cut(p) {
		for _, end := range []string{c.From, c.To} {
			rows = append(rows, LabelRow{Wire: c.Wire, End: end, From: r.LabelFrom, Text: c.Text, Core: by[c.Wire].Outside})
		}
	}
	return rows, nil
}

// ReelRow is what is used of one kind of wire.
type ReelRow struct {
	Colour  string        `json:"colour"`
	Section string        `json:"section"`
	Wires   int           `json:"wires"`
	Cut     float64       `json:"cut_m"`
	Buy     float64       `json:"buy_m"` // with what is spare
	Working figure.Figure `json:"working"`
}

// Reels adds the cut list up by colour and section.
func Reels(p Problem) ([]ReelRow, error) {
	r, err := p.Rules.filled()
	if err != nil {
		return nil, err
	}
	var rows []ReelRow
	for _, c := range Cut(p) {
		if n := len(rows); n == 0 || rows[n-1].Colour != c.Colour || rows[n-1].Section != c.Section {
			rows = append(rows, ReelRow{Colour: c.Colour, Section: c.Section})
		}
		row := &rows[len(rows)-1]
		row.Wires++
		row.Cut += c.Cut / 1000
	}
	for i := range rows {
		row := &rows[i]
		row.Buy = math.Ceil(row.Cut*(1+r.Spare)*10-1e-9) / 10
		row.Working = figure.Figure{Name: strings.TrimSpace("reel " + row.Colour + " " + row.Section), Text: fmt.Sprintf("%.1f m", row.Buy),
			Formula: "Σ cut length × (1 + spare), up to 0.1 m", With: fmt.Sprintf("%.3f m of %d × (1 + %g) = %.1f m", row.Cut, row.Wires, r.Spare, row.Buy),
			Inputs: []figure.Input{{Name: "cut", Value: fmt.Sprintf("%.3f m", row.Cut), Source: figure.Worked, Note: "the cut list"},
				{Name: "spare", Value: fmt.Sprintf("%g %%", 100*r.Spare), Source: figure.TradeDefault}}}
	}
	return rows, nil
}

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
