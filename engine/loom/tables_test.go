package loom

import (
	"math"
	"testing"
)

func near(t *testing.T, name string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*math.Abs(want)) {
		t.Errorf("%s = %.6g, want %.6g", name, got, want)
	}
}

// TestConductors holds tables to closed forms and to values worked elsewhere.
func TestConductors(t *testing.T) {
	near(t, "copper at 100 °C", Conductor{MilliOhmPerM: 1000}.Ohms(1, 100), 1.3144, 1e-9)
	near(t, "k of PVC 70", Adiabatic(70, 160), 115, 0.002)
	near(t, "k of PVC 90", Adiabatic(90, 160), 100, 0.002)
	near(t, "k of XLPE 90", Adiabatic(90, 250), 143, 0.002)
	near(t, "AWG 16", GaugeMM2(16), 1.309, 0.001)
	near(t, "AWG 2/0", GaugeMM2(-1), 67.431, 0.001)
	for _, c := range Cables() {
		for i, s := range c.Sizes {
			if i > 0 && (s.MM2 <= c.Sizes[i-1].MM2 || s.Amps <= c.Sizes[i-1].Amps || s.MilliOhmPerM >= c.Sizes[i-1].MilliOhmPerM) {
				t.Errorf("%s: %s does not follow %s", c.Name, s.Name, c.Sizes[i-1].Name)
			}
		}
		near(t, "k of "+c.Name, c.K, Adiabatic(c.MaxC, map[float64]float64{105: 160, 85: 160, 125: 250}[c.MaxC]), 0.002)
	}
	for _, s := range thinWall().Sizes {
		if s.MM2 <= 10 {
			near(t, "free air of "+s.Name, FreeAir(s.MM2), s.Amps, 0.0195)
		}
	}
	near(t, "AWG 16, mΩ/m", awg().Sizes[3].MilliOhmPerM, 13.438, 0.001)
}

// TestBundleFactor holds the table's own points, and that more wires or more
// load never raise it.
func TestBundleFactor(t *testing.T) {
	for _, c := range []struct {
		n           int
		share, want float64
	}{{1, 1, 1}, {5, 0.2, 0.875}, {5, 1, 0.61}, {10, 0.2, 0.755}, {10, 1, 0.465}, {19, 0.2, 0.625}, {19, 1, 0.3425}, {10, 0.3, (0.755 + 0.6225) / 2}, {5, 0.05, 0.875}, {76, 1, 0.3425 / 2}} {
		near(t, "bundle", BundleFactor(c.n, c.share), c.want, 1e-9)
	}
	for n := 1; n < 60; n++ {
		for s := 0.0; s <= 1; s += 0.05 {
			if BundleFactor(n+1, s) > BundleFactor(n, s) || BundleFactor(n, s+0.05) > BundleFactor(n, s) {
				t.Fatalf("the factor rises at %d wires, %.2f", n, s)
			}
		}
	}
}

// TestCurve holds windows at their points, between and beyond.
func TestCurve(t *testing.T) {
	blade := Curves()[0]
	for _, c := range []struct{ multiple, longest float64 }{{1.1, math.Inf(1)}, {1.3, math.Inf(1)}, {1.35, 1800}, {2, 5}, {6, 0.1}, {60, 0.1}, {math.Sqrt(2 * 3.5), math.Sqrt(5 * 0.5)}, {1.9, 8.48}} {
		if got := blade.Longest(c.multiple); got != c.longest && !(math.Abs(got/c.longest-1) < 0.002) {
			t.Errorf("at %g × it opens within %g s, want %g", c.multiple, got, c.longest)
		}
	}
	if blade.Shortest(1) != math.Inf(1) || blade.Shortest(2) != 0.15 {
		t.Errorf("holds %g s at 1 ×, %g s at 2 ×", blade.Shortest(1), blade.Shortest(2))
	}
	heat, _ := blade.LetThrough(10, 358, 1918) // held at 0.1 s it would be 12 816
	near(t, "let through beyond the table", heat, 360, 1e-9)
	near(t, "cold 10 A", blade.Ohms(10, false), 0.0077, 1e-9)
	near(t, "drop at 15 A", 15*blade.Ohms(15, true), 0.12, 0.002)
	if blade.Colour(7.5) != "brown" || blade.Colour(8) != "" {
		t.Error("colours of fuses are mixed up")
	}
}

// TestShortCircuit works the two examples of a feed of 0.5 mm²: 3 m behind 10 A
// is safe, 6 m hot behind 20 A burns first.
func TestShortCircuit(t *testing.T) {
	for _, c := range []struct {
		metres, fuse, celsius float64
		ohms, amps, heat      float64
		passes                bool
	}{{3, 10, 20, 0.140, 90, 813, true}, {6, 20, 105, 0.331, 38, 12300, false}} {
		blade := Curves()[0]
		wire := thinWall().Sizes[0]
		loop := 5.4/500 + wire.Ohms(c.metres, c.celsius) + blade.Ohms(c.fuse, false) + 0.005
		amps := 12.6 / loop
		bears := math.Pow(thinWall().K*wire.MM2, 2)
		heat, seconds := blade.LetThrough(c.fuse, amps, bears)
		near(t, "loop", loop, c.ohms, 0.005)
		near(t, "amps", amps, c.amps, 0.005)
		near(t, "heat", heat, c.heat, 0.02)
		near(t, "bears", bears, 1918, 0.001)
		if passes := heat <= bears && seconds <= 5; passes != c.passes {
			t.Errorf("%g m behind %g A passes: %v", c.metres, c.fuse, passes)
		}
	}
}

// TestPulse holds the heat of a filament's pulse to a sum over small steps.
func TestPulse(t *testing.T) {
	const amps, peak, seconds = 4.0, 10.0, 0.004
	tau, sum, step := seconds/math.Log(peak-1), 0.0, 1e-7
	for at := step / 2; at < 30*tau; at += step {
		i := amps * (1 + (peak-1)*math.Exp(-at/tau))
		sum += (i*i - amps*amps) * step
	}
	near(t, "pulse", pulse(amps, peak, seconds), sum, 1e-5)
	near(t, "at twice", 1+(peak-1)*math.Exp(-seconds/tau), 2, 1e-9)
}

// TestColours converts between both codes.
func TestColours(t *testing.T) {
	for text, want := range map[string][3]string{
		"U/R": {"U/R", "BURD", "blue/red"}, "BURD": {"U/R", "BURD", "blue/red"}, "N": {"N", "BN", "brown"}, "GN": {"G", "GN", "green"}, "g/n": {"G/N", "GNBN", "green/brown"},
		"LG/P": {"LG/P", "", "light green/violet"}, "TQ": {"", "TQ", "turquoise"}, "W/P": {"W/P", "WHVT", "white/violet"},
	} {
		c, err := ReadColour(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		au7, _ := c.AU7()
		iec, _ := c.IEC()
		if got := [3]string{au7, iec, c.String()}; got != want {
			t.Errorf("%s reads %q, want %q", text, got, want)
		}
	}
	for _, text := range []string{"", "X", "U/", "/", "Ü"} {
		if c, err := ReadColour(text); err == nil {
			t.Errorf("%q reads %v", text, c)
		}
	}
	for text := range CircuitColours() {
		if _, err := ReadColour(text); err != nil {
			t.Error(err)
		}
	}
}

func TestTerminals(t *testing.T) {
	seen := map[string]bool{}
	for _, one := range Terminals() {
		if seen[one.Number] || one.Says == "" || one.Group == "" {
			t.Errorf("%+v stands twice or says nothing", one)
		}
		seen[one.Number] = true
	}
	if len(seen) != 85 {
		t.Errorf("%d terminals, want 85", len(seen))
	}
	for old, list := range OldTerminals() {
		for _, number := range list {
			if !seen[number] {
				t.Errorf("%s became %s, which is not there", old, number)
			}
		}
	}
}
