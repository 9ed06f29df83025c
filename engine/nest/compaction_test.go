package nest

import (
	"math"
	"testing"

	"fettle/geom"
)

// TestCompaction_ClosesAJigsaw lays four pieces of a square a little off their
// places, some over one another, and wants the square.
func TestCompaction_ClosesAJigsaw(t *testing.T) {
	pieces := [][]geom.Point{
		ringXY(0, 0, 60, 0, 40, 50, 0, 30), ringXY(60, 0, 100, 0, 100, 70, 40, 50),
		ringXY(0, 30, 40, 50, 30, 100, 0, 100), ringXY(40, 50, 100, 70, 100, 100, 30, 100),
	}
	c := compaction{bounds: geom.Box{Max: geom.Point{X: 103, Y: 100}}, reach: 5}
	for i, p := range pieces {
		off := geom.Point{X: 0.7 * float64(i%2), Y: 0.9 * float64(i/2)}
		if i == 3 {
			off = geom.Point{X: -0.4, Y: -0.3}
		}
		c.bodies = append(c.bodies, newBody([][]geom.Point{p}, off))
	}
	if _, ok := c.run(); !ok || math.Abs(c.bounds.Max.X-100) > 1e-9 {
		t.Fatalf("it ends at a length of %v", c.bounds.Max.X)
	}
	for i, b := range c.bodies {
		if math.Abs(b.at.X)+math.Abs(b.at.Y) > 1e-9 {
			t.Errorf("piece %d is %v off its place", i, b.at)
		}
	}
}

// TestCompaction_HeedsWhatIsFixed pushes a square between one that stays and a
// wall, with a gap to the one and a margin to the other.
func TestCompaction_HeedsWhatIsFixed(t *testing.T) {
	side := [][]geom.Point{ringXY(0, 0, 10, 0, 10, 10, 0, 10)}
	ring := ringXY(0, 15, 40, 15, 40, 20, 0, 20)
	c := compaction{gap: 1, margin: 2, bounds: geom.Box{Max: geom.Point{X: 40, Y: 20}}, reach: 3}
	c.bodies = []body{newBody(side, geom.Point{}), newBody(side, geom.Point{X: 9, Y: 6})}
	c.bodies[0].still, c.bodies[1].walls = true, []barrier{{ring, boundsOf(ring)}}
	if _, ok := c.run(); !ok || c.bodies[0].at != (geom.Point{}) {
		t.Fatalf("the first lies at %v", c.bodies[0].at)
	}
	if at := c.bodies[1].at; math.Abs(at.X-11) > 1e-9 || at.Y < -1e-9 || at.Y > 3+1e-9 {
		t.Errorf("the second lies at %v", at)
	}
}

// TestCompaction_SaysWhereThereIsNoRoom cannot part two squares in height.
func TestCompaction_SaysWhereThereIsNoRoom(t *testing.T) {
	side := [][]geom.Point{ringXY(0, 0, 10, 0, 10, 10, 0, 10)}
	c := compaction{bounds: geom.Box{Max: geom.Point{X: 10, Y: 19}}, reach: 1}
	c.bodies = []body{newBody(side, geom.Point{}), newBody(side, geom.Point{Y: 9})}
	if _, ok := c.run(); ok {
		t.Errorf("they lie at %v and %v", c.bodies[0].at, c.bodies[1].at)
	}
}
