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

// AddDays returns the working day of the shop that lies count working days
// after a day; a negative count goes back.
func AddDays(b *build.Build, day unit.Date, count int) unit.Date {
	return calendarOf(b).addDays(day, count)
}

// calendarOf returns a network that knows nothing but the working days.
func calendarOf(b *build.Build) *net {
	n := &net{build: b}
	for _, p := range b.People {
		for i, h := range p.Week {
			n.week[i] = n.week[i] || h > 0 && !p.Helps
		}
	}
	return n
}
