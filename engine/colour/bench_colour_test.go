package colour_test

import (
	"testing"

	"fettle/engine/colour"
)

// sixty returns made-up spectra of an ordinary spread of colours.
func sixty(tb testing.TB) []colour.Spectrum {
	var list []colour.Spectrum
	for i := range 60 {
		made, err := colour.Reconstruct(colour.LCh{L: 20 + float64(i), C: float64(i % 30), H: float64(i * 47 % 360)}.Lab(), day)
		if err != nil {
			tb.Fatal(err)
		}
		list = append(list, made.Spectrum)
	}
	return list
}

// BenchmarkThreeLights works out Lab and the screen colour of 60 spectra under
// three lights, as a page of a look does.
func BenchmarkThreeLights(b *testing.B) {
	list := sixty(b)
	var views []*colour.Viewer
	for _, l := range []colour.Light{colour.D65(), colour.A(), colour.F11()} {
		views = append(views, colour.NewViewer(l, colour.Degrees10()))
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, v := range views {
			for _, s := range list {
				lab, shown := v.Lab(s), v.Show(s)
				if lab.L < 0 || shown.Colour.R < 0 {
					b.Fatal("no colour")
				}
			}
		}
	}
}

func BenchmarkReconstruct(b *testing.B) {
	b.ReportAllocs()
	steps := 0
	for b.Loop() {
		made, err := colour.Reconstruct(colour.Lab{L: 45, A: -22, B: -10}, day)
		if err != nil {
			b.Fatal(err)
		}
		steps = made.Steps
	}
	b.ReportMetric(float64(steps), "steps")
}

func BenchmarkDifference(b *testing.B) {
	list := colours(100)
	for b.Loop() {
		for i := 1; i < len(list); i++ {
			colour.Difference(list[i-1], list[i])
		}
	}
}

// TestViewer_NoAllocations holds the page's inner loop to no garbage.
func TestViewer_NoAllocations(t *testing.T) {
	v, s := colour.NewViewer(colour.F11(), colour.Degrees10()), colour.Flat(0.3)
	if n := testing.AllocsPerRun(100, func() {
		if v.Lab(s).L < 0 || v.Show(s).Mapped {
			t.Fail()
		}
	}); n != 0 {
		t.Errorf("%g allocations a colour, want none", n)
	}
}
