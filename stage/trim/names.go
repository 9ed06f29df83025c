package trim

import (
	"fettle/engine/flatten"
	"fettle/engine/flatten/longflat"
	"fettle/engine/pattern"
	"fettle/figure"
	"fettle/geom"
)

// What the places show of the engines, by the names of the trim shop.
type (
	FlatJob   = longflat.Order  // a surface to be laid flat, or cuts of it to be looked for
	MadePiece = pattern.Piece   // a piece of a recipe
	MadeEdge  = pattern.Ref     // an edge of one
	Clips     = pattern.Clips   // holes along edges
	Squared   = pattern.Squared // an outline put right
)

// Settled tells whether it was laid flat to the end: its steps were enough.
func (f Flattened) Settled() bool { return f.Result.Status != flatten.OutOfSteps }

// Square makes an outline true within the habits of the trade.
func Square(line []geom.Point) (Squared, error) { return pattern.Squaring{}.Square(line) }

// TestedLoss is what one line takes up in mm, by a test piece: its width flat and
// sewn, in mm, over its lines.
func TestedLoss(flat, sewn float64, lines int) (float64, error) {
	of := func(v float64) pattern.Given { return pattern.Given{Value: v, Source: figure.Measured} }
	a, err := pattern.PleatLoss(of(flat), of(sewn), of(float64(lines)))
	return a.Value, err
}
