package geom

import (
	"math"
	"testing"
)

func rect(x0, y0, x1, y1 float64) []Point {
	return []Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

func TestPolygon_FrameAreaDepthContains(t *testing.T) {
	frame := Polygon{Outer: rect(0, 0, 10, 6), Holes: [][]Point{rect(2, 2, 8, 4)}}
	if got := frame.Area(); got != 48 {
		t.Errorf("area %v, want 48", got)
	}
	if got, want := frame.Bounds(), (Box{Point{0, 0}, Point{10, 6}}); got != want {
		t.Errorf("bounds %v, want %v", got, want)
	}
	for _, c := range []struct {
		at   Point
		want float64
	}{{Point{1, 3}, 1}, {Point{5, 3}, -1}, {Point{13, 10}, -5}, {Point{5, 1.5}, 0.5}} {
		if got := frame.Depth(c.at); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("depth at %v is %v, want %v", c.at, got, c.want)
		}
		if got := frame.Contains(c.at); got != (c.want > 0) {
			t.Errorf("contains %v is %v", c.at, got)
		}
	}
}

func TestRingArea_SignSaysWhichWayRound(t *testing.T) {
	if a := RingArea([]Point{{0, 0}, {2, 0}, {0, 2}}); a != 2 {
		t.Errorf("anticlockwise %v, want 2", a)
	}
	if a := RingArea([]Point{{0, 0}, {0, 2}, {2, 0}}); a != -2 {
		t.Errorf("clockwise %v, want -2", a)
	}
}
