package nest

import (
	"math/rand/v2"
	"slices"
	"testing"

	"fettle/geom"
)

// TestCrowd_MissesNobody holds the lanes to the plain form, and both to the
// boxes in full: whoever touches is told of, and few others.
func TestCrowd_MissesNobody(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	draw := func() geom.Box {
		x, y := 10*rng.Float64(), 10*rng.Float64()
		return geom.Box{Min: geom.Point{X: x, Y: y}, Max: geom.Point{X: x + rng.Float64(), Y: y + rng.Float64()}}
	}
	extra := 0
	for n := range 200 {
		boxes, c := make([]geom.Box, n+1), newCrowd(n+1)
		for i := range boxes {
			if boxes[i] = draw(); i%3 == 2 { // as near as numbers get
				boxes[i].Min.X = boxes[i-1].Max.X + float64(1e-9*float64(rng.IntN(3)-1))
			}
			c.set(i, &boxes[i])
		}
		lanes, plain := make([]uint64, c.full/word), make([]uint64, c.full/word)
		for i := range boxes {
			half := halves(&boxes[i])
			c.meet(&half, lanes)
			if c.meetLanes(&half, plain); !slices.Equal(lanes, plain) {
				t.Fatalf("%d boxes: %x in lanes, %x plain", n, lanes, plain)
			}
			for j := range c.full {
				told := lanes[j/word]>>(j%word)&1 == 1
				if touch := j < len(boxes) && !parted(&boxes[i], &boxes[j]); touch && !told {
					t.Fatalf("%v and %v touch, and nobody tells", boxes[i], boxes[j])
				} else if told && !touch {
					extra++
				}
			}
		}
	}
	if extra == 0 || extra > 10000 {
		t.Errorf("%d told of that do not touch", extra)
	}
}
