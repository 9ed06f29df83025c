package shopfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"fettle/engine/schedule"
	"fettle/unit"
)

// Moments and spans beyond this many minutes are refused, as by the engine:
// about 510 years.
const limit = 1 << 28

const (
	momentForm = "2006-01-02 15:04"
	day        = 1440
	hour       = 60
)

// Moment writes a minute as a date with a time, or nothing for Never.
func (f File) Moment(m schedule.Minute) string {
	if m >= schedule.Never {
		return ""
	}
	return f.Origin.Time().Add(time.Duration(m) * time.Minute).Format(momentForm)
}

// minute reads a date with a time; a time of 24:00 ends the day.
func (f File) minute(text, path string) (schedule.Minute, error) {
	date, clock, _ := strings.Cut(text, " ")
	at, ok := clockOf(clock)
	if _, err := unit.ParseDate(date); !ok || err != nil {
		return 0, wrong(path, "%q is not a moment", text).WithHint(`write it like "2026-10-06 08:00"`)
	}
	day, err := f.dayOf(date, path)
	return day + at, err
}

// dayOf reads a date and returns its midnight.
func (f File) dayOf(text, path string) (schedule.Minute, error) {
	d, err := unit.ParseDate(text)
	if err != nil || text == "" {
		return 0, wrong(path, "%q is not a day", text).WithHint(`write it like "2026-10-06"`)
	}
	m := (int64(d) - int64(f.Origin)) * day
	if m < -limit-day || m > limit+day {
		return 0, wrong(path, "%s is too far from the origin %s", text, f.Origin).WithHint("keep within 500 years")
	}
	return schedule.Minute(m), nil
}

// clockOf reads "08:00", up to 24:00.
func clockOf(text string) (schedule.Minute, bool) {
	h, m, ok := strings.Cut(text, ":")
	hours, err := strconv.ParseUint(h, 10, 8)
	minutes, err2 := strconv.ParseUint(m, 10, 8)
	at := schedule.Minute(hours*hour + minutes)
	return at, ok && err == nil && err2 == nil && len(h) == 2 && len(m) == 2 && minutes < hour && at <= day
}

func clockText(at schedule.Minute) string { return fmt.Sprintf("%02d:%02d", at/hour, at%hour) }

// span writes minutes as "6h30m"; where the wall clock counts, whole days as "2d".
func span(m float64, wall bool) string {
	if m == 0 {
		return "0m"
	}
	if wall && math.Mod(m, day) == 0 {
		return number(m/day) + "d"
	}
	hours := math.Floor(m / hour)
	rest := m - float64(hours*hour) // exact: it has no digit that m has not
	switch {
	case hours == 0:
		return number(rest) + "m"
	case rest == 0:
		return number(hours) + "h"
	}
	return number(hours) + "h" + number(rest) + "m"
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// spanOf reads a span in minutes.
func spanOf(text, path string, wall bool) (float64, error) {
	sum, rest := 0.0, text
	for _, u := range []struct {
		sign string
		long float64
	}{{"d", day}, {"h", hour}, {"m", 1}} {
		count, after, found := strings.Cut(rest, u.sign)
		if !found {
			continue
		}
		x, err := strconv.ParseFloat(count, 64)
		if err != nil || !(x >= 0 && x <= limit) || strings.ContainsAny(count, "xXpP_eE+-") {
			return 0, badSpan(text, path, wall)
		}
		if u.sign == "d" && !wall {
			return 0, wrong(path, "%q: a day is not a number of working hours", text).WithHint(`write hours, like "6h30m"`)
		}
		sum += float64(x * u.long)
		rest = after
	}
	if text == "" || rest != "" || sum > limit {
		return 0, badSpan(text, path, wall)
	}
	return sum, nil
}

func badSpan(text, path string, wall bool) error {
	hint := `write hours and minutes, like "6h30m" or "45m"`
	if wall {
		hint = `write it like "45m", "6h30m" or "2d"`
	}
	return wrong(path, "%q is not a span of time", text).WithHint(hint)
}

// minutesOf reads a span of whole minutes.
func minutesOf(text, path string, wall bool) (schedule.Minute, error) {
	m, err := spanOf(text, path, wall)
	if err == nil && m != math.Floor(m) {
		err = wrong(path, "%q is not a number of whole minutes", text).WithHint("round it")
	}
	return schedule.Minute(m), err
}

// window writes "2026-10-06 08:00-16:00"; over a midnight with the second day.
func (f File) window(w schedule.Window) string {
	from, to := f.Moment(w.From), f.Moment(w.To)
	midnight := floorDay(w.From) + day
	switch {
	case w.To == midnight:
		to = "24:00"
	case w.To < midnight:
		to = clockText(w.To - floorDay(w.From))
	}
	return from + "-" + to
}

// windowOf reads what window writes.
func (f File) windowOf(text, path string) (schedule.Window, error) {
	bad := wrong(path, "%q is not a window", text).WithHint(`write it like "2026-10-06 08:00-16:00", or "2026-10-06 22:00-2026-10-07 06:00"`)
	if len(text) <= len(momentForm) || text[len(momentForm)] != '-' {
		return schedule.Window{}, bad
	}
	first, second := text[:len(momentForm)], text[len(momentForm)+1:]
	from, err := f.minute(first, path)
	if err != nil {
		return schedule.Window{}, err
	}
	to, short := clockOf(second)
	if short {
		to += floorDay(from)
	} else if to, err = f.minute(second, path); err != nil {
		return schedule.Window{}, bad
	}
	if to <= from {
		return schedule.Window{}, wrong(path, "%q ends before it begins", text).WithHint("over a midnight, name the second day too")
	}
	return schedule.Window{From: from, To: to}, nil
}

// floorDay is the midnight at or before a moment.
func floorDay(m schedule.Minute) schedule.Minute {
	return m - (m%day+day)%day
}
