package readin

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"fettle/unit"
)

var (
	yearFirst   = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$`)
	yearLast    = regexp.MustCompile(`^(\d{1,2})\s?[-/.]\s?(\d{1,2})\s?[-/.]\s?(\d{2}|\d{4})$`)
	dayMonth    = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th|\.)?[ -]*([a-z]{3,9})\.?[ ,-]*(\d{2}|\d{4})$`)
	monthDay    = regexp.MustCompile(`^([a-z]{3,9})\.? *(\d{1,2})(?:st|nd|rd|th)?[ ,]+(\d{4})$`)
	weekday     = regexp.MustCompile(`^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*[., ]+`)
	clockBehind = regexp.MustCompile(`^(.*\d)(?:t| +)(\d{1,2}:\d{2}(?::\d{2})?(?: *[ap]m)?)$`)
	clockTime   = regexp.MustCompile(`^(\d{1,2})(?:[:.h](\d{2})(?::\d{2})?|h)? *([ap]\.?m\.?)?$`)
	dayNumber   = regexp.MustCompile(`^[2-7]\d{4}(?:\.\d+)?$`)
)

const dateHint = "write it like 2026-10-06, 6/10/2026 or 6 Oct 2026"

// parseDate reads a day, and the clock time behind it where there is one
// (minutes from midnight, else -1). doubt tells that day and month could be
// the other way round.
func parseDate(text string, monthFirst bool) (day unit.Date, minutes int, doubt bool, err error) {
	t := strings.ToLower(tidy(text))
	bad := invalid("%q is not a date", text).WithHint(dateHint)
	if len(t) > longestValue {
		return 0, -1, false, invalid("the text is too long for a date").WithHint(dateHint)
	}
	minutes = -1
	if m := clockBehind.FindStringSubmatch(t); m != nil {
		if minutes, err = parseClock(m[2]); err != nil {
			return 0, -1, false, err
		}
		t = strings.TrimRight(m[1], " ,")
	}
	t = weekday.ReplaceAllString(t, "")
	y, m, d, doubt, ok := dateParts(t, monthFirst)
	if !ok && dayNumber.MatchString(t) {
		n, _ := strconv.Atoi(t[:5])
		return unit.Day(1899, time.December, 30) + unit.Date(n), minutes, false, nil
	}
	if !ok || m < 1 || m > 12 || d < 1 || d > 31 {
		return 0, -1, false, bad
	}
	if day = unit.Day(y, time.Month(m), d); day.Time().Day() != d {
		return 0, -1, false, invalid("%q is a day that does not exist", text).WithHint(dateHint)
	}
	return day, minutes, doubt, nil
}

// dateParts finds year, month and day in one of the forms.
func dateParts(t string, monthFirst bool) (y, m, d int, doubt, ok bool) {
	if p := yearFirst.FindStringSubmatch(t); p != nil {
		return number(p[1]), number(p[2]), number(p[3]), false, true
	}
	if p := yearLast.FindStringSubmatch(t); p != nil {
		a, b := number(p[1]), number(p[2])
		d, m = a, b
		if monthFirst && a <= 12 || b > 12 {
			d, m = b, a
		}
		return year(p[3]), m, d, a <= 12 && b <= 12 && a != b, true
	}
	if p := dayMonth.FindStringSubmatch(t); p != nil {
		return year(p[3]), monthOf(p[2]), number(p[1]), false, true
	}
	if p := monthDay.FindStringSubmatch(t); p != nil {
		return year(p[3]), monthOf(p[1]), number(p[2]), false, true
	}
	return 0, 0, 0, false, false
}

func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}

// year reads a year of two digits as one of this century.
func year(text string) int {
	if len(text) == 2 {
		return 2000 + number(text)
	}
	return number(text)
}

// monthOf returns the month of an English name or its beginning, or 0.
func monthOf(word string) int {
	if word == "sept" {
		return 9
	}
	for m := time.January; m <= time.December; m++ {
		if name := strings.ToLower(m.String()); word == name || word == name[:3] {
			return int(m)
		}
	}
	return 0
}

// parseClock reads a time of day in minutes from midnight: "8:00", "08.30",
// "8", "4:30 pm", "16h30".
func parseClock(text string) (int, error) {
	t := strings.ToLower(tidy(text))
	m := clockTime.FindStringSubmatch(t)
	if len(t) > longestValue || m == nil {
		return 0, invalid("%q is not a time of day", text).WithHint("write it like 8:00 or 16:30")
	}
	h, minute := number(m[1]), number(m[2])
	if half := strings.ReplaceAll(m[3], ".", ""); half != "" {
		if h < 1 || h > 12 {
			return 0, invalid("%q is not a time of day", text).WithHint("write it like 4:30 pm or 16:30")
		}
		h %= 12
		if half == "pm" {
			h += 12
		}
	}
	if h > 24 || minute > 59 || h == 24 && minute > 0 {
		return 0, invalid("%q is not a time of day", text).WithHint("write it like 8:00 or 16:30")
	}
	return h*60 + minute, nil
}
