package loom

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/bench"
	"fettle/figure"
)

// Need is what the loom takes of one thing.
type Need struct {
	Kind    string        `json:"kind"` // one of build.LoomSupplyKinds
	Name    string        `json:"name"`
	Amount  float64       `json:"amount"` // metres, or a number
	Unit    string        `json:"unit,omitempty"`
	Buy     int           `json:"buy"` // metres or pieces, reels where a reel is said
	Part    build.PartID  `json:"part,omitempty"`
	Section string        `json:"section,omitempty"` // of cable
	Working figure.Figure `json:"working"`
}

// ID names the need.
func (n Need) ID() string { return n.Kind + "/" + n.Name }

// Habits of the trade, to be put right with what is bought.
const (
	shrinkMM = 40.0 // of sleeve over each label
)

// needs is all that the loom takes from Stores, with its working. Cable is by
// the cut lengths: of the route where it is drawn, of the list where not.
func (s *solved) needs() []Need {
	b, runs := s.b, len(s.cuts)
	list := s.cables()
	list = append(list, Need{Kind: "terminals", Name: "crimped ends", Amount: float64(2 * runs), Working: count("crimped ends", 2*runs, "one at each end of every run", fmt.Sprintf("2 × %d", runs))})
	list = append(list, fittings(b, s.p)...)
	list = append(list, Need{Kind: "heat-shrink", Name: "over labels", Unit: "m", Amount: float64(2*runs) * shrinkMM / 1000, Working: figure.Figure{Name: "heat-shrink over labels",
		Text: fmt.Sprintf("%.1f m", float64(2*runs)*shrinkMM/1000), Formula: "two labels a run × 40 mm", With: fmt.Sprintf("2 × %d × %.0f mm", runs, shrinkMM),
		Inputs: []figure.Input{{Name: "a label", Value: fmt.Sprintf("%.0f mm", shrinkMM), Source: figure.TradeDefault}}}})
	list = append(list, sleeves(b, s.led)...)
	for i := range list {
		n := &list[i]
		n.Buy = int(math.Ceil(n.Amount - 1e-9))
		s := b.Loom.Supply(n.Kind)
		if s == nil {
			continue
		}
		n.Part = s.Part
		if s.Reel > 0 && n.Unit == "m" {
			n.Buy = int(math.Ceil(n.Amount*1000/s.Reel.Mm() - 1e-9))
			n.Working.With += fmt.Sprintf("; ÷ %g m a reel → %d", s.Reel.Mm()/1000, n.Buy)
		}
	}
	return list
}

// cables is the cable by section and colour.
func (s *solved) cables() []Need {
	var wires []bench.Wire
	for _, c := range s.cuts {
		wires = append(wires, s.wire(c))
	}
	var list []Need
	for _, r := range bench.Reels(wires) {
		list = append(list, Need{Kind: "cable", Name: r.Section + " mm² " + r.Colour, Section: r.Section, Unit: "m", Amount: r.Metres, Working: r.Working})
	}
	return list
}

// sizes are the sizes of cable by name: of the cable that sections are taken
// from first, then of the owner's own, then of the others.
type sizes map[string]loom.Conductor

func sizesOf(p loom.Problem, r loom.Result) sizes {
	first := p.Cable
	if first == "" {
		first = r.Rules.Cable
	}
	all := append(slices.Clone(p.Own), loom.Cables()...)
	s := sizes{}
	for _, only := range []bool{true, false} {
		for _, c := range all {
			for _, x := range c.Sizes {
				if _, ok := s[x.Name]; !ok && (c.Name == first || !only) {
					s[x.Name] = x
				}
			}
		}
	}
	return s
}

// words names a colour, or says that it is open.
func words(letters string) string {
	c, err := loom.ReadColour(letters)
	if letters == "" || err != nil {
		return "of any colour"
	}
	return c.String()
}

func count(name string, n int, formula, with string) figure.Figure {
	return figure.Figure{Name: name, Text: fmt.Sprint(n), Formula: formula, With: fmt.Sprintf("%s = %d", with, n)}
}
