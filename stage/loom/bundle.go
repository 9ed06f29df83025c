package loom

import (
	"fmt"
	"slices"

	"fettle/engine/loom/route"
	"fettle/figure"
	"fettle/geom"
)

// Bundle is what lies in a stretch of the route.
type Bundle struct {
	Stretch string        `json:"stretch"`
	Outside float64       `json:"outside_mm"` // with its cover
	Cover   string        `json:"cover"`      // tape, sleeve or bare
	Wires   []BundleWire  `json:"wires"`
	Leaves  float64       `json:"leaves_mm,omitempty"` // radius that the corners of the line leave; 0 where it is straight
	Working figure.Figure `json:"working"`
	Bend    figure.Figure `json:"bend"` // the least radius that it may be led round
}

// BundleWire is a wire and where it lies in the packed section, in mm from the
// middle.
type BundleWire struct {
	ID      string     `json:"id"`
	Circuit string     `json:"circuit"`
	Section string     `json:"section_mm2"`
	Colour  string     `json:"colour,omitempty"`
	Outside float64    `json:"outside_mm"`
	At      geom.Point `json:"at_mm"`
}

// Bundle returns what lies in a stretch, nil where nothing does.
func (s Sheet) Bundle(stretch string) *Bundle {
	if s.Route == nil {
		return nil
	}
	i := slices.IndexFunc(s.Route.Runs, func(x route.Stretch) bool { return x.ID == stretch })
	if i < 0 || len(s.Route.Runs[i].Wires) == 0 {
		return nil
	}
	x := s.Route.Runs[i]
	b := Bundle{Stretch: stretch, Outside: x.Outside, Cover: string(x.Cover), Leaves: x.Clearest, Working: x.Working}
	for k, w := range x.Wires {
		one := s.Ways.Wires[w]
		b.Wires = append(b.Wires, BundleWire{ID: one.ID, Circuit: circuitOfWire(one.ID), Section: one.Section, Colour: one.Colour, Outside: one.Outside, At: x.At[k]})
	}
	times := x.Bend / x.Outside
	b.Bend = figure.Figure{Name: "least bend", Text: fmt.Sprintf("%.0f mm", x.Bend), Formula: "outer diameter × the shop's number of diameters", With: fmt.Sprintf("%.1f mm × %.3g = %.0f mm", x.Outside, times, x.Bend),
		Inputs: []figure.Input{{Name: "across", Value: fmt.Sprintf("%.1f mm", x.Outside), Source: figure.Worked, Note: x.Working.With}, {Name: "diameters", Value: fmt.Sprintf("%.3g", times), Source: figure.TradeDefault, Note: "4 to 6 for a taped loom"}}}
	return &b
}

// Least is the smallest hole of the table of grommets that passes the bundle.
func (h HoleRow) Least() figure.Figure {
	f := figure.Figure{Name: "least hole", Text: "none needed", Formula: "smallest hole of the table of grommets that the bundle passes", With: "nothing passes",
		Inputs:  []figure.Input{{Name: "bundle", Value: fmt.Sprintf("%.1f mm", h.Bundle), Source: figure.Worked, Note: h.Working.With}, {Name: "grommets", Value: "common sizes", Source: figure.TradeDefault, Note: "the supplier's sheet rules"}},
		Caution: "A connector may be larger than the bundle: feed the wires before it goes on, or choose the hole for it."}
	if h.Bundle == 0 {
		return f
	}
	g, ok := route.Smallest(h.Bundle)
	if !ok {
		f.Text, f.With = "split it", fmt.Sprintf("bundle %.1f mm is more than the largest grommet passes: two holes", h.Bundle)
		return f
	}
	f.Text, f.With = fmt.Sprintf("%g mm", g.Bore), fmt.Sprintf("bundle %.1f mm ≤ %g mm inside the grommet of a %g mm hole", h.Bundle, g.Inside, g.Bore)
	return f
}
