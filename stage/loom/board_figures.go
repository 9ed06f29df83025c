package loom

import (
	"fmt"
	"strings"

	"fettle/engine/loom/board"
	"fettle/figure"
)

// Figures are what can be said of how the loom lies, each with its working.
func (b Board) Figures() []figure.Figure {
	size := figure.Figure{Name: string(b.Status) + " on", Text: fmt.Sprintf("%.0f × %.0f mm", b.Width, b.Height),
		Formula: "the smallest board of whole sheets on which angles and clearances are kept; a trunk that is longer is folded back",
		With:    fmt.Sprintf("%.2f m × %.2f m = %.1f m²", b.Width/1000, b.Height/1000, b.Width*b.Height/1e6)}
	if b.Wide > 0 || b.High > 0 {
		size.Formula = "the board that the shop has; 0 is as large as it must be"
		size.Inputs = []figure.Input{{Name: "asked", Value: fmt.Sprintf("%.0f × %.0f mm", b.Wide, b.High), Source: figure.Decided}}
	} else {
		size.Inputs = []figure.Input{{Name: "tried", Value: tried(b.Tried), Source: figure.Worked, Note: "whole sheets, the smallest first"}}
	}
	list := []figure.Figure{size, {Name: "pegs", Text: fmt.Sprint(len(b.Pegs)), Formula: "one at each end, breakout and bend, and every 200 mm between", With: fmt.Sprintf("counted on the drawing: %d", len(b.Pegs))}}
	if b.Angle > 0 {
		list = append(list, figure.Figure{Name: "least angle at a breakout", Text: fmt.Sprintf("%.0f°", b.Angle), Formula: "smallest angle between two branches that part at one place", With: fmt.Sprintf("measured on the drawing: %.0f°", b.Angle)})
	}
	if b.Gap > 0 {
		list = append(list, figure.Figure{Name: "least gap", Text: fmt.Sprintf("%.0f mm", b.Gap), Formula: "smallest way between the middles of two branches that do not meet", With: fmt.Sprintf("measured on the drawing: %.0f mm", b.Gap)})
	}
	return list
}

func tried(all []board.Status) string {
	var list []string
	for i, s := range all {
		size := board.Sizes()[i]
		list = append(list, fmt.Sprintf("%.0f × %.0f: %s", size.Width, size.Height, s))
	}
	return strings.Join(list, "; ")
}
