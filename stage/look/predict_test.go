package look_test

import (
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/stage/look"
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
	p := look.Read(&b)
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
// measured, a colour nobody sprayed as drawn, and a paint without a colour none.
func TestFace_SaysWhatItRestsOn(t *testing.T) {
	b := morning(t, october)
	p := look.Read(&b)
	for _, tt := range []struct {
		face look.Face
		want look.Basis
		hex  string
		flop bool
	}{
		{p.Face("base-limewash", "sealer-grey", 0), look.WorkedOut, "#eae6d6", false},
		{p.Face("base-limewash", "", 0), look.Refused, "", false},
		{p.Face("base-limewash", "high-build", 0), look.Refused, "", false},
		{p.Face("base-slackwater", "sealer-black", 0), look.Indication, "#1f4a55", true},
		{p.Face("satin-grey", "epoxy", 0), look.Measured, "#6f7679", false},
		{p.Face("epoxy", "", 0), look.Refused, "", false},
		{p.Drawn("marker-orange"), look.Drawn, "#d9622b", false},
		{p.Drawn("none"), look.Refused, "", false},
	} {
		f := tt.face
		if f.Basis != tt.want || f.Screen(0) != tt.hex || (len(f.Flop) == 3) != tt.flop || (f.Why == "") != (tt.want == look.WorkedOut) {
			t.Errorf("%s over %s: %s %q %s, flop %d; want %s %s", f.Product, f.Over, f.Basis, f.Why, f.Screen(0), len(f.Flop), tt.want, tt.hex)
		}
	}
}

// TestDress_EveryZoneAndEdge: the break line comes first, and under black the
// white is another.
func TestDress_EveryZoneAndEdge(t *testing.T) {
	b := morning(t, october)
	p := look.Read(&b)
	zones := p.Dress(&b)
	if len(zones) != 5 {
		t.Fatalf("%d zones have a colour, want 5", len(zones))
	}
	panels := look.Panels(&b, zones)
	pairs := look.Neighbours(b.Looks[0].Break, zones, panels)
	if len(panels) != 62 || len(pairs) == 0 || zones[pairs[0][0]].Zone != "slackwater" || zones[pairs[0][1]].Zone != "limewash" {
		t.Fatalf("%d panels, neighbours %v", len(panels), pairs)
	}
	e := look.Beside(zones[pairs[0][0]].Face, zones[pairs[0][1]].Face)
	if len(e) != 3 || e[0].Difference < 40 || e[0].Lightness < 55 || e[0].Ratio < 7 {
		t.Errorf("across the break line: %+v", e)
	}
	before := zones[pairs[0][1]].Face
	after := p.Face("base-limewash", "sealer-black", 0)
	if !before.Hidden || after.Hidden || after.ToHide != 6 || after.Screen(0) == before.Screen(0) {
		t.Errorf("over black: %+v", after)
	}
}

// TestChosenStep_MovesThePrediction: the film of the chosen step is what is laid.
func TestChosenStep_MovesThePrediction(t *testing.T) {
	b := morning(t, october)
	before := look.Read(&b).Face("base-limewash", "sealer-black", 0)
	if err := (&build.ChooseStep{Card: "C01", Step: 1}).Apply(&b); err != nil {
		t.Fatal(err)
	}
	p := look.Read(&b)
	coats, film := p.Planned("base-limewash")
	after := p.Face("base-limewash", "sealer-black", 0)
	if coats != 1 || film != 9 || after.Seen[0].Lab.L > before.Seen[0].Lab.L-8 {
		t.Errorf("%d coats of %g µm, from L %.1f to %.1f", coats, film, before.Seen[0].Lab.L, after.Seen[0].Lab.L)
	}
}

// TestFit_FromColours: a card of Lab or of pictures is fitted with a wider error.
func TestFit_FromColours(t *testing.T) {
	b := morning(t, october)
	spectral := look.Read(&b).Face("base-limewash", "sealer-grey", 0)
	b.Cards = append(b.Cards, build.Card{ID: "C09", Product: "base-limewash", Gloss: true, Day: october,
		Grounds: []build.Reading{{Ground: "black", Lab: []float64{26.7, 0, 0}}, {Ground: "white", Lab: []float64{92.6, 0, 0}}},
		Steps: []build.Step{{Coats: 1, Film: 9, Readings: []build.Reading{{Ground: "black", Lab: []float64{78.79, -0.42, 1.95}}, {Ground: "white", Lab: []float64{91.9, -1, 6}}}},
			{Coats: 2, Film: 18, Readings: []build.Reading{{Ground: "black", Lab: []float64{86.1, -0.8, 4.1}}, {Ground: "white", Lab: []float64{91.9, -1, 7.6}}}}}})
	f := look.Read(&b).Face("base-limewash", "sealer-grey", 0)
	if f.Basis != look.WorkedOut || f.Card() != "C09" || f.Seen[0].Within <= spectral.Seen[0].Within {
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
		err := look.CheckCard(&b, c)
		if (err == nil) != (tt.want == "") || err != nil && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.what, err, tt.want)
		}
	}
}
