package plan

import (
	"fettle/build"
	"fettle/figure"
	"fettle/stage/paint"
)

// litresOf returns the ready-to-spray litres of every paint product.
func litresOf(b *build.Build) []figure.Figure {
	list := make([]figure.Figure, 0, len(b.Products))
	for _, p := range b.Products {
		_, f := paint.Litres(b, p)
		list = append(list, f)
	}
	return list
}
