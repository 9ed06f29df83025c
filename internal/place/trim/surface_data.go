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
	strain := page.Flat.Result.Faces
	b.Measures = []surface.Measure{
		surface.Measured("along", len(strain), func(i int) float64 { return strain[i].Along }),
		surface.Measured("across", len(strain), func(i int) float64 { return strain[i].Across }),
	}
	return b
}
