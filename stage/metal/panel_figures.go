package metal

import (
	"fmt"
	"math"

	"fettle/engine/flatten"
	"fettle/figure"
)

// Figures are what the sheet must bear, each with its working.
func (p Panel) Figures() []figure.Figure {
	f, metal, sheet := p.Forming, p.Problem.Material.Metal, p.sheet()
	var area float64
	for _, a := range p.Areas {
		area += a
	}
	surface := figure.Input{Name: "surface", Value: fmt.Sprintf("%.4f m²", area/1e6), Source: figure.Measured}
	face := "stretch and shrink by face, of least plastic work, Hill's normal anisotropy"
	return []figure.Figure{
		{Name: "sheet laid flat", Text: fmt.Sprintf("%.4f m²", area/f.Ratio/1e6), Formula: "area of the surface ÷ mean stretch of its area", With: fmt.Sprintf("%.4f ÷ %.4f = %.4f m²", area/1e6, f.Ratio, area/f.Ratio/1e6), Inputs: []figure.Input{surface, sheet}, Caution: edgesCut},
		{Name: "to be stretched", Text: percent(f.Stretched), Formula: "share of the surface that is more than 1 % larger than its sheet", With: percent(f.Stretched) + ", by " + face, Inputs: []figure.Input{surface, sheet}},
		{Name: "to be shrunk", Text: percent(f.Shrunk), Formula: "share of the surface that is more than 1 % smaller than its sheet", With: percent(f.Shrunk) + ", by " + face, Inputs: []figure.Input{surface, sheet}},
		{Name: "thinnest", Text: fmt.Sprintf("%.2f mm", metal.Thickness*(1+f.Thin)), Formula: "gauge ÷ stretch of area, for the volume stays", With: fmt.Sprintf("%.2f mm × (1 − %.1f %%) = %.2f mm", metal.Thickness, -100*f.Thin, metal.Thickness*(1+f.Thin)), Inputs: []figure.Input{sheet}},
		{Name: "worst against its forming limit", Text: percent(f.Worst), Formula: "largest stretch ÷ the stretch at which the sheet necks at that cross stretch; 90 % is flagged", With: percent(f.Worst) + "; " + percent(f.Near) + " of the area is at 90 % or more", Inputs: []figure.Input{sheet}},
	}
}

// sheet is what the panel is made of, as an input.
func (p Panel) sheet() figure.Input {
	metal := p.Problem.Material.Metal
	return figure.Input{Name: "sheet", Value: fmt.Sprintf("%s, %g mm", metal.Grade, metal.Thickness), Source: figure.Decided, Note: "figures of the grade by EN 10130; the mill's sheet goes before"}
}

// Figures are what is done at a place, what is left of the gauge there, and how
// near that comes to the forming limit, each with its working.
func (at PanelPlace) Figures(p Panel) [3]figure.Figure {
	metal, s, in := p.Problem.Material.Metal, p.Result.Faces[at.Face].Stretch, []figure.Input{p.sheet()}
	return [3]figure.Figure{
		{Name: "change of area", Text: fmt.Sprintf("%+.1f %%", 100*(at.Ratio-1)), Formula: "stretch one way × stretch the other − 1", With: fmt.Sprintf("%.3f × %.3f − 1 = %+.1f %%", 1+s[0], 1+s[1], 100*(at.Ratio-1)), Inputs: in},
		{Name: "sheet left", Text: fmt.Sprintf("%.2f mm", at.Gauge), Formula: "gauge ÷ stretch of area, for the volume stays", With: fmt.Sprintf("%g ÷ %.3f = %.2f mm", metal.Thickness, at.Ratio, at.Gauge), Inputs: in},
		{Name: "share of its forming limit", Text: fmt.Sprintf("%.0f %%", 100*math.Max(0, at.Near)), Formula: "larger stretch ÷ the stretch at which the sheet necks at that cross stretch", With: fmt.Sprintf("%.1f %% ÷ %.1f %%", 100*s[0], 100*metal.Limit(s[1])), Inputs: in, Caution: edgesCut},
	}
}

// BendFigures are the angle and the radius of a fold, each with its working.
func (p Panel) BendFigures(b flatten.Bend) [2]figure.Figure {
	in := []figure.Input{{Name: "surface", Value: "its faces along the fold", Source: figure.Measured, Note: "the scan or model"}}
	angle := math.Abs(b.Angle) * 180 / math.Pi
	return [2]figure.Figure{
		{Name: "angle of the fold", Text: fmt.Sprintf("%.0f°", angle), Formula: "turning of the surface across the fold, mean along it", With: fmt.Sprintf("%.1f° from flat over %.1f mm of sheet", angle, b.Width), Inputs: in, Caution: edgesCut},
		{Name: "radius of the fold", Text: fmt.Sprintf("%.1f mm", b.Radius), Formula: "width of the bend ÷ its angle in radians, of the surface as it was scanned", With: fmt.Sprintf("%.1f mm", b.Radius), Inputs: in},
	}
}
