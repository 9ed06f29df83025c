package nest

import (
	"context"
	"testing"

	"fettle/geom"
)

// TestSeek_AllocatesNothing holds the inner loop to the room it was given.
func TestSeek_AllocatesNothing(t *testing.T) {
	shape := geom.Polygon{Outer: []geom.Point{{}, {X: 9}, {X: 9, Y: 3}, {X: 3, Y: 3}, {X: 3, Y: 9}, {Y: 9}}}
	p := Problem{
		Pieces:     []Piece{{Shape: shape, Count: 12, Rotations: []float64{0, 90, 180, 270}}},
		Containers: []Container{{Height: 20}},
	}
	r, err := newSearch(context.Background(), newShop(&p), Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	r.until = 1 << 40
	r.start()
	r.shorten(0.2, r.shortestYet()/2)
	if n := testing.AllocsPerRun(20, r.lead.round); n != 0 || r.now.total() == 0 {
		t.Errorf("a round allocates %v times, at a loss of %v", n, r.now.total())
	}
}
