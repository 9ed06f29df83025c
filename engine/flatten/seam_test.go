package flatten

import (
	"math"
	"testing"

	"fettle/geom"
)

// arc is part of a circle of a radius, by so many points.
func arc(radius, angle float64, points int) []geom.Point {
	line := make([]geom.Point, points)
	for i := range line {
		s, c := math.Sincos(angle * float64(i) / float64(points-1))
		line[i] = geom.Point{X: radius * c, Y: radius * s}
	}
	return line
}

func straight(long float64, points int) []geom.Point {
	line := make([]geom.Point, points)
	for i := range line {
		line[i] = geom.Point{X: long * float64(i) / float64(points-1)}
	}
	return line
}

func TestCompare_EaseByInterval(t *testing.T) {
	s, err := Compare(straight(400, 5), straight(412, 9), 110)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Intervals) != 4 || math.Abs(s.Ease()-0.03) > 1e-12 {
		t.Fatalf("%+v", s)
	}
	for i, at := range s.Intervals {
		if math.Abs(at.Ease-0.03) > 1e-12 || math.Abs(at.To[0]-100*float64(i+1)) > 1e-9 || math.Abs(at.To[1]-103*float64(i+1)) > 1e-9 {
			t.Errorf("%d: %+v", i, at)
		}
	}
}

func TestCompareAt_EaseIsWhereTheNotchesSay(t *testing.T) {
	s, err := CompareAt(straight(200, 3), straight(206, 3), [2][]float64{{100}, {106}})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(s.Intervals[0].Ease-0.06) > 1e-12 || math.Abs(s.Intervals[1].Ease) > 1e-12 {
		t.Errorf("%+v", s.Intervals)
	}
}

func TestCompare_Bad(t *testing.T) {
	line := straight(100, 3)
	if _, err := Compare(line, []geom.Point{{}}, 0); err == nil {
		t.Error("an edge without length passed")
	}
	if _, err := Compare(line, line, 1e-9); err == nil {
		t.Error("notches without end passed")
	}
	for _, n := range [][2][]float64{{{50}, {}}, {{60, 50}, {50, 60}}, {{50}, {120}}} {
		if _, err := CompareAt(line, line, n); err == nil {
			t.Errorf("notches %v passed", n)
		}
	}
	if _, err := Match(line, line, 0, -1, 0.5); err == nil {
		t.Error("a tolerance below nothing passed")
	}
	if _, err := Match(line, line, 0, 0, 2); err == nil {
		t.Error("a share of more than all passed")
	}
}

func TestMatch_EqualWithinTolerance(t *testing.T) {
	a, b := arc(300, 1.2, 40), arc(309, 1.2, 55)
	for _, c := range []struct{ within, share float64 }{{0, 0.5}, {0.5, 0.5}, {0, 0}, {0, 1}} {
		m, err := Match(a, b, 100, c.within, c.share)
		if err != nil {
			t.Fatal(err)
		}
		for i, at := range m.After.Intervals {
			if d := math.Abs((at.To[1] - at.From[1]) - (at.To[0] - at.From[0])); d > c.within+1e-9 {
				t.Errorf("%+v: interval %d differs by %g", c, i, d)
			}
		}
		if c.share == 0 && m.Moved[0] > 1e-9 || c.share == 1 && m.Moved[1] > 1e-9 {
			t.Errorf("%+v: the side that gives nothing was moved by %v", c, m.Moved)
		}
		// Half of 3 % on each side, spread to both ends of an edge of 360 mm.
		if c.share == 0.5 && (m.Moved[0] > 3 || m.Strain[0] > 0.0151) {
			t.Errorf("%+v: moved %v, strain %v", c, m.Moved, m.Strain)
		}
	}
}

func TestMatch_EqualEdgesStay(t *testing.T) {
	a := arc(200, 2, 30)
	m, err := Match(a, a, 50, 0, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	if m.Moved[0] > 1e-9 || m.Moved[1] > 1e-9 {
		t.Errorf("moved %v", m.Moved)
	}
}
