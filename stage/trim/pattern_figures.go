package trim

import (
	"fmt"

	"fettle/figure"
)

// Figures are the areas of a pattern, cut and sewn, each with its working.
func (s PatternSheet) Figures() (cut, sewn figure.Figure) {
	line := figure.Input{Name: "sewn line", Value: fmt.Sprintf("%d corners and places", len(s.Pattern.Sewn)), Source: figure.Measured, Note: fmt.Sprintf("revision %d", s.Pattern.Revision)}
	sewn = figure.Figure{Name: "sewn area of " + s.Drawn.Piece, Text: fmt.Sprintf("%.4f m²", s.Drawn.Sewn), Formula: "area inside the finished, sewn line, spread along the rows of its pleats", With: fmt.Sprintf("%.4f m²", s.Drawn.Sewn), Inputs: []figure.Input{line}}
	cut = figure.Figure{Name: "cut area of " + s.Drawn.Piece, Text: fmt.Sprintf("%.4f m²", s.Drawn.Area), Formula: "sewn area + what the allowances add outside each edge, with its corners", With: fmt.Sprintf("%.4f + %.4f = %.4f m²", s.Drawn.Sewn, s.Drawn.Area-s.Drawn.Sewn, s.Drawn.Area), Inputs: []figure.Input{line}}
	for _, e := range s.Pattern.Edges {
		cut.Inputs = append(cut.Inputs, figure.Input{Name: "edge " + e.Name, Value: fmt.Sprintf("%.1f mm, %s", Allowed(e), e.Seam), Source: figure.Decided})
	}
	return cut, sewn
}
