package build

import "fettle/unit"

// PourID names a mix.
type PourID string

// Poured is what went into a mix of one part.
type Poured struct {
	Part   int         `json:"part"` // place in the product's mix, from 0
	Tin    TinID       `json:"tin,omitempty"`
	Volume unit.Volume `json:"volume_l"`
	Mass   unit.Mass   `json:"mass_kg,omitzero"` // as read off the scale
}

// Pour is one mix of a product, made for coats on panels.
type Pour struct {
	ID      PourID      `json:"id"`
	Product ProductID   `json:"product"`
	Panels  []PanelID   `json:"panels,omitempty"`
	Zones   []ZoneID    `json:"zones,omitempty"` // left out, those of the product that the panels have
	Coats   int         `json:"coats"`
	Grade   string      `json:"grade,omitempty"` // of hardener and reducer
	Parts   []Poured    `json:"parts"`
	Metal   float64     `json:"metal_c"`
	Air     float64     `json:"air_c"`
	RH      float64     `json:"rh_percent"`
	At      unit.Moment `json:"at"`
	By      PersonID    `json:"by"`

	Weighed  unit.Moment `json:"weighed,omitzero"` // when what was left was weighed back
	Left     unit.Volume `json:"left_l,omitzero"`
	LeftMass unit.Mass   `json:"left_kg,omitzero"`
}

// Mixed returns the ready-to-spray volume of the mix.
func (p Pour) Mixed() unit.Volume {
	var sum unit.Volume
	for _, q := range p.Parts {
		sum += q.Volume
	}
	return sum
}

// Pour returns the mix of that ID, or nil.
func (b *Build) Pour(id PourID) *Pour {
	return find(b.Pours, id, func(p *Pour) PourID { return p.ID })
}
