package plan_test

import (
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/plan"
	"fettle/takeoff"
	"fettle/unit"
)

func demoOn(t *testing.T, day unit.Date) build.Build {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, day)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func checkOf(p *plan.Plan, id string) takeoff.Check {
	for _, c := range p.Checks {
		if c.ID == id {
			return c
		}
	}
	return takeoff.Check{}
}

// TestRedo_FiveLostDays: the plain plan after the blast ends about 5 February;
// paint done again that keeps the body five days longer ends it a week later,
// and its hours are the painter's.
func TestRedo_FiveLostDays(t *testing.T) {
	b := blasted(t, demoOn(t, blastDay))
	o := plan.Options{Now: blastDay.At(8, 10), Runs: 50, Seed: 1}
	before := made(t, &b, o)
	redo := build.Redo{ID: "R1", Zones: []build.ZoneID{"limewash", "slackwater"}, Why: "clear too late", Days: 5, Task: "T18",
		Coats: []build.RedoCoats{{Product: "base-limewash", Coats: 3}}}
	after, err := build.ApplyAll(b, []build.Change{&build.RedoPaint{Redo: redo}})
	if err != nil {
		t.Fatal(err)
	}
	lost := made(t, &after, o)
	if off := before.Dates.Plain - unit.Day(2027, time.February, 5); off < -5 || off > 5 || lost.Dates.Plain != before.Dates.Plain+7 {
		t.Errorf("%s and %s, want 5 and 12 Feb, or a week apart near them", before.Dates.Plain.Short(), lost.Dates.Plain.Short())
	}
	if lost.Litres[4].Text == before.Litres[4].Text || lost.Litres[5].Text != before.Litres[5].Text {
		t.Errorf("litres %s and %s, want more of the first", lost.Litres[4].Text, lost.Litres[5].Text)
	}
	redo.ID, redo.Days, redo.Work = "R2", 0, []build.Leg{{Trade: "PT", Hours: 9 * unit.Hour}}
	after, err = build.ApplyAll(b, []build.Change{&build.RedoPaint{Redo: redo}})
	if err != nil {
		t.Fatal(err)
	}
	hours := func(p *plan.Plan) unit.Effort {
		for _, x := range p.Tasks {
			if x.ID == "T18" {
				return x.Planned
			}
		}
		return 0
	}
	if got := hours(made(t, &after, o)) - hours(before); got != 9*unit.Hour {
		t.Errorf("T18 grows by %s, want 9 h", got)
	}
}

// TestColdDays: the first spray day of January follows an unheated fortnight.
func TestColdDays(t *testing.T) {
	day := unit.Day(2026, time.December, 23)
	b := demoOn(t, day)
	c := checkOf(made(t, &b, plan.Options{Now: day.At(8, 0), Runs: 20, Seed: 1}), "cold/T18")
	for _, say := range []string{"T18 begins on 5 Jan 2027", "11 days unheated"} {
		if !strings.Contains(c.Says, say) {
			t.Errorf("%q, want %q in it", c.Says, say)
		}
	}
	if !strings.Contains(c.Do, "110 min from 12.5 to 18 °C") {
		t.Errorf("do %q, want the last warm-up on record", c.Do)
	}
	b.WarmUps = nil
	if c := checkOf(made(t, &b, plan.Options{Now: day.At(8, 0), Runs: 20, Seed: 1}), "cold/T18"); c.ID != "" {
		t.Errorf("nothing is known of the booth: %+v", c)
	}
	b = demoOn(t, blastDay)
	if c := checkOf(made(t, &b, plan.Options{Now: blastDay.At(8, 0), Runs: 20, Seed: 1}), "cold/T18"); c.ID != "" {
		t.Errorf("in October: %+v", c)
	}
}
