package build

import "fettle/unit"

// FilmID names a set of film readings.
type FilmID string

// Film is a set of gauge readings on one panel: all that is over the metal, in
// µm, after a product went on.
type Film struct {
	ID      FilmID      `json:"id"`
	Panel   PanelID     `json:"panel"`
	Zone    ZoneID      `json:"zone,omitempty"`
	Product ProductID   `json:"product"` // the last that went on
	Dry     []float64   `json:"um"`
	Under   float64     `json:"under_um,omitempty"` // mean reading before the product went on
	At      unit.Moment `json:"at"`
	By      PersonID    `json:"by,omitempty"`
}
