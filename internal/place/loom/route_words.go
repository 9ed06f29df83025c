package loom

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
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

// wireTable lists the wires that lie in a stretch.
func (page stretchPage) wireTable() table.Table {
	t := table.Table{ID: "wires", Caption: "Wires in it", Self: page.stretchPath(page.Stretch.ID), Columns: []table.Column{
		{Head: "Wire"}, {Head: "Section", Unit: "mm²", Number: true}, {Head: "Colour", Wide: true}, {Head: "Over its insulation", Unit: "mm", Number: true}}}
	for _, w := range page.Bundle.Wires {
		t.Rows = append(t.Rows, table.Row{ID: "wire-" + w.ID, Cells: []table.Cell{table.Link(w.ID, page.onePath(w.Circuit)), table.Text(w.Section), table.Text(w.Colour), table.Text(fmt.Sprintf("%.1f", w.Outside))}})
	}
	return t
}

func coverWords(cover string) string {
	return map[string]string{"tape": "in tape", "sleeve": "in sleeve", "bare": "bare"}[cover]
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

func bendWords(b *stage.Bundle) string {
	if b.Leaves > 0 {
		return fmt.Sprintf("inside radius, or more; its line leaves %.0f mm", b.Leaves)
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
