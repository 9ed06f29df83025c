package shopfile

import (
	"slices"

	"fettle/engine/schedule"
)

// longest is the most days that a week is laid over.
const longest = 60 * 366

// weekly is a calendar told as a week and what differs from it.
type weekly struct {
	week        week
	first, last schedule.Minute // midnights of the first and the last day
	closed      [][2]schedule.Minute
	also        schedule.Calendar
}

// fit tells a calendar as a week. It says no where a list of windows is shorter.
func (f File) fit(c schedule.Calendar) (weekly, bool) {
	if len(c) < 3 {
		return weekly{}, false
	}
	w := weekly{first: floorDay(c[0].From), last: floorDay(c[len(c)-1].To - 1)}
	if (w.last-w.first)/day > longest {
		return weekly{}, false
	}
	days := byDay(c, w.first, w.last)
	w.week = f.usual(days, w.first)
	lastClosed := false // the days since the last closed one have no usual hours
	for i, real := range days {
		d := w.first + schedule.Minute(i)*day
		usual := w.week[f.weekday(d)]
		if len(usual) > 0 {
			kept := covers(real, usual)
			switch {
			case kept:
				real = slices.DeleteFunc(slices.Clone(real), func(v schedule.Window) bool { return slices.Contains(usual, v) })
			case lastClosed:
				w.closed[len(w.closed)-1][1] = d
			default:
				w.closed = append(w.closed, [2]schedule.Minute{d, d})
			}
			lastClosed = !kept
		}
		for _, v := range real {
			w.also = append(w.also, schedule.Window{From: d + v.From, To: d + v.To})
		}
	}
	return w, w.week.String() != "" && 1+len(w.closed)+len(w.also) < len(c)
}

func covers(real, usual []schedule.Window) bool {
	return !slices.ContainsFunc(usual, func(v schedule.Window) bool { return !slices.Contains(real, v) })
}

// byDay cuts windows at midnights and sorts the pieces by day.
func byDay(c schedule.Calendar, first, last schedule.Minute) [][]schedule.Window {
	days := make([][]schedule.Window, (last-first)/day+1)
	for _, v := range c {
		for from := v.From; from < v.To; {
			d := floorDay(from)
			to := min(v.To, d+day)
			i := (d - first) / day
			days[i] = append(days[i], schedule.Window{From: from - d, To: to - d})
			from = to
		}
	}
	return days
}

// usual is the week of the hours that each weekday has most often, the earliest
// of several.
func (f File) usual(days [][]schedule.Window, first schedule.Minute) week {
	var w week
	for i := range min(7, len(days)) {
		count, most := map[string]int{}, 0
		for j := i; j < len(days); j += 7 {
			count[hours(days[j])]++
		}
		for j := i; j < len(days); j += 7 {
			if n := count[hours(days[j])]; n > most {
				most, w[f.weekday(first+schedule.Minute(i)*day)] = n, days[j]
			}
		}
	}
	return w
}
