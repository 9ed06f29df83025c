package paint

import (
	"slices"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/unit"
)

// Suppose returns a copy of the build in which everything that a product goes
// over has had its last coat at a moment, on all its surfaces: what the windows
// would be.
func Suppose(b *build.Build, p build.Product, at unit.Moment, metal float64) *build.Build {
	c := b.Clone()
	for _, id := range p.Over {
		q := c.Product(id)
		if q == nil {
			continue
		}
		laid := build.Coat{ID: build.CoatID("supposed " + string(id)), Product: id, Zones: q.Zones, Number: q.Coats, At: at, Metal: metal, Air: metal, RH: 50}
		for _, zone := range q.Zones {
			laid.Panels = union(laid.Panels, c.PanelsIn(zone))
		}
		c.Coats = append(c.Coats, laid)
	}
	return &c
}

// Awaiting returns the windows that a product would close.
func Awaiting(b *build.Build, id build.ProductID, now unit.Moment) []Window {
	var list []Window
	for _, w := range Windows(b, now) {
		if slices.Contains(w.Next, id) {
			list = append(list, w)
		}
	}
	return list
}

// Say tells how the window stands at a moment: what must be on by when.
func (w Window) Say(b *build.Build, now unit.Moment) string {
	name := names(b, w.Next) + " over " + b.Product(w.Coat.Product).Name
	return coat.Clock{Name: name, Window: coat.Window{From: w.Opens, To: w.Closes}}.Say(now)
}
