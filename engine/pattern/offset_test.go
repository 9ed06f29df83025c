package pattern

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/geom"
)

// TestFence_TwoWays: wherever the offsets can be joined corner by corner, the
// union of cells has the same area and the same corners.
func TestFence_TwoWays(t *testing.T) {
	both, worst := 0, 0.0
	for seed := range uint64(120) {
		rng := rand.New(rand.NewPCG(seed, 8))
		n := 3 + rng.IntN(30)
		f := fence{mitre: 1 + 2*rng.Float64()}
		by := 0.0
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.3*rng.Float64()) / float64(n))
			k := 400 * (0.75 + 0.25*rng.Float64())
			f.ring = append(f.ring, geom.Point{X: k * c, Y: k * s})
			if i == 0 || rng.IntN(4) == 0 {
				by = []float64{0, 5, 12, 12, 25}[rng.IntN(5)]
			}
			f.by = append(f.by, by)
		}
		joints := f.joints()
		line, ok := f.straight(joints)
		p := Piece{ID: "p", Line: f.ring}
		for i, b := range f.by {
			e := Edge{Name: string(rune('a' + i)), From: i, Kind: Plain, Allowance: b}
			if b == 0 {
				e.Kind = Raw
			}
			p.Edges = append(p.Edges, e)
		}
		if !ok {
			continue
		}
		c, err := p.CheckCut(line, f.mitre)
		if err != nil {
			continue
		}
		united, shut, err := f.united(joints)
		if err != nil || len(shut) > 0 {
			t.Fatalf("seed %d: %v, %v", seed, shut, err)
		}
		both++
		worst = max(worst, c.Near, c.Far)
		if a, b := geom.RingArea(line), geom.RingArea(united); math.Abs(a-b) > 1e-6 {
			t.Errorf("seed %d: joined %.9g mm², united %.9g", seed, a, b)
		}
		for _, q := range united {
			if d := geom.Ring(line).Distance(q); d > 1e-6 {
				t.Errorf("seed %d: united, a corner lies %g mm off the joined line", seed, d)
			}
		}
	}
	if both < 60 {
		t.Errorf("only %d outlines could be done both ways", both)
	}
	t.Logf("%d outlines, the worst place %.2g mm off", both, worst)
}
