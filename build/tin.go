package build

import "fettle/unit"

// TinID names a tin of paint.
type TinID string

// Tin is a tin of one part of a product.
type Tin struct {
	ID      TinID       `json:"id"`
	Product ProductID   `json:"product"`
	Part    int         `json:"part"` // place in the product's mix, from 0
	Batch   string      `json:"batch,omitempty"`
	Grade   string      `json:"grade,omitempty"`
	Size    unit.Volume `json:"size_l"`
	Left    unit.Volume `json:"left_l"`
	Given   bool        `json:"given,omitempty"`
	Arrived unit.Date   `json:"arrived,omitzero"`
	Boxed   TinID       `json:"boxed,omitempty"` // the first tin of those it was blended with
}

// Tin returns the tin of that ID, or nil.
func (b *Build) Tin(id TinID) *Tin {
	return find(b.Tins, id, func(t *Tin) TinID { return t.ID })
}

// partName returns the name of a part of a product's mix, or nothing.
func (p Product) partName(i int) string {
	if i < len(p.Parts) {
		return p.Parts[i].Name
	}
	return ""
}

// holds reports whether a tin holds a part of a product: it was bought for it,
// or holds what goes by the same name in the mix of another.
func (b *Build) holds(t Tin, p Product, part int) bool {
	if t.Product == p.ID {
		return t.Part == part
	}
	other := b.Product(t.Product)
	return other != nil && p.partName(part) != "" && other.partName(t.Part) == p.partName(part)
}
