package sprayout

import (
	"slices"

	"fettle/build"
)

// Undercoat is how many coats of a product hide it.
type Undercoat struct {
	Product build.ProductID `json:"product"`
	Coats   int             `json:"coats"` // 0 where none do, or nothing is known
	Why     string          `json:"why,omitempty"`
}

// Undercoats returns every sealer, and every undercoat that a product may go on,
// the one that takes the fewest coats first.
func (p *Paints) Undercoats(id build.ProductID) []Undercoat {
	var list []Undercoat
	of := p.build.Product(id)
	for _, u := range p.build.Products {
		if u.Use != build.Sealer && (of == nil || !slices.Contains(of.Over, u.ID)) {
			continue
		}
		one := Undercoat{Product: u.ID}
		n, err := p.ToHide(id, u.ID)
		if one.Coats = n; err != nil {
			one.Why = err.Error()
		}
		list = append(list, one)
	}
	slices.SortStableFunc(list, func(a, b Undercoat) int { return rank(a) - rank(b) })
	return list
}

func rank(u Undercoat) int {
	if u.Coats == 0 {
		return 1000
	}
	return u.Coats
}
