package paint

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/figure"
)

// Solvent returns the solvent ready to spray in g/l, less water and exempt, with
// its working; false where the sheet does not say it of every part.
func Solvent(p build.Product) (float64, figure.Figure, bool) {
	f := figure.Figure{Name: "solvent ready to spray", Formula: "(volatiles − water − exempt) ÷ (1 − their volumes), of a litre of the mix", Caution: coat.CautionLimits}
	r := Recipe(p)
	for _, c := range r.Components {
		if c.Volatile.Mass <= 0 {
			return 0, f, false
		}
		f.Inputs = append(f.Inputs, figure.Input{Name: c.Name, Value: fmt.Sprintf("%.0f g/l of volatiles", c.Volatile.Mass), Source: figure.Sheet, Note: p.Sheet})
	}
	v, err := r.Volatile()
	if err != nil {
		return 0, f, false
	}
	voc, err := v.VOC()
	f.Text = fmt.Sprintf("%.0f g/l", voc)
	f.With = fmt.Sprintf("(%.0f − %.0f − %.0f) ÷ (1 − %.3f − %.3f) = %s", v.Mass, v.Water, v.Exempt, v.Water/1000, v.ExemptVolume, f.Text)
	return voc, f, err == nil
}

// Limits returns the tables of solvent limits to compare with: examples, the
// owner's text.
func Limits() []coat.Limits { return coat.ExampleLimits() }

// SolventStaged returns the solvent of a base taken with the clear that goes over
// it as one topcoat, with its working; false where it is no base, no clear goes
// over it or either sheet does not say.
func SolventStaged(b *build.Build, p build.Product) (figure.Figure, bool) {
	base, _, ok := Solvent(p)
	if !ok || p.Use != build.Base {
		return figure.Figure{}, false
	}
	for _, c := range b.Products {
		over, _, known := Solvent(c)
		if c.Use != build.Clear || !known || !slices.Contains(c.Over, p.ID) {
			continue
		}
		both, err := coat.MultiStage(base, nil, over)
		if err != nil {
			return figure.Figure{}, false
		}
		text := fmt.Sprintf("%.0f g/l", both)
		return figure.Figure{Name: "with " + c.Name, Text: text, Formula: "(base + mid coats + 2 × clear) ÷ (mid coats + 3)",
			With: fmt.Sprintf("(%.0f + 2 × %.0f) ÷ 3 = %s", base, over, text), Caution: coat.CautionLimits,
			Inputs: []figure.Input{{Name: p.Name, Value: fmt.Sprintf("%.0f g/l", base), Source: figure.Worked}, {Name: c.Name, Value: fmt.Sprintf("%.0f g/l", over), Source: figure.Worked},
				{Name: "weights", Value: "1 and 2", Source: figure.TradeDefault, Note: "the rule that applies must be read"}}}, true
	}
	return figure.Figure{}, false
}
