package paint_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/stage/paint"
)

// TestThickness_OfTheDemo: what the gauge read on epoxy and on clear.
func TestThickness_OfTheDemo(t *testing.T) {
	b, _ := asOf(t, "2027-01-12T08:00")
	if len(b.Films) != 5 {
		t.Fatalf("%d sets of readings, want 5", len(b.Films))
	}
	for _, f := range b.Films {
		got, err := paint.ThicknessOf(b, f)
		if err != nil || len(got.Wrong) > 0 || got.Whole || got.Figure.Text == "" {
			t.Errorf("%s: %v, %+v", f.ID, err, got)
		}
		if got.Clear != (f.Product == "clear") || got.Clear && (got.Least != 40 || got.Polish < 14) {
			t.Errorf("%s: clear %v, least %g, polish %g", f.ID, got.Clear, got.Least, got.Polish)
		}
	}
}

func TestThickness_ByHand(t *testing.T) {
	b, now := asOf(t, "2027-01-12T08:00")
	for name, c := range map[string]struct {
		film  build.Film
		wrong string
		left  float64
	}{
		"clear polished too far":  {build.Film{Product: "clear", Under: 150, Dry: []float64{210, 186, 205}}, "thinnest 36 µm, 4 under the least of 40", 0},
		"clear with little left":  {build.Film{Product: "clear", Under: 150, Dry: []float64{210, 198}}, "", 8},
		"clear too thick":         {build.Film{Product: "clear", Under: 150, Dry: []float64{230, 210}}, "over the most of 76", 20},
		"all of it, strip first":  {build.Film{Product: "clear", Dry: []float64{320}}, "over 305", 0},
		"all of it, as it should": {build.Film{Product: "clear", Dry: []float64{214}}, "", 0},
	} {
		c.film.Panel, c.film.Zone, c.film.At = "P37", "limewash", now
		got, err := paint.ThicknessOf(b, c.film)
		if err != nil || got.Polish != c.left || (c.wrong == "") != (len(got.Wrong) == 0) || !strings.Contains(strings.Join(got.Wrong, "; "), c.wrong) {
			t.Errorf("%s: %v, left %g, %q; want left %g, %q", name, err, got.Polish, got.Wrong, c.left, c.wrong)
		}
	}
	if _, err := paint.ThicknessOf(b, build.Film{Panel: "P37", Product: "clear", Under: 150, Dry: []float64{120}}); err == nil {
		t.Error("a layer thinner than nothing is taken")
	}
}

// FuzzPlanDay_Sets: whatever is typed as a set is planned or refused, never worse.
func FuzzPlanDay_Sets(f *testing.F) {
	for _, s := range []string{"limewash", "P37 P38", "p37,P38;P39", "wheels", "P99", "", " ", "jamb jamb", "\x00"} {
		f.Add(s)
	}
	b, _ := asOf(f, "2027-01-06T15:30")
	f.Fuzz(func(t *testing.T, text string) {
		a := body(t)
		a.Goes = []paint.Go{{Product: "base-limewash", Sets: []string{text}}}
		if d, err := paint.PlanDay(b, a); err == nil && (len(d.Sets) == 0 || len(d.Sheet.Lines) == 0) {
			t.Errorf("%q: an empty day", text)
		}
	})
}

// BenchmarkBadges is what the front page asks for at every look.
func BenchmarkBadges(b *testing.B) {
	build, now := asOf(b, "2027-01-08T08:00")
	for b.Loop() {
		if n := len(paint.Badges(build, now)); n == 0 {
			b.Fatal("no badge")
		}
	}
}
