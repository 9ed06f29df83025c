package nest

import (
	"context"
	"testing"

	"fettle/geom"
)

// TestSeek_AllocatesNothingOnAHide does so at any angle, beside a locked copy.
func TestSeek_AllocatesNothingOnAHide(t *testing.T) {
	shape := geom.Polygon{Outer: []geom.Point{{}, {X: 120}, {X: 120, Y: 40}, {X: 50, Y: 40}, {X: 50, Y: 110}, {Y: 110}}}
	flap := []Zone{{Shape: geom.Polygon{Outer: []geom.Point{{}, {X: 40}, {X: 40, Y: 40}, {Y: 40}}}, Quality: 1}}
	p := Problem{Kind: Bins, Clearance: 2, Containers: []Container{hide()}, Pieces: []Piece{
		{Shape: shape, Count: 9, Free: true, Zones: flap, Locked: []Placement{{X: 200, Y: 200}}},
		{Shape: shape, Count: 9, Free: true, Quality: 2, Axis: &Axis{Tolerance: 10}},
	}}
	s := newShop(&p)
	f := newFloor(s, 0)
	l := newLayout(s, s.items(), f.bounds(), f)
	k := newSeeker(l, 1, 0)
	for i := range l.items {
		l.put(i, s.spotOf(Placement{Piece: l.items[i].piece, X: 300, Y: 250, Rotation: float64(7 * i)}))
	}
	k.all()
	for range 5 {
		k.round()
	}
	here := l.spots[0]
	if n := testing.AllocsPerRun(20, k.round); n != 0 || l.total() == 0 || l.spots[0] != here {
		t.Errorf("a round allocates %v times, at a loss of %v; the locked copy lies at %+v", n, l.total(), l.spots[0])
	}
}

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
