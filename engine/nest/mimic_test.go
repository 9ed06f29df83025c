package nest

import (
	"context"
	"math"
	"testing"

	"fettle/geom"
)

// TestMimic_RepeatsHowEqualsLie has two pieces lie together in one place, and
// one of each elsewhere, turned: the only draw that comes to anything puts the
// fourth beside the third as the first two lie.
func TestMimic_RepeatsHowEqualsLie(t *testing.T) {
	quarters := []float64{0, 90, 180, 270}
	long := geom.Polygon{Outer: []geom.Point{{}, {X: 4}, {X: 4, Y: 1}, {Y: 1}}}
	ell := geom.Polygon{Outer: []geom.Point{{}, {X: 3}, {X: 3, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 3}, {Y: 3}}}
	p := Problem{
		Containers: []Container{{Height: 30}},
		Pieces:     []Piece{{Shape: ell, Count: 2, Rotations: quarters}, {Shape: long, Count: 2, Rotations: quarters}},
	}
	r, err := newSearch(context.Background(), newShop(&p), Options{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	r.now.bounds = r.strip(100)
	lay := func(i int, x, y, rotation float64) {
		s, _ := r.lead.turnedTo(r.now.items[i].piece, rotation, false, x, y)
		r.now.put(i, s)
	}
	lay(0, 10, 10, 0)
	lay(2, 11, 11.5, 90) // beside the ell: its box touches
	lay(1, 50, 20, 90)
	lay(3, 80, 5, 0)
	found := 0
	for range 200 {
		s, ok := r.lead.mimic(3)
		if !ok {
			continue
		}
		found++
		if rotation, _ := s.lies(); rotation != 180 || math.Hypot(s.x-48.5, s.y-21) > 1e-9 {
			t.Fatalf("the long piece would lie at %v, %v, turned by %v", s.x, s.y, rotation)
		}
	}
	if found == 0 {
		t.Error("no draw came to anything")
	}
	for range 50 {
		if _, ok := r.lead.mimic(2); ok {
			t.Fatal("the second long piece lies beside nobody: there is nothing to repeat")
		}
	}
}
