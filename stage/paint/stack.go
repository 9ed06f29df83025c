package paint

import (
	"slices"

	"fettle/build"
)

// Stack returns the products of a zone from the metal out: by use, and within a
// use in the order of what goes over what, else in that of the list.
func Stack(b *build.Build, zone build.ZoneID) []build.Product {
	var list []build.Product
	for _, p := range b.Products {
		if slices.Contains(p.Zones, zone) {
			list = append(list, p)
		}
	}
	rank := func(p build.Product) int { return slices.Index(build.Uses(), p.Use) }
	slices.SortStableFunc(list, func(x, y build.Product) int {
		switch {
		case rank(x) != rank(y):
			return rank(x) - rank(y)
		case slices.Contains(y.Over, x.ID):
			return -1
		case slices.Contains(x.Over, y.ID):
			return 1
		}
		return 0
	})
	return list
}

// Next returns the products of a zone that go over one, and thereby close its
// recoat window.
func Next(b *build.Build, zone build.ZoneID, id build.ProductID) []build.ProductID {
	var list []build.ProductID
	for _, p := range Stack(b, zone) {
		if slices.Contains(p.Over, id) {
			list = append(list, p.ID)
		}
	}
	return list
}

// names writes the names of products.
func names(b *build.Build, ids []build.ProductID) string {
	text := ""
	for i, id := range ids {
		if i > 0 {
			text += " or "
		}
		if p := b.Product(id); p != nil {
			text += p.Name
		}
	}
	return text
}
