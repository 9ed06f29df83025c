package build

import "fettle/unit"

// LookID names a look.
type LookID string

// LookZone is what a look puts on a zone. What is left out stays as it is.
type LookZone struct {
	Zone      ZoneID    `json:"zone"`
	Colour    ColourID  `json:"colour,omitempty"`
	Base      ProductID `json:"base,omitempty"`      // base or single stage
	Undercoat ProductID `json:"undercoat,omitempty"` // sealer
}

// Break is the line between two colours.
type Break struct {
	Z     unit.Length `json:"z_mm,omitzero"`
	Words string      `json:"words,omitempty"` // its shape
	Upper ZoneID      `json:"upper,omitempty"`
	Lower ZoneID      `json:"lower,omitempty"`
}

// LookPanel is how a look divides a panel among zones.
type LookPanel struct {
	Panel PanelID    `json:"panel"`
	Areas []ZoneArea `json:"areas"`
}

// Look is one proposal for the colours: what goes where. Panels holds only
// those that it divides otherwise than they were before any look did.
type Look struct {
	ID     LookID      `json:"id"`
	Name   string      `json:"name"`
	Zones  []LookZone  `json:"zones"`
	Break  Break       `json:"break_line,omitzero"`
	Panels []LookPanel `json:"panels,omitempty"`
	Note   string      `json:"note,omitempty"`
	Chosen bool        `json:"chosen,omitempty"`
}

// Look returns the look of that ID, or nil.
func (b *Build) Look(id LookID) *Look {
	return find(b.Looks, id, func(l *Look) LookID { return l.ID })
}
