package moments

import (
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/takeoff"
	"fettle/unit"
)

// decided returns the new check whose ID begins so, or nothing.
func decided(x trial, id string) takeoff.Check {
	for _, c := range x.KnockOn.Decide {
		if strings.HasPrefix(c.ID, id) {
			return c
		}
	}
	return takeoff.Check{}
}

// TestWrongUndercoat: the painter mixes black for the roof with the lower body;
// before it is kept, the slip says what it would cost and what belongs there.
func TestWrongUndercoat(t *testing.T) {
	s := morning(t, "2027-01-07")
	day := unit.Day(2027, 1, 7)
	x := s.try(s.changes(&build.PourMix{Pour: build.Pour{ID: "M90", Product: "sealer-black", Panels: []build.PanelID{"P01", "P02", "P15", "P41"}, Coats: 1,
		Parts: []build.Poured{{Part: 0, Tin: "N14", Volume: 300_000}, {Part: 1, Volume: 100_000}, {Part: 2, Volume: 100_000}}, Metal: 18, Air: 20, RH: 42, At: day.At(8, 10), By: "PT"}}))
	c := decided(x, "undercoat/limewash")
	for _, say := range []string{"P01, P02", "6 coats, not 3", "8.1 l instead of 4.2 l", "2.5 h", "1.85 l for 15.56 m²", "1.16 l for 9.00 m²"} {
		if !strings.Contains(c.Says+c.Do, say) {
			t.Errorf("%q, %q: want %q", c.Says, c.Do, say)
		}
	}
}

// TestColdBooth_FiveLostDays: the booth stays cold for a week, the base is
// scuffed and laid again: 6.4 l, 9 h, five days.
func TestColdBooth_FiveLostDays(t *testing.T) {
	s := morning(t, "2027-01-06")
	redo := build.Redo{ID: "R1", Zones: []build.ZoneID{"limewash", "jamb", "wheels", "slackwater"}, Why: "clear did not go on in time", Days: 5, Task: "T18",
		Coats: []build.RedoCoats{{Product: "base-limewash", Coats: 3}, {Product: "base-slackwater", Coats: 3}}, Work: []build.Leg{{Trade: "PT", Hours: 9 * unit.Hour}}}
	x := s.try(s.changes(&build.RedoPaint{Redo: redo}))
	if lost := workdays(x.Before.Dates.Plain, x.After.Dates.Plain); lost < 5 || lost > 7 {
		t.Errorf("%s to %s: %d working days, want the five and the hours", x.Before.Dates.Plain.Short(), x.After.Dates.Plain.Short(), lost)
	}
	// Litres are figures: the two bases grow by 4.2 and 2.2.
	for i, want := range map[int]string{4: "8.38 l", 5: "4.46 l"} {
		if got := x.After.Litres[i].Text; got != want {
			t.Errorf("%s: %s, want %s", x.After.Litres[i].Name, got, want)
		}
	}
	var said []string
	for _, r := range x.KnockOn.Rows {
		if r.Group == "paint" {
			said = append(said, r.Name+" "+r.Change)
		}
	}
	for _, want := range []string{"Limewash base, ready to spray +4.19 l", "Slackwater base, ready to spray +2.23 l", "tins of Limewash base to buy +3 tins"} {
		if !slices.Contains(said, want) {
			t.Errorf("the slip says %q, want %q", said, want)
		}
	}
}

// TestTwoBatches: the given Limewash came in two batches; the check stands until
// they are boxed.
func TestTwoBatches(t *testing.T) {
	s := morning(t, "2026-10-06")
	x := s.try(s.changes(&build.BoxTins{Tins: []build.TinID{"N05", "N06", "N07"}}))
	settled := ""
	for _, c := range x.KnockOn.Settled {
		settled += c.ID + " "
	}
	if !strings.Contains(settled, "box/base-limewash") {
		t.Errorf("settled: %s", settled)
	}
	equal(t, "days moved by boxing tins", x.After.Dates.Plain-x.Before.Dates.Plain, 0)
}
