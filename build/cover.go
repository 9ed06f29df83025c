package build

import "fettle/unit"

// CoverID names what was measured of a covering material.
type CoverID string

// Cover is what was measured of a covering material, or of one dye lot of it.
// Stretches are in per cent of the length before, of a pull strip that still
// goes back; along is that of least stretch: the backbone of a hide, the
// length of a roll.
type Cover struct {
	ID        CoverID     `json:"id"`
	Material  string      `json:"material"`          // as named by the pieces
	Lot       string      `json:"dye_lot,omitempty"` // none is any
	Kind      string      `json:"kind"`
	Thickness unit.Length `json:"thickness_mm"`
	Loss      unit.Length `json:"pleat_loss_mm,omitempty"` // that a pleat line took up in the test piece
	LossOver  unit.Length `json:"pleat_foam_mm,omitempty"` // thickness of the foam under that test piece
	Along     float64     `json:"stretch_along_percent,omitempty"`
	Across    float64     `json:"stretch_across_percent,omitempty"`
	Squeeze   float64     `json:"squeeze_percent,omitempty"` // most it is pushed together before it wrinkles
	Note      string      `json:"note,omitempty"`            // who measured it, when and how
}

// CoverKinds lists the kinds of covering material.
func CoverKinds() []string { return []string{"leather", "vinyl", "cloth", "carpet"} }

// Cover returns what was measured under that ID, or nil.
func (b *Build) Cover(id CoverID) *Cover {
	return find(b.Covers, id, (*Cover).key)
}

// CoverOf returns what is known of a dye lot of a material: what was measured
// of that lot, else what holds for any, else nil.
func (b *Build) CoverOf(material, lot string) *Cover {
	var any *Cover
	for i := range b.Covers {
		switch c := &b.Covers[i]; {
		case c.Material != material:
		case c.Lot == lot:
			return c
		case c.Lot == "":
			any = c
		}
	}
	return any
}

func (c *Cover) key() CoverID { return c.ID }
