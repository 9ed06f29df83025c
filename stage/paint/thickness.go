package paint

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/figure"
)

// Thickness is what film readings say of the layer that went on last.
type Thickness struct {
	Reading build.Film
	Layer   coat.Film // µm of the layer; of all that is over the metal where the layer cannot be told
	Whole   bool      // Layer is all that is over the metal, of several products
	Least   float64   // µm that the layer should have; 0 where nothing is said
	Most    float64
	Wrong   []string
	Polish  float64 // µm of clear that polishing may still take, where it is thinnest
	Clear   bool
	Figure  figure.Figure
}

// overSheet is by how much a layer may exceed its sheet's film before it is
// called thick (trade default: clear of 66 µm fails from about 76).
const overSheet = 1.15

// layerOf names the engine's layer of a use.
var layerOf = map[build.Use]string{build.Epoxy: "epoxy primer on steel", build.Primer: "high build before blocking", build.Sealer: "sealer",
	build.Base: "base", build.MidCoat: "pearl mid coat", build.Clear: "clear", build.SingleStage: "two-pack single stage"}

// ThicknessOf weighs film readings against the layer of their product: the
// mean before it went on is taken off; readings on steel that had nothing else
// are the layer itself. Fault: Invalid for readings that cannot be, such as
// thinner than before.
func ThicknessOf(b *build.Build, f build.Film) (Thickness, error) {
	t := Thickness{Reading: f}
	p := b.Product(f.Product)
	under, after := make([]float64, len(f.Dry)), f.Dry
	for i := range under {
		under[i] = f.Under
	}
	t.Whole = f.Under == 0 && !first(b, f)
	var err error
	if t.Layer, err = coat.Between(under, after); err != nil || p == nil {
		return t, err
	}
	t.Figure = figure.Figure{Name: "film of " + p.Name, Text: fmt.Sprintf("%.0f to %.0f µm", t.Layer.Low, t.Layer.High), Formula: "readings − mean before it went on; low, high and mean",
		With: fmt.Sprintf("n = %d, mean %.0f µm, spread %.0f", t.Layer.N, t.Layer.Mean, t.Layer.Spread), Caution: coat.CautionSheet,
		Inputs: []figure.Input{{Name: "before", Value: fmt.Sprintf("%g µm", f.Under), Source: figure.Measured}, {Name: "sheet", Value: fmt.Sprintf("%d × %g µm", p.Coats, p.Film), Source: figure.Sheet, Note: p.Sheet}}}
	if t.Whole {
		if t.Layer.High > coat.StripOver {
			t.Wrong = append(t.Wrong, fmt.Sprintf("%.0f µm in all: over %g the old paint comes off first", t.Layer.High, coat.StripOver))
		}
		return t, nil
	}
	for _, l := range coat.Layers() {
		if l.Name == layerOf[p.Use] {
			t.Least, t.Most = l.Least, math.Max(l.Most, math.Round(overSheet*p.Film*float64(p.Coats)))
		}
	}
	if t.Clear = p.Use == build.Clear; t.Clear {
		t.Least, t.Polish = coat.ClearKept, t.Layer.PolishLeft(0)
	}
	if t.Most > 0 {
		t.Wrong = t.Layer.Against(t.Least, t.Most)
		t.Figure.Inputs = append(t.Figure.Inputs, figure.Input{Name: "should be", Value: fmt.Sprintf("%g to %g µm", t.Least, t.Most), Source: figure.TradeDefault, Note: "the layer's habit, or the sheet's film and 15 %"})
	}
	return t, nil
}

// first reports whether a reading's product was the first on its surface.
func first(b *build.Build, f build.Film) bool {
	zone := f.Zone
	if p := b.Panel(f.Panel); zone == "" && p != nil {
		zone = p.Face()
	}
	for _, c := range b.CoatsOn(f.Panel, zone) {
		if c.At <= f.At && c.Product != f.Product {
			return false
		}
	}
	return true
}

// CheckAir refuses readings of metal, air and humidity that cannot be right,
// such as 4500 % or metal colder than any that stands in such air.
func CheckAir(metal, air, rh float64) error {
	_, err := coat.Margin(metal, air, rh)
	return err
}
