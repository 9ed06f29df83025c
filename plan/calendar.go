package plan

import (
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/unit"
)

// A working day of the shop, and of outside shops, for waits counted in
// working days: 08:00 to 16:00. Only its length of one day matters.
const (
	dayFrom = 8 * 60
	dayTo   = 16 * 60
	dayLong = dayTo - dayFrom
)

// span is how many days the calendars reach from the day of now.
const span = 1000

// clock turns the build's moments into the engine's minutes and back.
type clock struct{ origin unit.Date }

func (c clock) minute(m unit.Moment) schedule.Minute {
	return schedule.Minute(int64(m) - int64(c.origin)*1440)
}

// endOf returns the minute at which a day is over.
func (c clock) endOf(d unit.Date) schedule.Minute {
	return schedule.Minute((int64(d-c.origin) + 1) * 1440)
}

func (c clock) moment(m schedule.Minute) unit.Moment {
	if m >= schedule.Never {
		return 0
	}
	return unit.Moment(int64(c.origin)*1440 + int64(m))
}

// day returns the day on which something that is over at m was finished: the
// midnight that ends a day belongs to it.
func (c clock) day(m schedule.Minute) unit.Date {
	if m >= schedule.Never {
		return 0
	}
	return c.moment(m - 1).Date()
}

// workweek tells on which days of the week, from Monday, somebody works.
func workweek(b *build.Build) (open [7]bool) {
	for _, p := range b.People {
		for i, h := range p.Week {
			open[i] = open[i] || h > 0 && !p.Helps
		}
	}
	return open
}

// shopDays returns the working days of the shop as windows of one length:
// days of the week on which somebody works, less closures.
func shopDays(b *build.Build, c clock) schedule.Calendar {
	open := workweek(b)
	var cal schedule.Calendar
	for i := range unit.Date(span) {
		d := c.origin + i
		if open[weekday(d)] && !closed(b, d) {
			from := schedule.Minute(i)*1440 + dayFrom
			cal = append(cal, schedule.Window{From: from, To: from + dayLong})
		}
	}
	return cal
}

// evenings is the last minute of every day.
func evenings() schedule.Calendar {
	var cal schedule.Calendar
	for i := range schedule.Minute(span) {
		cal = append(cal, schedule.Window{From: (i+1)*1440 - 1, To: (i + 1) * 1440})
	}
	return cal
}

// hoursOf returns a person's own hours: their week less closures and
// absences, and the overtime given.
func hoursOf(b *build.Build, p build.Person, c clock) schedule.Calendar {
	starts := startOf(p)
	var cal schedule.Calendar
	for i := range unit.Date(span) {
		d := c.origin + i
		hours := p.Week[weekday(d)]
		if closed(b, d) || isAway(b, p.ID, d) {
			hours = 0
		}
		hours += overtime(b, p.ID, d)
		if hours > 0 {
			from := schedule.Minute(i)*1440 + starts
			cal = append(cal, schedule.Window{From: from, To: from + schedule.Minute(min(hours, 24*unit.Hour-unit.Effort(starts)))})
		}
	}
	return cal
}

// startOf is the minute of the day at which a person begins.
func startOf(p build.Person) schedule.Minute {
	starts, err := build.ParseClock(p.Starts)
	if err != nil {
		return dayFrom
	}
	return schedule.Minute(starts)
}

// weekday counts from Monday.
func weekday(d unit.Date) int { return (int(d.Weekday()) + 6) % 7 }

func closed(b *build.Build, d unit.Date) bool {
	return slices.ContainsFunc(b.Closures, func(c build.Closure) bool { return c.First <= d && d <= c.Last })
}

func isAway(b *build.Build, id build.PersonID, d unit.Date) bool {
	return slices.ContainsFunc(b.Absences, func(a build.Absence) bool {
		return a.Person == id && a.First <= d && d <= a.Last
	})
}

func overtime(b *build.Build, id build.PersonID, d unit.Date) unit.Effort {
	for _, o := range b.Overtime {
		if o.Person == id && o.Day == d {
			return o.Hours
		}
	}
	return 0
}

// addDays steps from d, which need not be a working day, over so many working
// days and returns the last of them; a negative count goes back, 0 stays at d.
func (n *net) addDays(d unit.Date, count int) unit.Date {
	step := unit.Date(1)
	if count < 0 {
		step, count = -1, -count
	}
	for i := 0; count > 0 && i < 20*span; i++ {
		d += step
		if n.works(d) {
			count--
		}
	}
	return d
}

// daysBetween counts the working days after from up to and including to.
func (n *net) daysBetween(from, to unit.Date) int {
	count := 0
	for d := from + 1; d <= to; d++ {
		if n.works(d) {
			count++
		}
	}
	return count
}

// works reports whether d is a working day of the shop.
func (n *net) works(d unit.Date) bool { return n.week[weekday(d)] && !closed(n.build, d) }
