package plan

import (
	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
)

// litresOf returns the ready-to-spray litres of every paint product.
func litresOf(b *build.Build, r rates.Rates) []figure.Figure {
	list := make([]figure.Figure, 0, len(b.Products))
	for _, p := range b.Products {
		_, f := takeoff.Litres(b, p, r)
		list = append(list, f)
	}
	return list
}
