package build

import "fettle/unit"

// CardID names a spray-out card.
type CardID string

// Bands is the number of reflectances in a spectrum: 380 to 730 nm by 10.
const Bands = 36

// Reading is a colour as an instrument or a picture gave it: one of a spectrum,
// a Lab or an RGB.
type Reading struct {
	Ground   string    `json:"ground,omitempty"`   // the ground it was read over; left out where none shows through
	Angle    string    `json:"angle,omitempty"`    // face or flop; left out is face
	Spectrum []float64 `json:"spectrum,omitempty"` // Bands reflectances, 1 is white
	Lab      []float64 `json:"lab,omitempty"`      // L* a* b*, D65, 2°
	RGB      string    `json:"rgb,omitempty"`      // sRGB, such as #1F4A55
	Within   float64   `json:"within,omitempty"`   // CIEDE2000 that two in three of such readings lie within; 0 is not said
}

// Step is one part of a card with its number of coats.
type Step struct {
	Coats    int       `json:"coats"`
	Film     float64   `json:"film_um"` // dry, of all its coats
	Readings []Reading `json:"readings"`
}

// Card is a spray-out of a product, or the let-down card of a mid coat.
type Card struct {
	ID      CardID    `json:"id"`
	Product ProductID `json:"product"`
	Over    ProductID `json:"over,omitempty"`           // the undercoat beneath, where it is no chart
	Grounds []Reading `json:"grounds,omitempty"`        // the bare grounds, by name
	Gloss   bool      `json:"gloss_included,omitempty"` // readings hold the mirror reflection
	Cleared bool      `json:"cleared,omitempty"`        // read under clear
	Gun     string    `json:"gun,omitempty"`
	Day     unit.Date `json:"day"`
	By      PersonID  `json:"by,omitempty"`
	Steps   []Step    `json:"steps"`
	Chosen  int       `json:"chosen,omitempty"` // step, from 1; 0 is none yet
	Note    string    `json:"note,omitempty"`
}

// Card returns the card of that ID, or nil.
func (b *Build) Card(id CardID) *Card {
	return find(b.Cards, id, func(c *Card) CardID { return c.ID })
}
