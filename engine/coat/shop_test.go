package coat_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/coat"
	"fettle/figure"
)

// TestCups_OfTheTrade is the table of cups in docs/engine/coat.md.
func TestCups_OfTheTrade(t *testing.T) {
	for _, tt := range []struct {
		cup           string
		seconds, want float64
		by            float64
	}{
		{"Ford 4", 18, 52, 0.5}, {"DIN 4 mm", 18, 57, 0.5}, {"ISO 4 mm", 40, 50, 0.5},
		{"Zahn 1", 40, 12.1, 1e-9}, {"Zahn 2", 20, 21, 1e-9}, {"Zahn 3", 20, 146.25, 1e-9}, {"Ford 2", 30, 17.28, 1e-9},
	} {
		c, err := coat.CupNamed(tt.cup)
		good(t, err)
		got, err := c.Viscosity(tt.seconds)
		good(t, err)
		near(t, tt.cup, got, tt.want, tt.by)
	}
	for _, c := range coat.Cups() {
		last := 0.0
		for s := c.From; s <= c.To; s++ {
			v, err := c.Viscosity(s)
			good(t, err)
			back, err := c.Seconds(v)
			good(t, err)
			near(t, c.Name+" there and back", back, s, 1e-9)
			if v <= last {
				t.Errorf("%s: %g mm²/s at %g s, %g before", c.Name, v, s, last)
			}
			last = v
		}
		_, err := c.Viscosity(c.From - 1)
		refused(t, c.Name, err, "another hole")
		_, err = c.Seconds(1e5)
		refused(t, c.Name, err, "another hole")
	}
	_, err := coat.CupNamed("tea")
	refused(t, "tea", err, "no cup known")
}

func TestGradeFor(t *testing.T) {
	for metal, want := range map[float64]string{16: "fast", 18: "fast", 19.4: "fast", 19.5: "fast", 19.6: "standard", 22: "standard", 25.6: "slow", 32: "slow"} {
		g, err := coat.GradeFor(coat.DefaultGrades(), metal)
		between := metal != math.Trunc(metal)
		if g.Name != want || err != nil || between != strings.Contains(g.Note, "between two grades") || !between && g.Note != "" {
			t.Errorf("%g °C: %+v, %v, want %s", metal, g, err, want)
		}
	}
	edge := []coat.Grade{{Name: "quick", From: 10, To: 22}, {Name: "slow", From: 20, To: 35}}
	if g, err := coat.GradeFor(edge, 21); g.Name != "quick" || err != nil || !strings.Contains(g.Note, "2 grades hold") {
		t.Errorf("overlap: %+v, %v", g, err)
	}
	for _, metal := range []float64{15.9, 32.1, math.NaN()} {
		_, err := coat.GradeFor(coat.DefaultGrades(), metal)
		refused(t, "outside all", err, "bring the metal")
	}
	_, err := coat.GradeFor(nil, 20)
	refused(t, "none", err, "no grades")
	_, err = coat.GradeFor([]coat.Grade{{Name: "x", From: 30, To: 20}}, 25)
	refused(t, "reversed", err, "lower temperature first")
}

// TestRustLimit_OfTheTrade is the clock of bare steel in docs/engine/coat.md.
func TestRustLimit_OfTheTrade(t *testing.T) {
	for _, tt := range []struct{ metal, air, rh, want float64 }{
		{20, 20, 40, 8}, {20, 20, 49.9, 8}, {20, 20, 50, 4}, {20, 20, 70, 4}, {22, 20, 75, 2}, {24, 20, 85, 2}, {28, 20, 86, 0},
		{13.5, 17, 72, 0}, // 1.6 °C over the dew point
	} {
		got, err := coat.RustLimit(tt.metal, tt.air, tt.rh)
		good(t, err)
		near(t, "hours bare", got, tt.want, 0)
	}
}

func TestBareSince(t *testing.T) {
	back := day(t, "2026-10-05T16:00")
	b, err := coat.BareSince(back, []coat.Damp{{2, 18, 18, 45}, {1, 18, 18, 60}})
	good(t, err)
	near(t, "used", b.Used, 0.5, 1e-12)
	near(t, "left", b.Left, 2, 1e-12)
	if b.By != back+300 || !strings.Contains(b.Words, "2.0 h") {
		t.Errorf("bare: %+v", b)
	}
	wet, err := coat.BareSince(back, []coat.Damp{{0.5, 18, 18, 90}, {0, 18, 18, 40}})
	if good(t, err); wet.Left != 0 || !strings.Contains(wet.Words, "over") {
		t.Errorf("after half an hour at 90 %%: %+v", wet)
	}
	dry, err := coat.BareSince(back, []coat.Damp{{0, 18, 18, 90}})
	if good(t, err); !strings.Contains(dry.Words, "do not blast") {
		t.Errorf("before blasting at 90 %%: %+v", dry)
	}
	_, err = coat.BareSince(back, nil)
	refused(t, "no air", err, "read air")
	_, err = coat.BareSince(back, []coat.Damp{{1, 18, 18, 4500}})
	refused(t, "typing", err, "was 45 % meant?")
}

func TestMeasure(t *testing.T) {
	f, err := coat.Measure([]float64{48, 52, 66})
	good(t, err)
	near(t, "mean", f.Mean, 166.0/3, 1e-9)
	near(t, "spread", f.Spread, 9.4516, 1e-4)
	if got := f.Against(51, 64); len(got) != 2 || got[0] != "thinnest 48 µm, 3 under the least of 51" {
		t.Errorf("against the clear's bounds: %q", got)
	}
	near(t, "polish left", f.PolishLeft(0), 8, 1e-9)
	thick, err := coat.Between([]float64{100, 110}, []float64{190, 180})
	good(t, err)
	near(t, "layer, low", thick.Low, 70, 0)
	near(t, "no more than 20 of it", thick.PolishLeft(12), 8, 1e-9)
	near(t, "nothing under 40", coat.Film{Low: 39}.PolishLeft(0), 0, 0)
	_, err = coat.Between([]float64{100}, []float64{90})
	refused(t, "thinner", err, "cannot make the film thinner")
	_, err = coat.Between([]float64{100}, nil)
	refused(t, "places", err, "same places")
	_, err = coat.Measure(nil)
	refused(t, "none", err, "no readings")
	for _, l := range coat.Layers() {
		if l.Least > l.Most || l.CoatLeast > l.CoatMost || l.CoatsLeast > l.CoatsMost || l.Least > l.CoatMost*float64(l.CoatsMost) {
			t.Errorf("layer %+v does not hold together", l)
		}
	}
}

// TestTransfer_ByHand: 1 kg at 1.25 kg/l are 0.8 l, of 50 % solids 400 ml dry;
// 4 m² at 60 µm keep 240 ml.
func TestTransfer_ByHand(t *testing.T) {
	w := coat.Weighed{Before: 1500, After: 500, Density: 1.25, Solids: 50, Area: 4, Film: 60}
	got, err := w.Transfer()
	good(t, err)
	near(t, "transfer", got, 0.6, 1e-12)
	need, err := coat.Need{Area: 4, Film: 60, Solids: 50, Transfer: got}.Litres()
	good(t, err)
	near(t, "and back", need.AtGun, 0.8, 1e-12)
	w.Film = 200
	_, err = w.Transfer()
	refused(t, "more than left", err, "more cannot arrive")
	w.After = 1600
	_, err = w.Transfer()
	refused(t, "gains", err, "does not gain")
	w.After, w.Purge = 500, 0.8
	_, err = w.Transfer()
	refused(t, "all purge", err, "nothing was sprayed")
}

// TestLearnTransfer: ten records count as much as the default.
func TestLearnTransfer(t *testing.T) {
	l, err := coat.LearnTransfer(0.60, nil)
	if good(t, err); l.Value != 0.60 || l.Input.Source != figure.TradeDefault {
		t.Errorf("without records: %+v", l)
	}
	own := []float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5}
	l, err = coat.LearnTransfer(0.60, own)
	good(t, err)
	near(t, "half way", l.Value, 0.55, 1e-12)
	near(t, "own mean", l.Own, 0.5, 1e-12)
	if l.N != 10 || l.Input.Source != figure.OwnPast || !strings.Contains(l.Input.Note, "n = 10") {
		t.Errorf("with ten: %+v", l)
	}
	_, err = coat.LearnTransfer(60, nil)
	refused(t, "percent", err, "written 0.60")
	for _, g := range coat.Guns() {
		if !(g.Low > 0 && g.Low < g.High && g.High < 1) {
			t.Errorf("gun %+v", g)
		}
	}
}

func TestWarming(t *testing.T) {
	curve := func(from, to, air float64) coat.WarmUp {
		return coat.WarmUp{From: from, To: to, Air: air, Minutes: 80 * math.Log((air-from)/(air-to))}
	}
	w, err := coat.FitWarming([]coat.WarmUp{curve(8, 16, 24), curve(12, 18, 22), curve(13.5, 16, 25)})
	good(t, err)
	near(t, "tau", w.Tau, 80, 1e-9)
	near(t, "miss", w.Error, 0, 1e-9)
	r, err := w.Reach(13.5, 16, 24)
	good(t, err)
	near(t, "13.5 to 16", r.Minutes, 80*math.Log(10.5/8), 1e-9)
	near(t, "a quarter less while there are few", r.Low, 0.75*r.Minutes, 1e-9)
	near(t, "a quarter more", r.High, 1.25*r.Minutes, 1e-9)
	if !r.Known || !strings.Contains(r.Words, "3 warm-ups") {
		t.Errorf("reach: %+v", r)
	}
	if r, err = w.Reach(13.5, 16, 16); err != nil || r.Known || !strings.Contains(r.Words, "turn it up") {
		t.Errorf("air too cold: %+v, %v", r, err)
	}
	line, err := coat.FitWarming([]coat.WarmUp{{From: 10, To: 16, Air: 15, Minutes: 120}})
	good(t, err)
	near(t, "3 °C an hour", line.Rate, 3, 1e-9)
	if r, err = line.Reach(13, 16, 20); err != nil || r.Minutes != 60 || !strings.Contains(r.Words, "one warm-up") {
		t.Errorf("by the line: %+v, %v", r, err)
	}
	none, err := coat.FitWarming(nil)
	good(t, err)
	if r, err = none.Reach(13.5, 16, 24); err != nil || r.Known || r.Minutes != 0 || !strings.Contains(r.Words, "no warm-up on record") {
		t.Errorf("without a record: %+v, %v", r, err)
	}
	if r, err = none.Reach(16, 16, 24); err != nil || !r.Known {
		t.Errorf("there already: %+v, %v", r, err)
	}
	_, err = coat.FitWarming([]coat.WarmUp{{From: 16, To: 12, Air: 20, Minutes: 10}})
	refused(t, "cooling", err, "half a degree warmer")
}

// TestAirToDilute_OfTheTrade is a US gallon of toluene, as in docs/engine/coat.md.
func TestAirToDilute_OfTheTrade(t *testing.T) {
	got, err := coat.AirToDilute(1, 30.4, 1.4)
	good(t, err)
	near(t, "ft³", got, 8564, 0.5)
	_, err = coat.AirToDilute(1, 30.4, 0)
	refused(t, "no limit", err, "toluene 1.4 %")
	v, err := coat.Velocity(3600, 2)
	good(t, err)
	near(t, "m/s", v, 0.5, 1e-12)
}

func TestMayEnter(t *testing.T) {
	e, err := coat.MayEnter(day(t, "2027-01-08T11:40"), 4.5)
	if good(t, err); e.From != day(t, "2027-01-08T11:45") || !strings.Contains(e.Words, "enter from 11:45") {
		t.Errorf("entry: %+v", e)
	}
	_, err = coat.MayEnter(0, 0)
	refused(t, "not measured", err, "measure it with smoke")
	if c := coat.Cautions(true); len(c) != 4 || !strings.Contains(c[0], "isocyanates") {
		t.Errorf("cautions: %q", c)
	}
}

// TestFillerFor: 0.12 m² at 2 mm of 1.2 kg/l with 60 % sanded away is 720 g and
// 14.4 g of paste.
func TestFillerFor(t *testing.T) {
	f, err := coat.FillerFor(0.12, 2, 1.2, 0.6, 0, 20)
	good(t, err)
	near(t, "filler", f.Mixed, 720, 1e-9)
	near(t, "paste", f.Hardener, 14.4, 1e-9)
	near(t, "pot", f.Pot, 3, 1e-9)
	for holds, do := range map[string]func() (coat.Filler, error){
		"beat the metal out": func() (coat.Filler, error) { return coat.FillerFor(0.1, 6.5, 1.2, 0.6, 2, 20) },
		"warm the panel":     func() (coat.Filler, error) { return coat.FillerFor(0.1, 2, 1.2, 0.6, 2, 15.5) },
		"stays soft":         func() (coat.Filler, error) { return coat.FillerFor(0.1, 2, 1.2, 0.6, 4, 20) },
	} {
		_, err := do()
		refused(t, holds, err, holds)
	}
}
