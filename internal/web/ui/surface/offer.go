package surface

import "fettle/internal/web/ui/progress"

// Offer is a cut that a search proposes: none is made by itself.
type Offer struct {
	Path string // vertices, as the field of cuts takes it
	Says string
	Link string // the page with it taken
}

// Offered is how a search for cuts stands, and what it found.
type Offered struct {
	Bar               progress.Params // empty where nothing was asked for
	Waits             bool            // the search goes on
	Looked            bool            // it has ended
	Stale             bool            // it was for something else: its finds are shown, and cannot be taken
	Title, None, Says string
	List              []Offer
}
