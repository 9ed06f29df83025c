package build

import "fettle/unit"

// ColourID names a colour.
type ColourID string

// Colour is one colour of the look.
type Colour struct {
	ID   ColourID `json:"id"`
	Name string   `json:"name"`
	Face string   `json:"face"`           // sRGB, such as #1F4A55
	Flop string   `json:"flop,omitempty"` // seen at a shallow angle
	Note string   `json:"note,omitempty"`
}

// ZoneID names a paint zone.
type ZoneID string

// Zone is a set of surfaces that get the same stack of paint.
type Zone struct {
	ID     ZoneID    `json:"id"`
	Name   string    `json:"name"`
	Colour ColourID  `json:"colour,omitempty"`
	Extra  unit.Area `json:"extra_m2,omitempty"` // surface on no panel, such as wheels
}

// Product is a paint product as its maker's sheet gives it.
type Product struct {
	ID       string      `json:"id"`
	Name     string      `json:"name"`
	Mix      []float64   `json:"mix"` // parts by volume: base, hardener, thinner
	Solids   float64     `json:"solids_percent"`
	Coats    int         `json:"coats"`
	Film     float64     `json:"film_um"` // dry, per coat
	Transfer float64     `json:"transfer"`
	Purge    unit.Volume `json:"purge_l"`
	Rounds   int         `json:"rounds"`
	Zones    []ZoneID    `json:"zones"`
	Task     TaskID      `json:"needed_for"`
	Flash    int         `json:"flash_min,omitempty"`
	PotLife  int         `json:"pot_life_min,omitempty"`
	Recoat   string      `json:"recoat"` // window as the sheet says it
	Caution  string      `json:"caution,omitempty"`
}

// ZoneArea returns the surface of a zone over all panels and its extra.
func (b *Build) ZoneArea(id ZoneID) unit.Area {
	var sum unit.Area
	if z := b.zone(id); z != nil {
		sum = z.Extra
	}
	for _, p := range b.Panels {
		for _, a := range p.Areas {
			if a.Zone == id {
				sum += a.Area
			}
		}
	}
	return sum
}

func (b *Build) zone(id ZoneID) *Zone {
	return find(b.Zones, id, func(z *Zone) ZoneID { return z.ID })
}
