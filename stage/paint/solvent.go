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

// SolventStaged returns the solvent of a base taken with the clear that goes over
// it as one topcoat, with its working; false where it is no base, no clear goes
// over it or a sheet does not say.
func SolventStaged(b *build.Build, p build.Product) (figure.Figure, bool) {
	if p.Use != build.Base {
		return figure.Figure{}, false
	}
	_, f, ok := topcoat(b, p)
	return f, ok
}

// topcoat is the topcoat with the most solvent that a product is part of; false
// where it is part of none or a sheet does not say.
func topcoat(b *build.Build, p build.Product) (float64, figure.Figure, bool) {
	most, worst, known := 0.0, figure.Figure{}, false
	for _, stack := range topcoats(b) {
		if !slices.ContainsFunc(stack, func(q build.Product) bool { return q.ID == p.ID }) {
			continue
		}
		if g, f, ok := staged(stack); ok && (!known || g > most) {
			most, worst, known = g, f, true
		}
	}
	return most, worst, known
}

// topcoats lists every base, with a mid coat where one lies between, and the
// clear over it.
func topcoats(b *build.Build) [][]build.Product {
	var list [][]build.Product
	for _, c := range b.Products {
		if c.Use != build.Clear {
			continue
		}
		for _, under := range productsOf(b, c.Over) {
			switch under.Use {
			case build.Base:
				list = append(list, []build.Product{under, c})
			case build.MidCoat:
				for _, base := range productsOf(b, under.Over) {
					if base.Use == build.Base {
						list = append(list, []build.Product{base, under, c})
					}
				}
			}
		}
	}
	return list
}

func productsOf(b *build.Build, ids []build.ProductID) []build.Product {
	var list []build.Product
	for _, id := range ids {
		if p := b.Product(id); p != nil {
			list = append(list, *p)
		}
	}
	return list
}

// staged is the solvent of base, mid coats and clear as one topcoat.
func staged(stack []build.Product) (float64, figure.Figure, bool) {
	f := figure.Figure{Formula: "(base + mid coats + 2 × clear) ÷ (mid coats + 3)", Caution: coat.CautionLimits}
	var all []float64
	for _, p := range stack {
		own, _, ok := Solvent(p)
		if !ok {
			return 0, f, false
		}
		all = append(all, own)
		f.Inputs = append(f.Inputs, figure.Input{Name: p.Name, Value: fmt.Sprintf("%.0f g/l", own), Source: figure.Worked})
	}
	last := len(all) - 1
	both, err := coat.MultiStage(all[0], all[1:last], all[last])
	f.Name, f.Text = "with "+stack[last].Name, fmt.Sprintf("%.0f g/l", both)
	under := fmt.Sprintf("%.0f", all[0])
	for _, mid := range all[1:last] {
		under += fmt.Sprintf(" + %.0f", mid)
	}
	f.With = fmt.Sprintf("(%s + 2 × %.0f) ÷ %d = %s", under, all[last], last+2, f.Text)
	f.Inputs = append(f.Inputs, figure.Input{Name: "weights", Value: "1 and 2", Source: figure.TradeDefault, Note: "the rule that applies must be read"})
	return both, f, err == nil
}
