package nest

// terrain is what the copies of a layout lie on beyond its bounds. loss judges
// how far a turned copy of a piece, at a place, reaches where it must not: 0 if
// it does not. It may give up once it passes enough.
type terrain interface {
	loss(piece int, t *turn, x, y, enough float64) float64
}

// floor is what the copies of a layout lie on beyond its bounds: outline,
// holes and zones, as the search sees them. A layout without one may use all of
// its bounds.
type floor struct{}

// loss judges how far a turned copy of a piece, at a place, reaches where it
// must not: 0 if it does not. It may give up once it passes enough.
func (f *floor) loss(piece int, t *turn, x, y, enough float64) float64 { return 0 }
