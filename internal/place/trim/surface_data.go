package trim

import "fettle/internal/web/ui/surface"

// board is the surface and its flat pattern as the moving view has them.
func (page flatPage) board() surface.Board {
	b := surface.Board{Name: page.Surface.Name, Solid: page.solid(), Side: page.Side, Cut: "seam", Path: page.sidePath,
		On: "On the foam. Flags are the places of the table below.", Laid: "Laid flat, net of seams."}
	if page.Flat == nil {
		return b
	}
	flat := page.flat()
	b.Flat, b.Source = &flat, page.Flat.Result.Flat.Source
	strain, of := page.Flat.Result.Faces, page.Shown.Of
	b.Measures = []surface.Measure{
		surface.Measured("along", len(of), func(i int) float64 { return strain[of[i]].Along }),
		surface.Measured("across", len(of), func(i int) float64 { return strain[of[i]].Across }),
	}
	return b
}
