package loom

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/bench"
	"fettle/figure"
)

// Cut is one wire to be cut: a row of the cut list, and the text of the labels
// at its two ends.
type Cut struct {
	ID       string  `json:"id"`      // the circuit's; where it branches with a number behind it
	Circuit  string  `json:"circuit"` // or wire of the net
	Name     string  `json:"name,omitempty"`
	From     string  `json:"from"` // with its terminal where a part says it
	To       string  `json:"to"`
	Section  string  `json:"section"`
	Words    string  `json:"colour"`
	AU7      string  `json:"bs_au7,omitempty"`
	IEC      string  `json:"iec_60757,omitempty"`
	StatedMM float64 `json:"stated_mm"` // one way, by the list; 0 for a branch that the list does not tell apart
	CutMM    float64 `json:"cut_mm"`    // by the route where it is drawn, else by the list
	Routed   bool    `json:"routed"`
	Branch   bool    `json:"branch,omitempty"` // from a splice to one of the places that the circuit reaches
	Label    string  `json:"label"`
	Outside  float64 `json:"outside_mm"` // over the insulation

	Working figure.Figure `json:"working"` // of the length to cut
}

// cutsOf lists what is cut by the list alone, the widest section last, within it
// by colour, the longest first.
func cutsOf(b *build.Build, p loom.Problem, r loom.Result, stated []loom.Run) []Cut {
	var list []Cut
	for i, run := range stated {
		c := Cut{ID: run.ID, Circuit: run.ID, Section: r.Runs[i].Section, StatedMM: run.LengthM * 1000, CutMM: roundUp(run.LengthM * 1000)}
		c.Working = listedCut(run, c.CutMM)
		if i < len(p.Circuits) {
			one := p.Circuits[i]
			c.Name, c.From, c.To = one.Name, plugged(b, one.From, run.ID), plugged(b, one.To, run.ID)
		} else {
			w := p.Wires[i-len(p.Circuits)]
			c.From, c.To = w.From.String(), w.To.String()
		}
		c.colour(run.Colour)
		c.Label = c.text(b.Loom.Settings.Code, run.Label)
		list = append(list, c)
	}
	return list
}

// inOrder puts a cut list in the order in which it is cut.
func (s *solved) inOrder() {
	slices.SortStableFunc(s.cuts, func(a, b Cut) int { return bench.InOrder(s.wire(a), s.wire(b)) })
}

// wire is a row of the cut list as the bench knows it. Wires meet in a splice,
// or in one terminal; where none is said they do not.
func (s *solved) wire(c Cut) bench.Wire {
	size := s.known[c.Section]
	w := bench.Wire{ID: c.ID, Net: c.Circuit, From: c.From, To: c.To, Keys: [2]string{c.From + " of " + c.ID, c.To + " of " + c.ID}, Section: c.Section, MM2: size.MM2, Colour: c.Words,
		Cut: c.CutMM, MilliOhm: size.MilliOhmPerM, Outside: outside(size), Text: c.Label}
	for k, name := range [2]string{c.From, c.To} {
		if strings.HasPrefix(name, splicePrefix) {
			w.Keys[k] = name
		}
	}
	return w
}

// splicePrefix begins the name of a splice that the route places.
const splicePrefix = "splice of "

// listedCut is the working of a length that only the list tells.
func listedCut(run loom.Run, cut float64) figure.Figure {
	return figure.Figure{Name: "length of " + run.ID, Text: fmt.Sprintf("%.0f mm", cut), Formula: "length of the list, rounded up to 5 mm; its way is not drawn, so nothing is added for slack, loops and ends", With: fmt.Sprintf("%.0f mm, up to %.0f mm", run.LengthM*1000, cut),
		Inputs: []figure.Input{{Name: "length", Value: fmt.Sprintf("%.0f mm", run.LengthM*1000), Source: figure.Decided, Note: "one way, as listed"}}}
}

// roundUp rounds a length up to 5 mm.
func roundUp(mm float64) float64 { return 5 * math.Ceil(mm/5-1e-9) }

// colour writes a colour in both codes and in words.
func (c *Cut) colour(letters string) {
	c.Words = words(letters)
	if hues, err := loom.ReadColour(letters); err == nil && letters != "" {
		c.AU7, _ = hues.AU7()
		c.IEC, _ = hues.IEC()
	}
}

// text is what both labels of a wire say: what it is, from where to where,
// colour in the code of the loom, and section.
func (c *Cut) text(code, label string) string {
	if label == "" {
		label = c.ID
	}
	colour := c.AU7
	if code == "IEC 60757" || colour == "" {
		colour = c.IEC
	}
	parts := []string{label, c.From + " → " + c.To}
	if colour != "" {
		parts = append(parts, colour)
	}
	return strings.Join(append(parts, c.Section+" mm²"), " · ")
}

// plugged adds the terminal on which a part has a circuit.
func plugged(b *build.Build, part, circuit string) string {
	l := &b.Loom
	on := func(list []build.Contact) string {
		for _, t := range list {
			if slices.Contains(t.Circuits, circuit) {
				return part + ":" + t.Terminal
			}
		}
		return part
	}
	for _, x := range l.Relays {
		if x.Name == part {
			return on(x.Contacts)
		}
	}
	for _, x := range l.Switches {
		if x.Name == part {
			return on(x.Contacts)
		}
	}
	for _, x := range l.Connectors {
		if x.Name == part {
			return on(x.Contacts)
		}
	}
	if c := b.Circuit(circuit); c != nil && l.Fuse(c.Fuse) != nil && l.Box(part) != nil && part == c.From {
		return part + ":" + c.Fuse
	}
	return part
}

// Label is one printed label.
type Label struct {
	Cut  string `json:"cut"`
	End  string `json:"end"` // from or to
	At   string `json:"at"`
	Text string `json:"text"`
}

// LabelsOf is a label for each end of every wire that is cut, its text that of
// the cut list.
func LabelsOf(cuts []Cut) []Label {
	var list []Label
	for _, c := range cuts {
		list = append(list, Label{c.ID, "from", c.From, c.Label}, Label{c.ID, "to", c.To, c.Label})
	}
	return list
}

// Cavity is a row of a connector table.
type Cavity struct {
	Part     string   `json:"part"`
	Kind     string   `json:"kind"` // relay, switch, connector, splice or earth
	Terminal string   `json:"terminal,omitempty"`
	Circuits []string `json:"circuits"`
	Says     []string `json:"says"` // colour and section of each
}

// unused are the cavities of a connector in which nothing lands, where they are
// numbered from 1 on.
func unused(x build.Connector) []string {
	var list []string
	for k := range x.Cavities {
		name := strconv.Itoa(k + 1)
		if !slices.ContainsFunc(x.Contacts, func(c build.Contact) bool { return c.Terminal == name }) {
			list = append(list, name)
		}
	}
	if len(list) > x.Cavities-len(x.Contacts) { // they have names of their own
		return nil
	}
	return list
}

// Cavities lists what lands on every terminal, cavity, splice and earth point.
func Cavities(b *build.Build, cuts []Cut) []Cavity {
	var list []Cavity
	row := func(part, kind, terminal string, circuits []string) {
		c := Cavity{Part: part, Kind: kind, Terminal: terminal, Circuits: circuits}
		for _, id := range circuits {
			i := slices.IndexFunc(cuts, func(x Cut) bool { return x.Circuit == id })
			if i >= 0 {
				c.Says = append(c.Says, fmt.Sprintf("%s %s %s mm²", id, cuts[i].Words, cuts[i].Section))
			}
		}
		list = append(list, c)
	}
	each := func(part, kind string, contacts []build.Contact) {
		for _, t := range contacts {
			row(part, kind, t.Terminal, t.Circuits)
		}
	}
	for _, x := range b.Loom.Connectors {
		each(x.Name, "connector", x.Contacts)
		if empty := unused(x); len(empty) > 0 {
			list = append(list, Cavity{Part: x.Name, Kind: "connector", Terminal: strings.Join(empty, ", "), Says: []string{"nothing: plug it where the connector is sealed"}})
		}
	}
	for _, x := range b.Loom.Relays {
		each(x.Name, "relay", x.Contacts)
	}
	for _, x := range b.Loom.Switches {
		each(x.Name, "switch", x.Contacts)
	}
	for _, x := range b.Loom.Joints {
		row(x.Name, x.Kind, "", x.Circuits)
	}
	return list
}
