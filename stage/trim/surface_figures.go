package trim

import (
	"fmt"
	"math"

	"fettle/engine/pattern"
	"fettle/figure"
)

// byStrip is what stands beside every number that rests on a material's limits.
const byStrip = "What a material bears is an assumption until a strip of this very hide or roll was pulled. Try the pattern in cheap cloth before you cut leather."

// Figures are what came of laying the surface flat, each with its working.
func (f Flattened) Figures() []figure.Figure {
	var on, laid float64
	for i, a := range f.Areas {
		s := f.Result.Faces[i].Stretch
		on, laid = on+a, laid+a/((1+s[0])*(1+s[1]))
	}
	surface := figure.Input{Name: "surface", Value: fmt.Sprintf("%.4f m²", on/1e6), Source: figure.Measured, Note: fmt.Sprintf("%d faces of the scan or model", len(f.Areas))}
	limits := f.bears()
	faces := fmt.Sprintf("by %d faces", len(f.Areas))
	out := []figure.Figure{
		{Name: "pattern, net of seams", Text: fmt.Sprintf("%.4f m²", laid/1e6), Formula: "area of each face of the surface ÷ what it is stretched by, added up", With: fmt.Sprintf("%.4f m² on the surface, mean stretch of area %.4f: %.4f m²", on/1e6, on/laid, laid/1e6), Inputs: []figure.Input{surface, limits}},
		{Name: "outside what it bears", Text: share(f.Result.Material.Outside), Formula: "share of the area where the pattern must stretch or shorten by more than a thousandth past a limit", With: share(f.Result.Material.Outside) + ", " + faces, Inputs: []figure.Input{surface, limits}, Caution: byStrip},
	}
	return append(out, f.asked(surface, limits))
}

// asked is the range that the shape asks for, known before it is laid flat.
func (f Flattened) asked(surface, limits figure.Input) figure.Figure {
	e := f.Estimate
	return figure.Figure{Name: "range that the shape asks for", Text: share(e.Needed),
		Formula: "the lesser of two: that of a round piece of the same curvature Ω, a ÷ sin a − 1 with cos a = 1 − Ω ÷ 2π, and that of the map that keeps angles",
		With:    fmt.Sprintf("Ω %.2f rad domed, %.2f saddled: round %s, angles kept %s; allowed %s = (1 + pull) ÷ (1 − push) − 1", e.Domed, e.Saddled, share(e.Round), share(e.Long), share(e.Allowed)),
		Inputs:  []figure.Input{surface, limits}, Caution: byStrip}
}

// bears are the limits as an input.
func (f Flattened) bears() figure.Input {
	m := f.Problem.Material
	if m == nil {
		return figure.Input{Name: "material", Value: "gives nowhere", Source: figure.Decided}
	}
	in := figure.Input{Name: m.Name, Value: fmt.Sprintf("pull %s along, %s across; push %s, %s", share(m.Tension[0]), share(m.Tension[1]), share(m.Squeeze[0]), share(m.Squeeze[1])), Source: figure.Measured, Note: "a pulled strip, as typed"}
	if habit, err := habitOf(m.Name); err == nil && habit != nil && habit.Tension == m.Tension && habit.Squeeze == m.Squeeze {
		in.Source, in.Note = figure.TradeDefault, "an assumption, about a quarter of what breaks it"
	}
	return in
}

// Stretch is the mounting stretch of a face along or across the material, as
// that of a place that a page names.
func (f Flattened) Stretch(name string, strain float64, way int) figure.Figure {
	pull, push := f.Limits()
	return figure.Figure{Name: name, Text: signed(strain), Formula: "length on the surface ÷ length in the pattern − 1",
		With: fmt.Sprintf("1 mm of the pattern comes to %.3f mm; it bears %s to %s", 1+strain, signed(-push[way]), signed(pull[way])), Inputs: []figure.Input{f.bears()}, Caution: byStrip}
}

// EaseOf is by how much the second side of a cut is longer than the first.
func EaseOf(name string, a, b, ease float64) figure.Figure {
	return figure.Figure{Name: name, Text: signed(ease), Formula: "second side ÷ first side − 1, along the sewn lines", With: fmt.Sprintf("%.1f ÷ %.1f − 1 = %s", b, a, signed(ease)),
		Inputs:  []figure.Input{{Name: "sides", Value: fmt.Sprintf("%.1f and %.1f mm", a, b), Source: figure.Worked, Note: "added up along the flat pattern"}},
		Caution: fmt.Sprintf("Up to %.0f %% is eased in between two notches, more puckers.", 100*pattern.MostEase)}
}

func share(v float64) string { return fmt.Sprintf("%.1f %%", 100*v) }

// signed writes a share in per cent with its sign, a true minus.
func signed(v float64) string {
	switch v = math.Round(1000*v) / 10; {
	case v < 0:
		return fmt.Sprintf("−%.1f %%", -v)
	case v > 0:
		return fmt.Sprintf("+%.1f %%", v)
	}
	return "0.0 %"
}
