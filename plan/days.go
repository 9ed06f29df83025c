package plan

import (
	"fettle/build"
	"fettle/unit"
)

// DaysBetween counts the working days of the shop after from, up to and
// including to: 0 when to does not lie after from.
func DaysBetween(b *build.Build, from, to unit.Date) int {
	return calendarOf(b).daysBetween(from, to)
}

// AddDays steps from a day over so many working days of the shop and returns
// the last of them; a negative count goes back, 0 stays at the day.
func AddDays(b *build.Build, day unit.Date, count int) unit.Date {
	return calendarOf(b).addDays(day, count)
}

// WorkingDays counts working days in words.
func WorkingDays(n int) string { return plural(n, "working day") }

// calendarOf returns a network that knows nothing but the working days.
func calendarOf(b *build.Build) *net {
	return &net{build: b, week: workweek(b)}
}
