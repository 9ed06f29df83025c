package plan

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"fettle/build"
	"fettle/unit"
)

func TestWorkingDays(t *testing.T) {
	b := small()
	b.Closures = []build.Closure{{First: monday + 9, Last: monday + 10}} // Wednesday and Thursday of next week
	tests := []struct {
		from  unit.Date
		count int
		want  unit.Date
	}{
		{monday, 0, monday},
		{monday + 5, 0, monday + 5}, // a Saturday stays
		{monday, 1, monday + 1},
		{monday, 4, monday + 4},
		{monday, 5, monday + 7},
		{monday + 5, 1, monday + 7},
		{monday + 8, 1, monday + 11},
		{monday, -1, monday - 3},
		{monday + 6, -1, monday + 4},
		{monday + 11, -1, monday + 8},
	}
	for _, tt := range tests {
		if got := AddDays(b, tt.from, tt.count); got != tt.want {
			t.Errorf("%s and %d working days = %s, want %s", tt.from.Long(), tt.count, got.Long(), tt.want.Long())
		}
	}
	for _, tt := range []struct {
		from, to unit.Date
		want     int
	}{
		{monday, monday, 0}, {monday, monday + 1, 1}, {monday + 4, monday + 7, 1}, {monday + 4, monday + 6, 0},
		{monday, monday + 14, 8}, {monday + 3, monday, 0},
	} {
		if got := DaysBetween(b, tt.from, tt.to); got != tt.want {
			t.Errorf("working days after %s to %s = %d, want %d", tt.from.Long(), tt.to.Long(), got, tt.want)
		}
	}
}

// TestWorkingDays_OwnWeek: the second demo works from Tuesday to Saturday.
func TestWorkingDays_OwnWeek(t *testing.T) {
	for _, s := range stories(t) {
		if s.b.Name != "bjelke" {
			continue
		}
		friday := unit.Day(2027, time.January, 29)
		if got := AddDays(&s.b, friday, 1); got != friday+1 {
			t.Errorf("%s: after Friday comes %s, want Saturday", s.name, got.Long())
		}
		if got := AddDays(&s.b, friday, 2); got != friday+4 {
			t.Errorf("%s: after Saturday comes %s, want Tuesday", s.name, got.Long())
		}
	}
}

func TestWorkingDays_ThereAndBack(t *testing.T) {
	list := stories(t)
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(list).Draw(t, "story").b
		n := calendarOf(&b)
		day := b.Promise.In + unit.Date(rapid.IntRange(-30, 300).Draw(t, "day"))
		count := rapid.IntRange(1, 120).Draw(t, "count")
		to := n.addDays(day, count)
		if got := n.daysBetween(day, to); got != count || !n.works(to) {
			t.Fatalf("%s and %d working days = %s, a working day %v, which lies %d after", day, count, to, n.works(to), got)
		}
		if back := n.addDays(to, -count); n.works(day) && back != day {
			t.Fatalf("%s and %d working days = %s, and back again %s", day, count, to, back)
		}
	})
}
