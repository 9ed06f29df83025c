package colour_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"fettle/engine/colour"
)

// published returns the rows of a file of published figures, the heading left
// out, as they lie beside the checkout; without them the test is skipped.
func published(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "..", "shared", "data", "colour", name))
	if err != nil {
		t.Skipf("no published figures beside the checkout: %v", err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	return rows[1:]
}

// figures returns the cells of a row from a column on as numbers.
func figures(t *testing.T, row []string, from int) []float64 {
	t.Helper()
	var list []float64
	for _, cell := range row[from:] {
		v, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, v)
	}
	return list
}

func near(a, b, by float64) bool { return math.Abs(a-b) <= by }

func TestDifference_PublishedPairs(t *testing.T) {
	rows := published(t, "ciede2000_sharma34.csv")
	if len(rows) != 34 {
		t.Fatalf("%d pairs, want 34", len(rows))
	}
	for _, row := range rows {
		n := figures(t, row, 1)
		a, b := colour.Lab{L: n[0], A: n[1], B: n[2]}, colour.Lab{L: n[3], A: n[4], B: n[5]}
		if got := colour.Difference(a, b); !near(got, n[6], 0.00005000001) {
			t.Errorf("pair %s: %.5f, want %.4f", row[0], got, n[6])
		}
	}
}

// patches returns the reflectances of the 24 patches, in the order of the chart.
func patches(t *testing.T) []colour.Spectrum {
	t.Helper()
	list := make([]colour.Spectrum, 24)
	for i, row := range published(t, "colorchecker24_reflectance_10nm.csv") {
		for p, v := range figures(t, row, 1) {
			list[p][i] = v
		}
	}
	return list
}

func TestViewer_ChartPatches(t *testing.T) {
	v, list := colour.NewViewer(colour.D65(), colour.Degrees2()), patches(t)
	worst := 0.0
	for i, row := range published(t, "colorchecker24_xyz_lab_d65_2deg_expected.csv") {
		want, c, l := figures(t, row, 2), v.XYZ(list[i]), v.Lab(list[i])
		for k, got := range []float64{c.X, c.Y, c.Z, l.L, l.A, l.B} {
			worst = max(worst, math.Abs(got-want[k]))
		}
	}
	if worst > 0.01 {
		t.Errorf("worst of XYZ and Lab strays by %.4f, want at most 0.01", worst)
	}
	t.Logf("worst of XYZ and Lab strays by %.5f", worst)
}

// TestViewer_Weights puts single bands of reflectance before the viewers: what
// comes back, over that of another band, is light times observer there.
func TestViewer_Weights(t *testing.T) {
	light := map[string][]float64{}
	for _, row := range published(t, "d65_10nm.csv") {
		light[row[0]] = figures(t, row, 1)
	}
	for _, c := range []struct {
		file string
		eye  colour.Observer
	}{{"cie1931_2deg_10nm.csv", colour.Degrees2()}, {"cie1964_10deg_5nm.csv", colour.Degrees10()}} {
		bars, sum := map[string][]float64{}, 0.0
		for _, row := range published(t, c.file) {
			bars[row[0]] = figures(t, row, 1)
		}
		for i := range colour.Bands {
			w := strconv.Itoa(colour.Wavelength(i))
			sum += light[w][0] * bars[w][1]
		}
		v := colour.NewViewer(colour.D65(), c.eye)
		for i := range colour.Bands {
			w, one := strconv.Itoa(colour.Wavelength(i)), colour.Spectrum{}
			one[i] = 1
			got, k := v.XYZ(one), 100/sum*light[w][0]
			if !near(got.X, k*bars[w][0], 1e-6) || !near(got.Y, k*bars[w][1], 1e-6) || !near(got.Z, k*bars[w][2], 1e-6) {
				t.Errorf("%s at %s nm: %v, want %.6f × %v", v.Name, w, got, k, bars[w])
			}
		}
	}
}

// TestReconstruct_Chart forgets all but the daylight colour of each patch,
// makes a spectrum up, and looks at both under other lights.
func TestReconstruct_Chart(t *testing.T) {
	day := colour.NewViewer(colour.D65(), colour.Degrees2())
	list := patches(t)
	for _, l := range []colour.Light{colour.A(), colour.F11()} {
		under, held, worst, sum := colour.NewViewer(l, colour.Degrees2()), 0, 0.0, 0.0
		for _, s := range list {
			made, err := colour.Reconstruct(day.Lab(s), day)
			if err != nil {
				t.Fatal(err)
			}
			off := colour.Difference(under.Lab(s), under.Lab(made.Spectrum))
			if off <= made.Doubt(under) {
				held++
			}
			worst, sum = max(worst, off), sum+off
			t.Logf("%s: off %.2f, doubt %.2f", l.Name, off, made.Doubt(under))
		}
		if held < 21 {
			t.Errorf("under %s the doubt held in %d of 24, want 21 at least", l.Name, held)
		}
		t.Logf("under %s: mean %.2f, worst %.2f, doubt held in %d of 24", l.Name, sum/24, worst, held)
	}
}
