package colour

import (
	"math"
	"strings"
	"testing"
)

func silver() Flop {
	return Flop{{15, Flat(1.6)}, {45, Flat(0.4)}, {110, Flat(0.1)}}
}

func TestFlop(t *testing.T) {
	f := silver()
	for degrees, want := range map[float64]float64{15: 1.6, 30: 0.8, 45: 0.4, 77.5: 0.2, 110: 0.1} {
		got, err := f.At(degrees)
		if err != nil || math.Abs(got.R[17]-want) > 1e-12 {
			t.Errorf("%g°: %g, %v, want %g", degrees, got.R[17], err, want)
		}
		if got.Measured == strings.Contains(got.Says, "indication only") {
			t.Errorf("%g°: measured %v, says %q", degrees, got.Measured, got.Says)
		}
	}
	v := NewViewer(D65(), Degrees10())
	index, err := f.Index(v)
	l := func(r float64) float64 { return v.Lab(Flat(r)).L }
	if want := 2.69 * math.Pow(l(1.6)-l(0.1), 1.11) / math.Pow(l(0.4), 0.86); err != nil || math.Abs(index-want) > 1e-9 {
		t.Errorf("index %g, %v, want %g", index, err, want)
	}
	if index, err := (Flop{{15, Flat(0.4)}, {110, Flat(0.4)}}).Index(v); err != nil || index != 0 {
		t.Errorf("a solid colour flops by %g, %v", index, err)
	}
	if got, err := (Flop{{15, Flat(0)}, {45, Flat(0.4)}}).At(30); err != nil || math.Abs(got.R[0]-0.2) > 1e-12 {
		t.Errorf("from nothing: %g, %v", got.R[0], err)
	}
}

func TestFlopRefuses(t *testing.T) {
	gap := Flat(0.3)
	gap[4] = math.NaN()
	for want, c := range map[string]struct {
		f  Flop
		at float64
	}{
		"10° is not between":        {silver(), 10},
		"NaN° is not between":       {silver(), math.NaN()},
		"1 angles":                  {silver()[:1], 15},
		"angle 2: an angle of 15°":  {Flop{{15, Flat(0.3)}, {15, Flat(0.3)}}, 15},
		"angle 1, 420 nm":           {Flop{{15, gap}, {110, gap}}, 15},
		"angle 1: an angle of 200°": {Flop{{200, gap}, {210, gap}}, 205},
	} {
		if _, err := c.f.At(c.at); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}
