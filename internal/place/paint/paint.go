// Package paint is the place of the painter: what is painted next, the stack of
// every zone, the makers' sheets, the tins, and the mix card that says in grams
// what to pour now.
package paint

import (
	"slices"

	"fettle/internal/desk"
	"fettle/internal/web"
)

// Place returns the place with its routes, page by page.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "paint", Label: "Paint", Path: "/b/{build}/paint", Routes: slices.Concat(
		p.frontRoutes(),
		p.mixRoutes(),
		p.tinRoutes(),
		p.limitRoutes(),
		p.productRoutes(),
		p.goRoutes(), p.clockRoutes(), p.dayRoutes(), p.recordRoutes(), p.redoRoutes(),
	)}
}

type place struct{ desk desk.Desk }
