package build

import "fettle/unit"

// WarmUpID names a record of the booth being warmed.
type WarmUpID string

// WarmUp is one heating of a bay: how long the metal took from one temperature
// to another.
type WarmUp struct {
	ID      WarmUpID    `json:"id"`
	Bay     string      `json:"bay"`
	At      unit.Moment `json:"at"` // when heating began
	From    float64     `json:"from_c"`
	To      float64     `json:"to_c"`
	Minutes int         `json:"minutes"`
	Air     float64     `json:"air_c"` // of the booth while it was heated
	Note    string      `json:"note,omitempty"`
}
