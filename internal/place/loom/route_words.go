package loom

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/engine/loom/route"
	"fettle/figure"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	stage "fettle/stage/loom"
	"fettle/unit"
)

func pointKinds() []field.Option {
	return []field.Option{{Value: "", Label: "not said"}, {Value: "clip", Label: "a clip"}, {Value: "breakout", Label: "a breakout", Hint: "branches part"}, {Value: "end", Label: "an end", Hint: "a connector or a stud"}}
}

// mmOf writes a measure as it is typed, with its sign.
func mmOf(l unit.Length) string { return number(l.Mm()) }

func pointWords(w build.Waypoint) string {
	return fmt.Sprintf("%g mm rearward of the front axle, %g mm to the left of the middle, %g mm above the ground.", w.At[0].Mm(), w.At[1].Mm(), w.At[2].Mm())
}

func (s sheet) panelName(id build.PanelID) string {
	if p := s.Build.Panel(id); p != nil {
		return string(id) + " " + p.FullName()
	}
	return string(id)
}

func circuitOfWire(id string) string {
	circuit, _, _ := strings.Cut(id, ".")
	return circuit
}

func wireWords(w route.Wire) string {
	return strings.TrimSpace(fmt.Sprintf("%s mm², %s, %.1f mm over its insulation", w.Section, w.Colour, w.Outside))
}

func coverWords(c route.Cover) string {
	return map[route.Cover]string{route.Tape: "in tape", route.Sleeve: "in sleeve", route.Bare: "bare"}[c]
}

func (page stretchPage) long() float64 { return page.Build.Loom.Long(page.Stretch).Mm() }

// straightWords says what the length is where none is measured.
func (page stretchPage) straightWords() string {
	x := page.Stretch
	if d := page.Build.Loom.Long(build.Stretch{From: x.From, To: x.To}); d > 0 {
		return fmt.Sprintf("empty: straight, %.0f mm", d.Mm())
	}
	return "empty: straight from place to place"
}

func (page stretchPage) moves() []field.Option {
	picked := page.Stretch.Moves
	if page.raw != nil {
		picked = page.raw("moves") != ""
	}
	return []field.Option{{Value: "yes", Label: "something moves", Hint: "a hinge, the engine: slack is added", Picked: picked}}
}

// bend is the least radius that the bundle may be led round.
func (page stretchPage) bend() figure.Figure {
	b := page.Bundle
	return figure.Figure{Name: "least bend", Text: fmt.Sprintf("%.0f mm", b.Bend), Formula: "outer diameter × the shop's number of diameters", With: fmt.Sprintf("%.1f mm × %.3g = %.0f mm", b.Outside, b.Bend/b.Outside, b.Bend),
		Inputs: []figure.Input{{Name: "across", Value: fmt.Sprintf("%.1f mm", b.Outside), Source: figure.Worked, Note: b.Working.With}, {Name: "diameters", Value: fmt.Sprintf("%.3g", b.Bend/b.Outside), Source: figure.TradeDefault, Note: "4 to 6 for a taped loom"}}}
}

func bendWords(b *route.Stretch) string {
	if b.Clearest > 0 && b.Clearest < b.Bend {
		return fmt.Sprintf("its line leaves %.0f mm only", b.Clearest)
	}
	return "inside radius, or more"
}

// holesOn are the holes at the ends of a stretch.
func (page stretchPage) holesOn() []build.Hole {
	var list []build.Hole
	for _, h := range page.Build.Loom.Holes {
		if h.At == page.Stretch.From || h.At == page.Stretch.To {
			list = append(list, h)
		}
	}
	return list
}

// box is the room of the packed section, in mm round its middle.
func (page stretchPage) box() string {
	r := page.Bundle.Outside/2 + 0.5
	return fmt.Sprintf("%.2f %.2f %.2f %.2f", -r, -r, 2*r, 2*r)
}

// side is how large the section is drawn: three times its size at 96 to the inch.
func (page stretchPage) side() string {
	return fmt.Sprintf("%.0f", max(60, (page.Bundle.Outside+1)*3*96/25.4))
}

func (page holePage) alongWords() string {
	return fmt.Sprintf("from %s, of %.0f mm", page.placeName(string(page.On.From)), page.Build.Loom.Long(*page.On).Mm())
}

func dayOf(h build.Hole) string {
	if h.Day == 0 {
		return ""
	}
	return h.Day.String()
}

func drilledWord(h build.Hole) string {
	switch {
	case !h.Drilled:
		return "not drilled"
	case h.Day == 0:
		return "drilled"
	}
	return "drilled " + h.Day.Short()
}

func fitMark(h *stage.HoleRow) mark.Meaning {
	if !h.Fits {
		return mark.Lost
	}
	return mark.Safe
}

func fitWords(h *stage.HoleRow) string {
	if !h.Fits {
		return fmt.Sprintf("too small: %.1f mm passes", h.Clear().Mm())
	}
	return fmt.Sprintf("fits: %.1f mm passes", h.Clear().Mm())
}

// passes is the bundle that passes a hole, with its working.
func passes(h *stage.HoleRow) figure.Figure {
	f := retext(h.Working, fmt.Sprintf("%.1f mm", h.Bundle))
	f.Name = "bundle through " + h.ID
	return f
}

// least is the smallest hole whose grommet passes the bundle.
func least(h *stage.HoleRow) figure.Figure {
	f := figure.Figure{Name: "least hole", Text: "none needed", Formula: "smallest hole of the table of grommets that the bundle passes", With: fmt.Sprintf("bundle %.1f mm", h.Bundle),
		Inputs:  []figure.Input{{Name: "bundle", Value: fmt.Sprintf("%.1f mm", h.Bundle), Source: figure.Worked, Note: h.Working.With}, {Name: "grommets", Value: "common sizes", Source: figure.TradeDefault, Note: "the supplier's sheet rules"}},
		Caution: "A connector may be larger than the bundle: feed the wires before it goes on, or choose the hole for it."}
	g, ok := route.Smallest(h.Bundle)
	switch {
	case h.Bundle == 0:
	case ok:
		f.Text = fmt.Sprintf("%g mm", g.Bore)
		f.With = fmt.Sprintf("bundle %.1f mm ≤ %g mm inside the grommet of a %g mm hole", h.Bundle, g.Inside, g.Bore)
	default:
		f.Text = "split it"
		f.With = fmt.Sprintf("bundle %.1f mm is more than the largest grommet passes: two holes", h.Bundle)
	}
	return f
}
