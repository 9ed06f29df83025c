package plan_test

import (
	"testing"

	"fettle/build"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// TestRoomOf_TheDateMovesTheDayAfter: begun on the last day the plain date
// stays, begun a working day later it does not.
func TestRoomOf_TheDateMovesTheDayAfter(t *testing.T) {
	b, o := morning(t, unit.Day(2026, 10, 12))
	o.Runs = 10
	room, err := plan.RoomOf(t.Context(), &b, rates.Learn(b), o, "T26", 10)
	if err != nil {
		t.Fatal(err)
	}
	if room.Days < 20 || room.Late <= room.Early || room.Late >= room.Latest-13 {
		t.Errorf("room %+v, want weeks of it, and orders ten working days before", room)
	}
	before := made(t, &b, o).Dates.Plain
	for day, moves := range map[unit.Date]bool{room.Latest: false, room.Latest + 1: true} {
		held := b.Clone()
		if err := (&build.HoldTask{Task: "T26", Day: day}).Apply(&held); err != nil {
			t.Fatal(err)
		}
		if got := made(t, &held, o).Dates.Plain; (got != before) != moves {
			t.Errorf("begun on %s the plain date is %s, before %s", day, got, before)
		}
	}
}
