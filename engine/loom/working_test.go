package loom

import (
	"strings"
	"testing"
)

// TestWorking: the rule that decided is told with what the next smaller size
// would do, and the numbers with where they are from.
func TestWorking(t *testing.T) {
	p := tail()
	p.wire("t2").DropV = 0.05
	p.wire("s2").Section = "4.0"
	p.Fuses[1].Amps = 30
	r := solved1(t, p)
	for id, want := range map[string][]string{
		"t1": {"fuse decides: with 4.0 mm² 27.3 A < fuse 30 A (with a fuse of its own of 20 A, 2.5 mm² would do)"},
		"s2": {"the size is fitted", "fuse F2 5 A against 27.3 A"},
		"b2": {"fuse main 40 A against"},
		"h2": {"5.45 A", "short circuit", "F3, open in ≤"},
	} {
		for _, part := range want {
			if with := r.run(id).Working.With; !strings.Contains(with, part) {
				t.Errorf("%s: %q is not in %q", id, part, with)
			}
		}
	}
	for _, in := range r.run("t2").Working.Inputs {
		if in.Source == "" || in.Value == "" {
			t.Errorf("%s comes from nowhere", in.Name)
		}
	}
}

// TestSlowFuse: a fuse that opens after the formula's five seconds is told as
// slow, not as burning.
func TestSlowFuse(t *testing.T) {
	p := tail()
	p.Fuses[0].Amps = 120
	p.wire("b2").Section = "70"
	found := false
	for _, f := range solved1(t, p).Flaws {
		found = found || f.Place == "wire b2"
		if f.Place == "wire b2" && (f.Kind != BigFuse || !strings.Contains(f.Does, "too slow") || strings.Contains(f.Does, "hurt") || !strings.Contains(f.Remedy, "faster fuse")) {
			t.Errorf("%+v", f)
		}
	}
	if !found {
		t.Error("120 A before 70 mm² is not told")
	}
}
