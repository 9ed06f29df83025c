package flatten

import (
	"math"
	"testing"
)

// A bracket of 1 mm sheet, 50 × 30 mm over the outside, square, inside radius
// 1 mm: K = 0.325, allowance π/2 × 1.325 = 2.081, setback 2, so the blank is
// 80 − (4 − 2.081) = 78.081 mm and its fold is marked at 50 − 2 + 1.041.
func TestUnfold_WorkedBracket(t *testing.T) {
	b, err := Unfold([]float64{50, 30}, []Fold{{Angle: math.Pi / 2, Radius: 1}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range [][2]float64{{b.Length, 78.0813}, {b.Lines[0], 49.0407}, {b.Deductions[0], 1.9187}, {b.Bends[0][0], 48}} {
		if math.Abs(v[0]-v[1]) > 1e-4 {
			t.Errorf("got %.4f, want %.4f", v[0], v[1])
		}
	}
}

func TestUnfold_ChannelIsFlangesLessDeductions(t *testing.T) {
	folds := []Fold{{Angle: math.Pi / 2, Radius: 2, K: 0.42}, {Angle: math.Pi / 3, Radius: 3}}
	b, err := Unfold([]float64{20, 40, 25}, folds, 1.2)
	if err != nil {
		t.Fatal(err)
	}
	if want := 85 - folds[0].Deduction(1.2) - folds[1].Deduction(1.2); math.Abs(b.Length-want) > 1e-9 {
		t.Errorf("length %.4f, want %.4f", b.Length, want)
	}
}

func TestNeutral(t *testing.T) {
	for _, c := range []struct{ radius, want float64 }{{1, 0.325}, {5, 0.4997}, {10, 0.5}, {0.01, 0}} {
		if got := Neutral(c.radius, 1); math.Abs(got-c.want) > 1e-3 {
			t.Errorf("radius %g: %g, want %g", c.radius, got, c.want)
		}
	}
}

func TestUnfold_Bad(t *testing.T) {
	square := Fold{Angle: math.Pi / 2, Radius: 1}
	for name, c := range map[string]struct {
		flanges   []float64
		folds     []Fold
		thickness float64
	}{
		"flanges":  {[]float64{10}, []Fold{square}, 1},
		"sheet":    {[]float64{10, 10}, []Fold{square}, 0},
		"hem":      {[]float64{10, 10}, []Fold{{Angle: math.Pi, Radius: 1}}, 1},
		"radius":   {[]float64{10, 10}, []Fold{{Angle: 1}}, 1},
		"neutral":  {[]float64{10, 10}, []Fold{{Angle: 1, Radius: 1, K: 0.7}}, 1},
		"between":  {[]float64{10, 3, 10}, []Fold{square, square}, 1},
		"at start": {[]float64{1, 10}, []Fold{square}, 1},
		"at end":   {[]float64{10, 1}, []Fold{square}, 1},
	} {
		if _, err := Unfold(c.flanges, c.folds, c.thickness); err == nil {
			t.Errorf("%s passed", name)
		}
	}
}
