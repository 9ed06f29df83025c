package shopfile

import (
	"cmp"
	"slices"
	"strings"

	"fettle/engine/schedule"
	"fettle/unit"
)

// week is the open windows of each weekday, Monday first, in minutes of the day.
type week [7][]schedule.Window

var weekdays = [7]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// weekday is the weekday of the day that begins at a minute.
func (f File) weekday(m schedule.Minute) int {
	return (int((f.Origin + unit.Date(floorDay(m)/day)).Weekday()) + 6) % 7
}

// weekOf reads "mon-fri 08:00-12:00 13:00-16:00; sat 08:00-12:00".
func weekOf(text, path string) (week, error) {
	var w week
	for _, part := range strings.Split(text, ";") {
		var days [7]bool
		named, timed := false, false
		for _, word := range strings.FieldsFunc(part, func(r rune) bool { return r == ' ' || r == ',' }) {
			if first, last, ok := daysOf(word); ok && !timed {
				for d := first; d <= last; d++ {
					days[d], named = true, true
				}
				continue
			}
			from, to, _ := strings.Cut(word, "-")
			a, good := clockOf(from)
			b, good2 := clockOf(to)
			if !named || !good || !good2 || a >= b {
				return w, badWeek(path, part)
			}
			timed = true
			for d := range w {
				if days[d] {
					w[d] = append(w[d], schedule.Window{From: a, To: b})
				}
			}
		}
		if !timed {
			return w, badWeek(path, part)
		}
	}
	return w, nil
}

func badWeek(path, part string) error {
	return wrong(path, "%q is not part of a week", strings.TrimSpace(part)).
		WithHint(`write days, then hours: "mon-fri 08:00-12:00 13:00-16:00; sat 08:00-12:00"; hours over a midnight are two: "22:00-24:00" and "00:00-06:00" of the next day`)
}

// daysOf reads "mon" or "mon-fri".
func daysOf(word string) (first, last int, ok bool) {
	a, b, two := strings.Cut(word, "-")
	if !two {
		b = a
	}
	first, last = slices.Index(weekdays[:], a), slices.Index(weekdays[:], b)
	return first, last, first >= 0 && first <= last
}

// String writes the week as weekOf reads it; days with the same hours together.
func (w week) String() string {
	var parts []string
	for d := range w {
		same := func(e int) bool { return slices.Equal(w[e], w[d]) }
		first := 0
		for !same(first) {
			first++
		}
		if len(w[d]) == 0 || first < d {
			continue // closed, or written with an earlier day
		}
		parts = append(parts, strings.Join(runs(same), " ")+hours(w[d]))
	}
	return strings.Join(parts, "; ")
}

// hours writes the windows of a day, a blank before each.
func hours(windows []schedule.Window) string {
	text := ""
	for _, v := range windows {
		text += " " + clockText(v.From) + "-" + clockText(v.To)
	}
	return text
}

// runs names the weekdays that are in.
func runs(in func(int) bool) []string {
	var words []string
	for d := 0; d < 7; d++ {
		if !in(d) {
			continue
		}
		last := d
		for last < 6 && in(last+1) {
			last++
		}
		word := weekdays[d]
		if last > d {
			word += "-" + weekdays[last]
		}
		words, d = append(words, word), last
	}
	return words
}

// lay lays the week over the days from first to last, less the days closed.
func (f File) lay(w week, first, last schedule.Minute, closed func(schedule.Minute) bool) schedule.Calendar {
	var c schedule.Calendar
	for d := first; d <= last; d += day {
		if closed(d) {
			continue
		}
		for _, v := range w[f.weekday(d)] {
			c = append(c, schedule.Window{From: d + v.From, To: d + v.To})
		}
	}
	return c
}

// joined sorts windows and joins those that touch.
func joined(c schedule.Calendar) schedule.Calendar {
	slices.SortFunc(c, func(a, b schedule.Window) int { return cmp.Compare(a.From, b.From) })
	var out schedule.Calendar
	for _, v := range c {
		if n := len(out); n > 0 && v.From <= out[n-1].To {
			out[n-1].To = max(out[n-1].To, v.To)
			continue
		}
		out = append(out, v)
	}
	return out
}
