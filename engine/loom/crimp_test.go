package loom

import (
	"math"
	"testing"
)

// TestLeastPull: the sizes of the table, and straight between them.
func TestLeastPull(t *testing.T) {
	for mm2, want := range map[float64]float64{0.326: 35.6, 0.823: 89, 2.08: 222.5, 0.163: 17.8, 200: 1235, (1.31 + 2.08) / 2: 178} {
		if got := LeastPull(mm2); math.Abs(got-want) > 0.01 {
			t.Errorf("LeastPull(%g) = %g, want %g", mm2, got, want)
		}
	}
}

// TestThroughLamp: lamp and load carry the same, their volts add up, and a dead
// short leaves the lamp all of them.
func TestThroughLamp(t *testing.T) {
	for _, ohms := range []float64{0.001, 0.5, 1.575, 12, 400} {
		lamp, amps := ThroughLamp(ohms, 12.6, 12)
		if math.Abs(amps*ohms+lamp-12.6) > 1e-6 || math.Abs(amps-21./12*math.Pow(lamp/12, 0.55)) > 1e-9 {
			t.Errorf("%g Ω: %.4f V and %.4f A", ohms, lamp, amps)
		}
	}
	if lamp, amps := ThroughLamp(1e-9, 12.6, 12); math.Abs(lamp-12.6) > 1e-6 || math.Abs(amps-1.797) > 0.001 {
		t.Errorf("a short circuit: %.3f V, %.3f A", lamp, amps)
	}
}
