package build

import (
	"slices"

	"fettle/unit"
)

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

// Colour returns the colour of that ID, or nil.
func (b *Build) Colour(id ColourID) *Colour {
	return find(b.Colours, id, func(c *Colour) ColourID { return c.ID })
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

// ProductID names a paint product.
type ProductID string

// Product is a paint product as its maker's sheet gives it. What its sheet
// does not say is left out, and is then not reckoned with.
type Product struct {
	ID       ProductID   `json:"id"`
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

	Use       Use         `json:"use,omitempty"`
	Colour    ColourID    `json:"colour,omitempty"`      // of a base or a single stage
	Over      []ProductID `json:"over,omitempty"`        // what it may go on
	Parts     []MixPart   `json:"mix_parts,omitempty"`   // one for each part of Mix, in its order
	FillPurge unit.Volume `json:"fill_purge_l,omitzero"` // lost in cup and hose each time some is mixed
	Grades    []Grade     `json:"grades,omitempty"`
	Times     Times       `json:"times,omitzero"`
	Missed    Missed      `json:"missed_window,omitzero"`
	LowMetal  float64     `json:"lowest_metal_c,omitempty"`
	HighRH    float64     `json:"highest_rh_percent,omitempty"`
	DryDouble float64     `json:"drying_doubles_c,omitempty"` // degrees colder that double flash, recoat and cure
	PotDouble float64     `json:"pot_doubles_c,omitempty"`    // degrees warmer that halve the pot life
	ShelfLife int         `json:"shelf_life_days,omitempty"`
	Sheet     string      `json:"sheet,omitempty"` // reference of the maker's sheet
	SheetDay  unit.Date   `json:"sheet_day,omitzero"`

	Extra     Extra          `json:"extra,omitzero"` // where the last part of the mix is "+ x %"
	Viscosity Viscosity      `json:"viscosity,omitzero"`
	Solvent   SolventClassID `json:"solvent_class,omitempty"` // of the owner's table
}

// Product returns the paint product of that ID, or nil.
func (b *Build) Product(id ProductID) *Product {
	return find(b.Products, id, func(p *Product) ProductID { return p.ID })
}

// PaintOn returns the first product of such uses that covers a zone, or nil.
func (b *Build) PaintOn(zone ZoneID, such func(Use) bool) *Product {
	for i, p := range b.Products {
		if such(p.Use) && slices.Contains(p.Zones, zone) {
			return &b.Products[i]
		}
	}
	return nil
}

// ZoneArea returns the surface of a zone over all panels and its extra.
func (b *Build) ZoneArea(id ZoneID) unit.Area {
	var sum unit.Area
	if z := b.Zone(id); z != nil {
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

// SurfaceOf returns the surface of panels that a product covers: their areas
// in its zones, or only in those named. A panel that has none of the zones is
// covered on its face; a zone named that none of the panels has stands for its
// surface on no panel, such as the wheels.
func (b *Build) SurfaceOf(p Product, panels []PanelID, zones []ZoneID) unit.Area {
	if len(zones) == 0 {
		zones = b.zonesOn(p, panels)
	}
	var sum unit.Area
	for _, id := range panels {
		if panel := b.Panel(id); panel != nil {
			for _, a := range panel.Areas {
				if panel.covered(zones, a.Zone) {
					sum += a.Area
				}
			}
		}
	}
	for _, id := range zones {
		if z := b.Zone(id); z != nil && !b.anyHas(panels, id) {
			sum += z.Extra
		}
	}
	return sum
}

// zonesOn returns the zones of a product that some of the panels have.
func (b *Build) zonesOn(p Product, panels []PanelID) []ZoneID {
	var list []ZoneID
	for _, zone := range p.Zones {
		if b.anyHas(panels, zone) {
			list = append(list, zone)
		}
	}
	return list
}

func (b *Build) anyHas(panels []PanelID, zone ZoneID) bool {
	return slices.ContainsFunc(panels, func(id PanelID) bool {
		p := b.Panel(id)
		return p != nil && p.Has(zone)
	})
}

// Zone returns the paint zone of that ID, or nil.
func (b *Build) Zone(id ZoneID) *Zone {
	return find(b.Zones, id, func(z *Zone) ZoneID { return z.ID })
}

// ZoneName returns what a zone is called, or its ID where the build has none of
// that ID.
func (b *Build) ZoneName(id ZoneID) string {
	if z := b.Zone(id); z != nil {
		return z.Name
	}
	return string(id)
}
