package metal

import (
	"fmt"
	"math"

	"fettle/figure"
	"fettle/unit"
)

// Bead is a bead or swage that is rolled into a blank.
type Bead struct {
	Width, Depth unit.Length
	Half         bool // half-round; else shallow
}

// DrawIn is by how much the sheet comes in across a bead at most, where nothing
// of it stretches, mm: (8 ÷ 3) × depth² ÷ width where it is shallow, the arc
// less the chord, width × (π ÷ 2 − 1), where it is half-round.
func (b Bead) DrawIn() float64 {
	w, d := b.Width.Mm(), b.Depth.Mm()
	if b.Half {
		return w * (math.Pi/2 - 1)
	}
	return 8.0 / 3 * d * d / w
}

// Figure is what is added to a blank across a bead, with its working: half to
// all of the draw-in, for part of it is stretched.
func (b Bead) Figure() figure.Figure {
	in := b.DrawIn()
	formula, with := "(8 ÷ 3) × depth² ÷ width, a shallow bead that does not stretch; half to all of it is added across the bead", fmt.Sprintf("(8 ÷ 3) × %.1f² ÷ %.1f = %.2f mm", b.Depth.Mm(), b.Width.Mm(), in)
	inputs := []figure.Input{{Name: "width", Value: mm2(b.Width.Mm()), Source: figure.Decided}}
	if b.Half {
		formula, with = "width × (π ÷ 2 − 1), a half-round bead that does not stretch; half to all of it is added across the bead", fmt.Sprintf("%.1f × 0.571 = %.2f mm", b.Width.Mm(), in)
	} else {
		inputs = append(inputs, figure.Input{Name: "depth", Value: mm2(b.Depth.Mm()), Source: figure.Decided})
	}
	inputs = append(inputs, figure.Input{Name: "share that is not stretched", Value: "50 to 100 %", Source: figure.TradeDefault, Note: "roll one into an offcut and measure"})
	return figure.Figure{Name: "to add across the bead", Text: fmt.Sprintf("%.1f to %.1f mm", in/2, in), Formula: formula, With: with, Inputs: inputs, Caution: edgesCut}
}
