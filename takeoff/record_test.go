package takeoff_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/build"
	"fettle/takeoff"
	"fettle/unit"
)

// TestRecords_OfFinishedWorkOnly: a task teaches when it is finished, was
// planned and has hours; what is sublet is not in its plan.
func TestRecords_OfFinishedWorkOnly(t *testing.T) {
	const h = unit.Hour
	leg := func(hours unit.Effort) []build.Leg { return []build.Leg{{Trade: "MW", Hours: hours}} }
	b := &build.Build{
		People: []build.Person{{ID: "mo", Trades: []build.TradeID{"MW"}}},
		Tasks: []build.Task{
			{ID: "T1", Risk: "metal", State: build.Finished, Legs: leg(10 * h)},
			{ID: "T2", Risk: "metal", State: build.Finished, Legs: leg(8 * h)},
			{ID: "T3", Risk: "prep", State: build.Begun, Legs: leg(10 * h)},
			{ID: "T4", Risk: "prep", State: build.Finished, Legs: leg(10 * h)},
			{ID: "T5", Risk: "prep", State: build.Finished},
		},
		Sublets: []build.Sublet{{Task: "T2", Legs: leg(2 * h)}},
		Hours: []build.Hours{
			{ID: "1", Person: "mo", Task: "T1", Worked: 7 * h}, {ID: "2", Person: "mo", Task: "T1", Worked: 5 * h},
			{ID: "3", Person: "mo", Task: "T2", Worked: 9 * h}, {ID: "4", Person: "mo", Task: "T3", Worked: 4 * h},
			{ID: "5", Person: "mo", Task: "T5", Worked: 4 * h},
		},
	}
	want := []takeoff.Record{{Task: "T1", Kind: "metal", Planned: 10 * h, Booked: 12 * h}, {Task: "T2", Kind: "metal", Planned: 6 * h, Booked: 9 * h}}
	if d := cmp.Diff(want, takeoff.Records(b)); d != "" {
		t.Errorf("records (-want +got):\n%s", d)
	}
}
