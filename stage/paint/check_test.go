package paint_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/rates"
	"fettle/stage/paint"
	"fettle/takeoff"
	"fettle/unit"
)

// on returns the demo as the shop found it on a day.
func on(t testing.TB, month time.Month, day int) build.Build {
	t.Helper()
	year := 2026
	if month < time.June {
		year = 2027
	}
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, unit.Day(year, month, day))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func after(t testing.TB, b build.Build, changes ...build.Change) build.Build {
	t.Helper()
	b, err := build.ApplyAll(b, changes)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// check returns the check whose ID begins so, or nothing.
func check(b build.Build, id string) takeoff.Check {
	for _, c := range (paint.Stage{}).TakeOff(&b, rates.Default()).Checks {
		if strings.HasPrefix(c.ID, id) {
			return c
		}
	}
	return takeoff.Check{}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s = %.3f, want %.3f ± %.3f", what, got, want, within)
	}
}

// TestSession_FourLooseDoors is the third moment: four doors in Slackwater.
func TestSession_FourLooseDoors(t *testing.T) {
	b := on(t, time.January, 5)
	m, err := paint.Session(&b, "base-slackwater", []build.PanelID{"P11", "P12", "P58", "P59"}, nil, 3, rates.Default())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", m.Area.M2(), 1.72, 1e-9)
	near(t, "through the gun", m.Sprayed.L(), 0.37, 0.005)
	near(t, "purge", m.Purge.L(), 0.20, 1e-9)
	near(t, "ready to spray", m.Volume.L(), 0.57, 0.005)
	near(t, "colour", m.Parts[0].Volume.L(), 0.32, 0.005)
	near(t, "reducer", m.Parts[1].Volume.L(), 0.25, 0.005)
	near(t, "the whole job", m.Job.L(), 1.24, 0.005)
	near(t, "left of it", m.After.L(), 1.24-0.32, 0.005)
	near(t, "still without it", m.SameFor.M2(), 9-1.72, 1e-9)
	grade, err := coat.GradeFor(paint.Grades(*b.Product("base-slackwater")), 18)
	if err != nil || grade.Name != "fast" {
		t.Errorf("grade at 18 °C: %+v, %v", grade, err)
	}
	if len(m.Batches) != 1 || m.Batches[0] != "S-0114" {
		t.Errorf("batches %v, want one", m.Batches)
	}
	mix, err := paint.Recipe(*b.Product("base-slackwater")).Pour(m.Volume.L())
	if err != nil || len(mix.Steps) != 2 || !mix.Weighed {
		t.Errorf("mix %+v, %v", mix, err)
	}
	for _, bad := range []struct {
		id    build.ProductID
		panel build.PanelID
		coats int
	}{{"tar", "P11", 3}, {"base-slackwater", "P999", 3}, {"base-slackwater", "P11", 0}} {
		if _, err := paint.Session(&b, bad.id, []build.PanelID{bad.panel}, nil, bad.coats, rates.Default()); err == nil {
			t.Errorf("%+v is taken", bad)
		}
	}
}

// TestUndercoat_BlackUnderLimewash is the fifth moment: the roof is about to be
// sealed black with the lower body.
func TestUndercoat_BlackUnderLimewash(t *testing.T) {
	b := on(t, time.January, 7)
	if c := check(b, "undercoat/"); c.ID != "" {
		t.Fatalf("before: %+v", c)
	}
	roof := []build.PanelID{"P01", "P02", "P15"}
	mixed := &build.PourMix{Pour: build.Pour{ID: "M90", Product: "sealer-black", Panels: roof, Coats: 1, At: unit.Day(2027, time.January, 7).At(8, 0), By: "PT",
		Metal: 18, Air: 19, RH: 50, Parts: []build.Poured{{Volume: unit.Litre}}}}
	c := check(after(t, b, mixed), "undercoat/limewash")
	for _, say := range []string{"mixed for P01, P02", "6 coats, not 3", "8.1 l instead of 4.2 l", "2.5 h"} {
		if !strings.Contains(c.Says, say) {
			t.Errorf("says %q, want %q in it", c.Says, say)
		}
	}
	for _, say := range []string{"Sealer light grey here, 1.85 l for 15.56 m²", "Sealer black only where it belongs, 1.16 l for 9.00 m²"} {
		if !strings.Contains(c.Do, say) {
			t.Errorf("do %q, want %q in it", c.Do, say)
		}
	}
	if c.Weight != takeoff.Slipping {
		t.Errorf("only mixed: %s", c.Weight)
	}
	lay := func(product build.ProductID, hour int) build.Change {
		return &build.LayCoat{Coat: build.Coat{ID: build.CoatID(product) + "x", Product: product, Panels: roof, Number: 1, At: unit.Day(2027, time.January, 7).At(hour, 0), Metal: 18, Air: 19, RH: 50}}
	}
	if c := check(after(t, b, mixed, lay("sealer-black", 9)), "undercoat/"); c.Weight != takeoff.Lost || !strings.Contains(c.Says, "on P01, P02") {
		t.Errorf("when it is on: %+v", c)
	}
	if c := check(after(t, b, mixed, lay("sealer-black", 9), lay("sealer-grey", 10)), "undercoat/limewash"); c.ID != "" {
		t.Errorf("sealed again in light grey: %+v", c)
	}
}

// TestUndercoat_OnTheList: a look that puts a colour over another's sealer.
func TestUndercoat_OnTheList(t *testing.T) {
	b := on(t, time.October, 7)
	wrong := build.Look{ID: "wrong", Name: "Wrong", Zones: []build.LookZone{{Zone: "limewash", Undercoat: "sealer-black"}}}
	b = after(t, b, &build.AddLook{Look: wrong}, &build.ChooseLook{Look: "wrong"})
	if c := check(b, "undercoat/limewash"); !strings.Contains(c.Says, "on the list for Upper body") {
		t.Errorf("%+v", c)
	}
}

// TestBatches: the given Limewash came in two batches, and is boxed before the
// first coat.
func TestBatches(t *testing.T) {
	if c := check(on(t, time.October, 7), "box/base-limewash"); !strings.Contains(c.Says, "L-2207 and L-2311") {
		t.Errorf("%+v", c)
	}
	if c := check(on(t, time.October, 7), "box/base-slackwater"); c.ID != "" {
		t.Errorf("one batch: %+v", c)
	}
	if c := check(on(t, time.December, 22), "box/"); c.ID != "" {
		t.Errorf("boxed on the 21st: %+v", c)
	}
	if c := check(on(t, time.January, 12), "batches/"); c.ID != "" {
		t.Errorf("boxed tins on one surface: %+v", c)
	}
	b := on(t, time.December, 22)
	b.Tins = slices.Clone(b.Tins)
	for i := range b.Tins {
		b.Tins[i].Boxed = ""
	}
	b = after(t, b, &build.PourMix{Pour: build.Pour{ID: "M90", Product: "base-limewash", Panels: []build.PanelID{"P01"}, Coats: 3, At: unit.Day(2026, time.December, 22).At(9, 0), By: "PT",
		Parts: []build.Poured{{Tin: "N06", Volume: unit.Litre / 10}, {Tin: "N07", Volume: unit.Litre / 10}}}})
	if c := check(b, "batches/base-limewash/limewash"); c.Weight != takeoff.Slipping {
		t.Errorf("two batches in one mix: %+v", c)
	}
}

// TestWindow_BaseWithoutClear is the fourth moment: base went on at 16:10
// yesterday, and the booth is cold.
func TestWindow_BaseWithoutClear(t *testing.T) {
	b := on(t, time.January, 6)
	var light, dark []build.PanelID
	for _, p := range b.Panels {
		if p.Has("limewash") || p.Has("jamb") {
			light = append(light, p.ID)
		}
		if p.Has("slackwater") {
			dark = append(dark, p.ID)
		}
	}
	day := unit.Day(2027, time.January, 5)
	b = after(t, b,
		&build.LayCoat{Coat: build.Coat{ID: "L", Product: "base-limewash", Panels: light, Zones: []build.ZoneID{"limewash", "jamb", "wheels"}, Number: 3, At: day.At(16, 10), Metal: 17, Air: 18, RH: 60}},
		&build.LayCoat{Coat: build.Coat{ID: "S", Product: "base-slackwater", Panels: dark, Number: 3, At: day.At(16, 10), Metal: 17, Air: 18, RH: 60}})
	now := (day + 1).At(15, 30)
	windows := paint.Windows(&b, now)
	if len(windows) != 2 {
		t.Fatalf("%d windows, want those of both bases", len(windows))
	}
	for _, w := range windows {
		if w.Closes != (day+1).At(16, 10) || w.State == coat.Closed || w.Left != 40 || !slices.Equal(w.Next, []build.ProductID{"clear"}) {
			t.Errorf("%s: %+v", w.Coat.Product, w)
		}
	}
	lost := paint.MissedOn(&b, windows)
	near(t, "base anew", lost.Litres.L(), 6.4, 0.05)
	near(t, "scuff and recoat", lost.Hours.H(), 9, 0.25)
	if got := paint.ClosedChecks(&b, now); len(got) != 0 {
		t.Errorf("before it closes: %+v", got)
	}
	if got := paint.ClosedChecks(&b, (day+1).At(16, 11)); len(got) != 2 || got[0].Weight != takeoff.Lost {
		t.Errorf("after it closed: %+v", got)
	}
	redo := lost.Redo("R1", "T18", "PT", "clear too late")
	b = after(t, b, &build.RedoPaint{Redo: redo})
	sum := 0.0
	for _, n := range takeoff.RedoNeeds(&b, redo, rates.Default()) {
		sum += n.Volume.L()
	}
	near(t, "the same as a fact", sum, lost.Litres.L(), 1e-5)
	whole, f := paint.Litres(&b, *b.Product("base-limewash"))
	near(t, "Limewash with what goes on again", whole.L(), 2*4.19, 0.01)
	if !strings.HasSuffix(f.With, "= "+f.Text) || f.Inputs[len(f.Inputs)-1].Note != "clear too late" {
		t.Errorf("working %+v", f)
	}
}

// TestWindows_OfTheDemoNeverClose: the demo was painted in time.
func TestWindows_OfTheDemoNeverClose(t *testing.T) {
	for _, day := range []struct {
		month time.Month
		day   int
	}{{time.October, 20}, {time.December, 23}, {time.January, 6}, {time.January, 12}, {time.February, 20}} {
		b := on(t, day.month, day.day)
		now := unit.Moment(0)
		for _, c := range b.Coats {
			now = max(now, c.At)
		}
		if got := paint.ClosedChecks(&b, now+30*24*60); len(got) != 0 {
			t.Errorf("%s %d: %+v", day.month, day.day, got[0])
		}
	}
}
