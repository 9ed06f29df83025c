package paint

import (
	"slices"

	"fettle/build"
	"fettle/unit"
)

// Due is a product that goes on next, with the surface it goes on.
type Due struct {
	Product build.Product
	Panels  []build.PanelID
	Zones   []build.ZoneID
	Coats   int // still to lay in its round
	Area    unit.Area
}

// Queue returns what goes on next on every surface, by the coats laid so far, in
// the order of the products. A product counts as done once one over it is on.
func Queue(b *build.Build) []Due {
	var list []Due
	for _, z := range b.Zones {
		stack := Stack(b, z.ID)
		bare := true
		for _, p := range b.Panels {
			if i := slices.IndexFunc(p.Areas, func(a build.ZoneArea) bool { return a.Zone == z.ID }); i >= 0 {
				bare = false
				list = due(list, stack, b.CoatsOn(p.ID, z.ID), z.ID, p.ID, p.Areas[i].Area)
			}
		}
		if bare && z.Extra > 0 {
			list = due(list, stack, coatsOnNone(b, z.ID), z.ID, "", z.Extra)
		}
	}
	slices.SortStableFunc(list, func(x, y Due) int { return place(b, x) - place(b, y) })
	return list
}

func place(b *build.Build, d Due) int {
	return slices.IndexFunc(b.Products, func(p build.Product) bool { return p.ID == d.Product.ID })
}

// coatsOnNone returns the coats on a zone that no panel has, such as wheels.
func coatsOnNone(b *build.Build, zone build.ZoneID) []build.Coat {
	var list []build.Coat
	for _, c := range b.Coats {
		if slices.Contains(c.Zones, zone) {
			list = append(list, c)
		}
	}
	return list
}

// due adds a surface to the list, to what is alike.
func due(list []Due, stack []build.Product, laid []build.Coat, zone build.ZoneID, panel build.PanelID, area unit.Area) []Due {
	p, coats := nextOn(stack, laid)
	if p == nil {
		return list
	}
	i := slices.IndexFunc(list, func(d Due) bool { return d.Product.ID == p.ID && d.Coats == coats })
	if i < 0 {
		i = len(list)
		list = append(list, Due{Product: *p, Coats: coats})
	}
	d := &list[i]
	d.Area += area
	if panel != "" && !slices.Contains(d.Panels, panel) {
		d.Panels = append(d.Panels, panel)
	}
	if !slices.Contains(d.Zones, zone) {
		d.Zones = append(d.Zones, zone)
	}
	return list
}

// nextOn returns the product of a stack that goes on next and its coats, or nil
// where the last is on.
func nextOn(stack []build.Product, laid []build.Coat) (*build.Product, int) {
	at, count := 0, 0
	for i, p := range stack {
		n := 0
		for _, c := range laid {
			if c.Product == p.ID {
				n++
			}
		}
		if n > 0 {
			at, count = i, n
		}
	}
	for ; at < len(stack); at, count = at+1, 0 {
		if p := stack[at]; count < p.Coats*max(p.Rounds, 1) {
			return &stack[at], p.Coats - count%p.Coats
		}
	}
	return nil, 0
}
