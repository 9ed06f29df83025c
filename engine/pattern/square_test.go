package pattern_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
)

// angleAt is the inner angle of a corner in degrees.
func angleAt(l pattern.Line, i int) float64 {
	n := len(l)
	a, b := l[(i+n-1)%n].Sub(l[i]), l[(i+1)%n].Sub(l[i])
	return math.Abs(math.Atan2(a.Cross(b), a.X*b.X+a.Y*b.Y)) * 180 / math.Pi
}

// TestSquaring_Square: a card traced from a photo, its corners off by up to 2 mm
// and its sides by 0.5 mm, comes out square; its bow stays a bow.
func TestSquaring_Square(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	off := func(by float64) float64 { return by * (2*rng.Float64() - 1) }
	var traced pattern.Line
	corners := rect(700, 300)
	for i, p := range corners {
		q := corners[(i+1)%4]
		traced = append(traced, geom.Point{X: p.X + off(2), Y: p.Y + off(2)})
		for k := 1; k < 10; k++ {
			s := float64(k) / 10
			traced = append(traced, geom.Point{X: p.X + s*(q.X-p.X) + off(0.5), Y: p.Y + s*(q.Y-p.Y) + off(0.5)})
		}
	}
	got, err := pattern.Squaring{Straight: 3}.Square(traced)
	if err != nil || len(got.Line) != 4 || got.From[1] != 10 || got.From[3] != 30 || len(got.Moved) != 4 || got.Held != 0 {
		t.Fatalf("%+v, %v", got, err)
	}
	for i := range got.Line {
		if a := angleAt(got.Line, i); !near(a, 90, 1e-9) {
			t.Errorf("corner %d of %g°", i, a)
		}
		if d := got.Line[i].Distance(corners[i]); d > 3 {
			t.Errorf("corner %d is %g mm off the true one", i, d)
		}
	}
	for _, m := range got.Moved {
		if m.By > 5 || m.By <= 0 {
			t.Errorf("moved %+v", m)
		}
	}
	if got.Most > 4 {
		t.Errorf("the outline moved %g mm", got.Most)
	}
}

func TestSquaring_Keeps(t *testing.T) {
	bow := pattern.Line{{X: 0, Y: 0}, {X: 400, Y: 3}} // an arch over a foot that is 0.4° off
	for i := range 31 {
		s, c := math.Sincos(float64(i) * math.Pi / 30)
		bow = append(bow, geom.Point{X: 200 + 200*c, Y: 200 + 150*s})
	}
	for _, c := range []struct {
		name        string
		q           pattern.Squaring
		line        pattern.Line
		points      int
		moved, held bool
	}{
		{"a true rectangle stays", pattern.Squaring{}, rect(500, 200), 4, false, false},
		{"a rhombus of 80° is meant", pattern.Squaring{}, pattern.Line{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 335, Y: 200}, {X: 35, Y: 200}}, 4, false, false},
		{"a corner that would go too far is held", pattern.Squaring{Move: 1}, pattern.Line{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 306, Y: 200}, {X: 0, Y: 200}}, 4, true, true},
		{"an arch keeps its points", pattern.Squaring{}, bow, 33, true, false},
	} {
		got, err := c.q.Square(c.line)
		if err != nil || len(got.Line) != c.points || (len(got.Moved) > 0) != c.moved || (got.Held > 0) != c.held {
			t.Errorf("%s: %d points, %+v, held %d, %v", c.name, len(got.Line), got.Moved, got.Held, err)
		}
	}
	for _, bad := range []pattern.Squaring{{Angle: 40}, {Straight: math.NaN()}, {Move: -1}} {
		if _, err := bad.Square(rect(500, 200)); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	if _, err := (pattern.Squaring{}).Square(pattern.Line{{X: 1}}); fault.KindOf(err) != fault.Invalid {
		t.Error(err)
	}
}

func FuzzSquare(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed, 1.5, 3.0)
	}
	f.Fuzz(func(t *testing.T, seed uint64, straight, angle float64) {
		p := star(seed)
		if p.Check() != nil {
			t.Skip()
		}
		q := pattern.Squaring{Straight: straight, Angle: angle}
		got, err := q.Square(p.Line)
		if err != nil {
			return
		}
		for _, m := range got.Moved {
			if m.By > 5 {
				t.Errorf("seed %d: a corner moved %g mm", seed, m.By)
			}
		}
		if most := max(straight, 1.5) + 5; got.Most > most+1e-6 {
			t.Errorf("seed %d: the outline lies %g mm off, at most %g", seed, got.Most, most)
		}
	})
}
