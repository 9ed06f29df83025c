package sprayout_test

import (
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/takeoff/sprayout"
	"fettle/unit"
)

// morning is the demo build on a day.
func morning(tb testing.TB, day unit.Date) build.Build {
	tb.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		tb.Fatal(err)
	}
	b, err := scenario.Replay(file, day)
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

var october = unit.Day(2026, time.October, 6)

// TestCoats_LimewashOverItsSealers holds the demo's white to what its painter
// found: three coats over light grey, six over black.
func TestCoats_LimewashOverItsSealers(t *testing.T) {
	b := morning(t, october)
	p := sprayout.Read(&b)
	for over, want := range map[build.ProductID]int{"sealer-grey": 3, "sealer-black": 6} {
		got, err := p.ToHide("base-limewash", over)
		if err != nil || got != want {
			t.Errorf("over %s it takes %d coats (%v), want %d", over, got, err, want)
		}
		list, err := p.Coats("base-limewash", over, 7)
		if err != nil {
			t.Fatal(err)
		}
		for i, c := range list {
			if c.Hidden != (c.Coats >= want) || c.Film != float64(9*c.Coats) || c.Within <= 0 || i > 0 && (c.Left >= list[i-1].Left || c.Contrast <= list[i-1].Contrast) {
				t.Errorf("over %s: %+v", over, c)
			}
		}
	}
}

// TestFace_SaysWhatItRestsOn: flakes are an indication, a single stage as
// measured, a colour without paint as named, and a paint without a colour none.
func TestFace_SaysWhatItRestsOn(t *testing.T) {
	b := morning(t, october)
	p := sprayout.Read(&b)
	for _, tt := range []struct {
		face sprayout.Face
		want sprayout.Basis
		hex  string
		flop bool
	}{
		{p.Face("base-limewash", "sealer-grey", 0), sprayout.WorkedOut, "#eae6d6", false},
		{p.Face("base-limewash", "", 0), sprayout.Refused, "", false},
		{p.Face("base-limewash", "high-build", 0), sprayout.Refused, "", false},
		{p.Face("base-slackwater", "sealer-black", 0), sprayout.Indication, "#1f4a55", true},
		{p.Face("satin-grey", "epoxy", 0), sprayout.Measured, "#6f7679", false},
		{p.Face("epoxy", "", 0), sprayout.Refused, "", false},
		{p.Drawn("marker-orange"), sprayout.Named, "#d9622b", false},
		{p.Drawn("none"), sprayout.Refused, "", false},
	} {
		f := tt.face
		if f.Basis != tt.want || f.Screen(0) != tt.hex || (len(f.Flop) == 3) != tt.flop || (f.Why == "") != (tt.want == sprayout.WorkedOut) {
			t.Errorf("%s over %s: %s %q %s, flop %d; want %s %s", f.Product, f.Over, f.Basis, f.Why, f.Screen(0), len(f.Flop), tt.want, tt.hex)
		}
	}
}

// TestChosenStep_MovesThePrediction: the film of the chosen step is what is laid.
func TestChosenStep_MovesThePrediction(t *testing.T) {
	b := morning(t, october)
	before := sprayout.Read(&b).Face("base-limewash", "sealer-black", 0)
	if err := (&build.ChooseStep{Card: "C01", Step: 1}).Apply(&b); err != nil {
		t.Fatal(err)
	}
	p := sprayout.Read(&b)
	coats, film := p.Planned("base-limewash")
	after := p.Face("base-limewash", "sealer-black", 0)
	if coats != 1 || film != 9 || after.Seen[0].Lab.L > before.Seen[0].Lab.L-8 {
		t.Errorf("%d coats of %g µm, from L %.1f to %.1f", coats, film, before.Seen[0].Lab.L, after.Seen[0].Lab.L)
	}
}

// TestFit_FromColours: a card of Lab or of pictures is fitted with a wider error.
func TestFit_FromColours(t *testing.T) {
	b := morning(t, october)
	spectral := sprayout.Read(&b).Face("base-limewash", "sealer-grey", 0)
	b.Cards = append(b.Cards, build.Card{ID: "C09", Product: "base-limewash", Gloss: true, Day: october,
		Grounds: []build.Reading{{Ground: "black", Lab: []float64{26.7, 0, 0}}, {Ground: "white", Lab: []float64{92.6, 0, 0}}},
		Steps: []build.Step{{Coats: 1, Film: 9, Readings: []build.Reading{{Ground: "black", Lab: []float64{78.79, -0.42, 1.95}}, {Ground: "white", Lab: []float64{91.9, -1, 6}}}},
			{Coats: 2, Film: 18, Readings: []build.Reading{{Ground: "black", Lab: []float64{86.1, -0.8, 4.1}}, {Ground: "white", Lab: []float64{91.9, -1, 7.6}}}}}})
	f := sprayout.Read(&b).Face("base-limewash", "sealer-grey", 0)
	if f.Basis != sprayout.WorkedOut || f.Card() != "C09" || f.Seen[0].Within <= spectral.Seen[0].Within {
		t.Errorf("%s by card %s, within %.2f (%.2f by spectra): %s", f.Basis, f.Card(), f.Seen[0].Within, spectral.Seen[0].Within, f.Why)
	}
}

// TestCheckCard_SaysWhatIsWrong names the trouble before a card is kept.
func TestCheckCard_SaysWhatIsWrong(t *testing.T) {
	b := morning(t, october)
	flat := func(ground string, v float64) build.Reading {
		r := build.Reading{Ground: ground, Spectrum: make([]float64, build.Bands)}
		for i := range r.Spectrum {
			r.Spectrum[i] = v
		}
		return r
	}
	for _, tt := range []struct {
		what          string
		black, white  float64
		ground, other string
		want          string
	}{
		{"good", 0.5, 0.7, "black", "white", ""},
		{"black lighter", 0.7, 0.5, "black", "white", "lighter"},
		{"above 1.2", 0.5, 1.3, "black", "white", "1.2"},
		{"a ground nobody read", 0.5, 0.7, "black", "grey", "grey"},
	} {
		c := build.Card{ID: "X", Product: "base-limewash", Grounds: []build.Reading{flat("black", 0.05), flat("white", 0.82)},
			Steps: []build.Step{{Coats: 1, Film: 9, Readings: []build.Reading{flat(tt.ground, tt.black), flat(tt.other, tt.white)}}}}
		err := sprayout.CheckCard(&b, c)
		if (err == nil) != (tt.want == "") || err != nil && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.what, err, tt.want)
		}
	}
}
