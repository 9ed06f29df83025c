package unit

import (
	"fmt"
	"time"
)

// Date is a day of the common calendar, counted from 1 January 1970.
// The zero value means "no date" and is written as an empty text.
type Date int32

const dateForm = "2006-01-02"

// Day returns the date of a year, month and day.
func Day(year int, month time.Month, day int) Date {
	return DateOf(time.Date(year, month, day, 0, 0, 0, 0, time.UTC))
}

// DateOf returns the calendar day of t, in t's own place.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / 86_400)
}

// ParseDate reads "2026-10-06".
func ParseDate(text string) (Date, error) {
	if text == "" {
		return 0, nil
	}
	t, err := time.Parse(dateForm, text)
	if err != nil {
		return 0, fmt.Errorf("%q is not a date like 2026-10-06", text)
	}
	return DateOf(t), nil
}

// Time returns midnight UTC at the start of the day.
func (d Date) Time() time.Time { return time.Unix(int64(d)*86_400, 0).UTC() }

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday { return d.Time().Weekday() }

// Monday returns the first day of the date's week.
func (d Date) Monday() Date { return d - Date((int(d.Weekday())+6)%7) }

// Short writes "6 Oct 2026".
func (d Date) Short() string {
	if d == 0 {
		return ""
	}
	return d.Time().Format("2 Jan 2006")
}

// Long writes "Tue 6 Oct 2026".
func (d Date) Long() string {
	if d == 0 {
		return ""
	}
	return d.Time().Format("Mon 2 Jan 2006")
}

// String writes "2026-10-06", or nothing for no date.
func (d Date) String() string {
	if d == 0 {
		return ""
	}
	return d.Time().Format(dateForm)
}

// MarshalText writes the date as String does.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (d *Date) UnmarshalText(text []byte) error {
	parsed, err := ParseDate(string(text))
	if err == nil {
		*d = parsed
	}
	return err
}
