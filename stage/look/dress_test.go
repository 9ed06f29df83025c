package look_test

import (
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/stage/look"
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

// TestDress_EveryZoneAndEdge: the break line comes first, and under black the
// white is another.
func TestDress_EveryZoneAndEdge(t *testing.T) {
	b := morning(t, october)
	p := sprayout.Read(&b)
	zones := look.Dress(p, &b)
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
