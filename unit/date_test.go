package unit

import (
	"testing"
	"time"
)

func TestDate_Forms(t *testing.T) {
	tests := []struct {
		day               Date
		text, short, long string
		monday            string
	}{
		{Day(2026, time.October, 6), "2026-10-06", "6 Oct 2026", "Tue 6 Oct 2026", "2026-10-05"},
		{Day(2026, time.October, 5), "2026-10-05", "5 Oct 2026", "Mon 5 Oct 2026", "2026-10-05"},
		{Day(2027, time.January, 3), "2027-01-03", "3 Jan 2027", "Sun 3 Jan 2027", "2026-12-28"},
		{Day(2024, time.February, 29), "2024-02-29", "29 Feb 2024", "Thu 29 Feb 2024", "2024-02-26"},
		{Day(1969, time.December, 31), "1969-12-31", "31 Dec 1969", "Wed 31 Dec 1969", "1969-12-29"},
		{Day(1938, time.March, 1), "1938-03-01", "1 Mar 1938", "Tue 1 Mar 1938", "1938-02-28"},
	}
	for _, tt := range tests {
		got := []string{tt.day.String(), tt.day.Short(), tt.day.Long(), tt.day.Monday().String()}
		want := []string{tt.text, tt.short, tt.long, tt.monday}
		for i, what := range []string{"String", "Short", "Long", "Monday"} {
			if got[i] != want[i] {
				t.Errorf("%s of %s = %q, want %q", what, tt.text, got[i], want[i])
			}
		}
		if read, err := ParseDate(tt.text); read != tt.day || err != nil {
			t.Errorf("ParseDate(%q) = %d, %v, want %d", tt.text, read, err, tt.day)
		}
	}
}

func TestDate_NoneIsEmpty(t *testing.T) {
	var none Date
	if none.String() != "" || none.Short() != "" || none.Long() != "" {
		t.Errorf("no date is written %q, %q, %q, want nothing", none, none.Short(), none.Long())
	}
	if got, err := ParseDate(""); got != 0 || err != nil {
		t.Errorf("ParseDate of nothing = %d, %v, want no date", got, err)
	}
}

func TestParseDate_Refuses(t *testing.T) {
	for _, text := range []string{"6 Oct 2026", "2026-10-6", "2026-13-01", "2026-02-29", "2026-10-06T08:10", "20261006", " 2026-10-06"} {
		if got, err := ParseDate(text); err == nil {
			t.Errorf("ParseDate(%q) = %v, want an error", text, got)
		}
	}
}

// TestDateOf_IsTheDayOnTheWall: the day is that of the clock that was read,
// not of Greenwich, and midnight opens a day.
func TestDateOf_IsTheDayOnTheWall(t *testing.T) {
	east, west := time.FixedZone("east", 14*3600), time.FixedZone("west", -11*3600)
	for _, tt := range []struct {
		at   time.Time
		want Date
	}{
		{time.Date(2026, 12, 31, 23, 59, 59, 0, time.UTC), Day(2026, 12, 31)},
		{time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC), Day(2027, 1, 1)},
		{time.Date(2027, 1, 1, 0, 30, 0, 0, east), Day(2027, 1, 1)},
		{time.Date(2026, 12, 31, 23, 30, 0, 0, west), Day(2026, 12, 31)},
		{time.Date(1969, 12, 31, 23, 59, 0, 0, time.UTC), -1},
	} {
		if got := DateOf(tt.at); got != tt.want {
			t.Errorf("DateOf(%v) = %d, want %d", tt.at, got, tt.want)
		}
	}
}

func TestDate_DaysOfALongTimeCountOneByOne(t *testing.T) {
	at := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	for d := DateOf(at); d < Day(2101, 1, 1); d++ {
		if got := d.Time(); !got.Equal(at) {
			t.Fatalf("day %d = %v, want %v", d, got, at)
		}
		if back := d - d.Monday(); d.Monday().Weekday() != time.Monday || back < 0 || back > 6 {
			t.Fatalf("Monday of %v = %v", at, d.Monday().Time())
		}
		at = at.AddDate(0, 0, 1)
	}
}

func TestMoment_Forms(t *testing.T) {
	tests := []struct {
		at          Moment
		text, clock string
		day         Date
		minutes     int
	}{
		{Day(2026, 10, 6).At(8, 10), "2026-10-06T08:10", "08:10", Day(2026, 10, 6), 490},
		{Day(2026, 12, 31).At(23, 59), "2026-12-31T23:59", "23:59", Day(2026, 12, 31), 1439},
		{Day(2026, 12, 31).At(24, 0), "2027-01-01T00:00", "00:00", Day(2027, 1, 1), 0},
		{Day(1969, 12, 31).At(23, 59), "1969-12-31T23:59", "23:59", -1, 1439},
		{Day(1969, 12, 31).At(0, 0), "1969-12-31T00:00", "00:00", -1, 0},
		{Day(1969, 12, 30).At(12, 0), "1969-12-30T12:00", "12:00", -2, 720},
	}
	for _, tt := range tests {
		if tt.at.String() != tt.text || tt.at.Clock() != tt.clock || tt.at.Date() != tt.day || tt.at.Minutes() != tt.minutes {
			t.Errorf("moment %d = %q, %q, day %d, minute %d, want %q, %q, %d, %d",
				tt.at, tt.at, tt.at.Clock(), tt.at.Date(), tt.at.Minutes(), tt.text, tt.clock, tt.day, tt.minutes)
		}
		if got, err := ParseMoment(tt.text); got != tt.at || err != nil {
			t.Errorf("ParseMoment(%q) = %d, %v, want %d", tt.text, got, err, tt.at)
		}
	}
}

func TestParseMoment_Refuses(t *testing.T) {
	if got, err := ParseMoment(""); got != 0 || err != nil {
		t.Errorf("ParseMoment of nothing = %d, %v, want no moment", got, err)
	}
	for _, text := range []string{"2026-10-06", "2026-10-06 08:10", "2026-10-06T24:00", "2026-10-06T08:60", "08:10"} {
		if got, err := ParseMoment(text); err == nil {
			t.Errorf("ParseMoment(%q) = %v, want an error", text, got)
		}
	}
}

func TestMomentOf_IsTheClockOnTheWall(t *testing.T) {
	at := time.Date(2026, 10, 6, 8, 10, 59, 0, time.FixedZone("east", 9*3600))
	if got, want := MomentOf(at), Day(2026, 10, 6).At(8, 10); got != want {
		t.Errorf("MomentOf(%v) = %v, want %v", at, got, want)
	}
}
