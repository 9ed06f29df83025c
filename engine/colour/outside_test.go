package colour_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"testing"

	"fettle/engine/colour"
)

// worked returns the rows of a file of figures that an independent program,
// named in docs/engine/colour.md, worked out, the heading left out.
func worked(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// TestDifference_Outside has pairs on both sides of each rule of the hue: grey,
// across the red axis, opposite, in the blue.
func TestDifference_Outside(t *testing.T) {
	for _, row := range worked(t, "ciede2000_own.csv") {
		n := figures(t, row, 0)
		if got := colour.Difference(colour.Lab{L: n[0], A: n[1], B: n[2]}, colour.Lab{L: n[3], A: n[4], B: n[5]}); !near(got, n[6], 1e-6) {
			t.Errorf("%v: %.6f", row, got)
		}
	}
}

// made returns two paints as formulas.
var made = map[string]func(w float64) float64{
	"teal":  func(w float64) float64 { return 0.06 + 0.30*math.Exp(-math.Pow((w-500)/45, 2)) },
	"cream": func(w float64) float64 { return 0.30 + 0.42/(1+math.Exp(-(w-480)/28)) },
}

// TestViewer_OneNanometre compares sums by 10 nm with sums by 1 nm over 360 to 780.
func TestViewer_OneNanometre(t *testing.T) {
	lights := map[string]colour.Light{"D65": colour.D65(), "A": colour.A(), "F11": colour.F11()}
	eyes := map[string]colour.Observer{"2°": colour.Degrees2(), "10°": colour.Degrees10()}
	worst := 0.0
	for _, row := range worked(t, "one_nm.csv") {
		var s colour.Spectrum
		for i := range s {
			s[i] = made[row[0]](float64(colour.Wavelength(i)))
		}
		n := figures(t, row, 3)
		got, want := colour.NewViewer(lights[row[1]], eyes[row[2]]).Lab(s), colour.Lab{L: n[0], A: n[1], B: n[2]}
		off := colour.Difference(got, want)
		if worst = max(worst, off); off > 0.1 {
			t.Errorf("%v: %.3f, which is %.3f off", row, got, off)
		}
	}
	t.Logf("worst %.3f CIEDE2000", worst)
}
