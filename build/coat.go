package build

import (
	"slices"

	"fettle/unit"
)

// CoatID names a coat.
type CoatID string

// Coat is one coat of a product on panels, with the air it was laid in.
type Coat struct {
	ID      CoatID      `json:"id"`
	Product ProductID   `json:"product"`
	Panels  []PanelID   `json:"panels,omitempty"`
	Zones   []ZoneID    `json:"zones,omitempty"` // left out, those of the product that the panels have
	Number  int         `json:"number"`          // of the product in its round, from 1
	At      unit.Moment `json:"at"`              // when it was on
	Metal   float64     `json:"metal_c"`
	Air     float64     `json:"air_c"`
	RH      float64     `json:"rh_percent"`
	Pour    PourID      `json:"pour,omitempty"`
	By      PersonID    `json:"by,omitempty"`
}

// Covers reports whether the coat is on a zone of a panel. A panel that has
// none of the coat's zones is covered on its face.
func (c Coat) Covers(p Panel, zone ZoneID) bool {
	return slices.Contains(c.Panels, p.ID) && p.covered(c.Zones, zone)
}

// Coat returns the coat of that ID, or nil.
func (b *Build) Coat(id CoatID) *Coat {
	return find(b.Coats, id, func(c *Coat) CoatID { return c.ID })
}

// CoatsOn returns the coats on a zone of a panel in order of time.
func (b *Build) CoatsOn(panel PanelID, zone ZoneID) []Coat {
	var list []Coat
	p := b.Panel(panel)
	for _, c := range b.Coats {
		if p != nil && c.Covers(*p, zone) {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b Coat) int { return int(a.At - b.At) })
	return list
}
