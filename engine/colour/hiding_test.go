package colour

import (
	"math"
	"strings"
	"testing"
)

func TestHidingFilm(t *testing.T) {
	v := NewViewer(D65(), Degrees10())
	chart := Chart{White: Flat(0.8)}
	for _, c := range []struct{ k, s, want float64 }{{.001, .08, 97.1}, {.01, .05, 63.1}, {.05, .05, 29.3}, {.2, .02, 15.5}, {.005, .01, 209.6}} {
		p := Paint{K: Flat(c.k), S: Flat(c.s)}
		got, err := chart.HidingFilm(v, p)
		flat, err2 := FlatHiding(c.k, c.s, 0, 0.8)
		if err != nil || err2 != nil || math.Abs(got/c.want-1) > 0.005 || math.Abs(got/flat-1) > 1e-6 {
			t.Errorf("K %g S %g: X98 %.3f, one band %.3f, want %.1f; %v %v", c.k, c.s, got, flat, c.want, err, err2)
		}
		if cr := chart.Contrast(v, Layer{p, got}); math.Abs(cr-FullHiding) > 1e-8 {
			t.Errorf("contrast at X98 is %.9f", cr)
		}
	}
	if n := CoatsFor(63.1, 9); n != 8 {
		t.Errorf("63.1 µm in coats of 9: %d", n)
	}
	if n := CoatsFor(27, 9); n != 3 {
		t.Errorf("27 µm in coats of 9: %d", n)
	}
}

func TestHidingRefuses(t *testing.T) {
	v := NewViewer(D65(), Degrees10())
	chart := Chart{White: Flat(0.8)}
	flakes := Paint{K: Flat(0.1), S: Flat(0.1), Finish: Metallic}
	for want, p := range map[string]Paint{"it is": {}, "no prediction for a metallic film": flakes, "K is -1": {K: Flat(-1)}} {
		if _, err := chart.HidingFilm(v, p); err == nil || !strings.Contains(err.Error()+hint(err), want) {
			t.Errorf("got %v, want %q", err, want)
		}
	}
	if _, err := FlatHiding(math.NaN(), 1, 0, 1); err == nil {
		t.Error("NaN is taken for K")
	}
	bad := chart
	bad.Black[3] = math.NaN()
	if _, err := bad.HidingFilm(v, paints()[0]); err == nil {
		t.Error("a ground with a gap is taken")
	}
}
