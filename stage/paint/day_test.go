package paint_test

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/stage/paint"
)

// body is the two-tone day of the demo.
func body(t testing.TB) paint.DayAsk {
	return paint.DayAsk{Opens: at(t, "2027-01-07T05:30"), Closes: at(t, "2027-01-07T18:00"), Metal: 18, Cold: 13, Clean: 60,
		Goes: []paint.Go{
			{Product: "sealer-grey", Sets: []string{"limewash"}}, {Product: "sealer-black", Sets: []string{"slackwater"}, Turn: 20},
			{Product: "base-limewash", Sets: []string{"limewash"}, Turn: 20}, {Product: "base-slackwater", Turn: 60},
			{Product: "clear", Sets: []string{"limewash", "slackwater"}, Turn: 20}}}
}

func TestPlanDay_Body(t *testing.T) {
	b, _ := asOf(t, "2027-01-06T15:30")
	d, err := paint.PlanDay(b, body(t))
	if err != nil {
		t.Fatal(err)
	}
	if !d.Sheet.Fits() || len(d.Sets) != 2 || d.Booth.ID != "booth" || !strings.Contains(d.By, "2 warm-ups") {
		t.Errorf("%s; sets %+v, warm %g by %s", d.Sheet.Say(), d.Sets, d.Warm, d.By)
	}
	if a := d.Sets[0].Area.M2(); a < 9.68 || a > 9.70 {
		t.Errorf("limewash %g m², want 9.69", a)
	}
	sprays := 0
	for _, l := range d.Sheet.Lines {
		if l.Act.String() == "spray" {
			sprays++
		}
	}
	if sprays != 1+1+3+3+6 {
		t.Errorf("%d coats, want 14", sprays)
	}
	short := body(t)
	short.Closes = at(t, "2027-01-07T11:00")
	if d, err = paint.PlanDay(b, short); err != nil || d.Sheet.Fits() || d.Sheet.Spare >= 0 {
		t.Errorf("till eleven: fits %v, spare %d, %v", d.Sheet.Fits(), d.Sheet.Spare, err)
	}
}

// TestPlanDay_WindowOfYesterday: what was laid the day before must be kept.
func TestPlanDay_WindowOfYesterday(t *testing.T) {
	b, _ := asOf(t, "2027-01-06T15:30")
	lay(t, b, "base-limewash", 3, "2027-01-05T16:10", 18, "P37", "P38")
	a := paint.DayAsk{Opens: at(t, "2027-01-06T15:30"), Closes: at(t, "2027-01-06T20:00"), Metal: 18, Cold: 13.5, Clean: 20,
		Goes: []paint.Go{{Product: "clear", Sets: []string{"P37 P38"}}}}
	d, err := paint.PlanDay(b, a)
	if err != nil {
		t.Fatal(err)
	}
	if d.Sheet.Fits() || len(d.Sheet.Troubles) != 1 || !strings.Contains(d.Sheet.Troubles[0].Words, "scuff and lay the base again") {
		t.Errorf("too late: %s", d.Sheet.Say())
	}
	again := a
	again.Goes = []paint.Go{{Product: "sealer-grey", Sets: []string{"P37 P38"}}}
	if d, err = paint.PlanDay(b, again); err != nil || !d.Sheet.Fits() {
		t.Errorf("sealed again, no window waits for sealer: %s, %v", d.Sheet.Say(), err)
	}
	a.Timed, a.Clean = true, 0
	if d, err = paint.PlanDay(b, a); err != nil || !d.Sheet.Fits() {
		t.Errorf("warm already: %s, %v", d.Sheet.Say(), err)
	}
}

func TestPlanDay_Refuses(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*paint.DayAsk, *build.Build)
		says  string
	}{
		"nothing":          {func(a *paint.DayAsk, _ *build.Build) { a.Goes = nil }, "nothing is to be sprayed"},
		"unknown paint":    {func(a *paint.DayAsk, _ *build.Build) { a.Goes[0].Product = "tar" }, `no paint "tar"`},
		"unknown panel":    {func(a *paint.DayAsk, _ *build.Build) { a.Goes[0].Sets = []string{"P99"} }, `no zone "P99"`},
		"wrong zone":       {func(a *paint.DayAsk, _ *build.Build) { a.Goes[0].Sets = []string{"grey"} }, "does not go on"},
		"panel without it": {func(a *paint.DayAsk, _ *build.Build) { a.Goes[0].Sets = []string{"P50"} }, "no panel has a zone"},
		"cold metal":       {func(a *paint.DayAsk, _ *build.Build) { a.Metal = 13.5; a.Timed = true }, "metal"},
		"no clearance":     {func(_ *paint.DayAsk, b *build.Build) { b.Bays[1].Clearance = 0 }, "clearance time"},
		"no record":        {func(_ *paint.DayAsk, b *build.Build) { b.WarmUps = nil }, "no warm-up on record"},
		"ends first":       {func(a *paint.DayAsk, _ *build.Build) { a.Closes = a.Opens - 1 }, "closes"},
	} {
		b, _ := asOf(t, "2027-01-06T15:30")
		a := body(t)
		c.spoil(&a, b)
		if _, err := paint.PlanDay(b, a); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", name, err, c.says)
		}
	}
}
