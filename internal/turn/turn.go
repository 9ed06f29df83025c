// Package turn works out from a plan whose turn it is: what a person does on a
// day and after it, and what stands in the way.
package turn

import (
	"cmp"
	"slices"

	"fettle/build"
	"fettle/plan"
	"fettle/unit"
)

// Stint is what one person does of one task on a day.
type Stint struct {
	Task  plan.Task
	Leg   plan.Leg
	From  unit.Moment // on that day
	Hours unit.Effort // on that day
}

// On lists the stints of a person on a day, in the order of the clock.
func On(p *plan.Plan, b *build.Build, who build.PersonID, day unit.Date) []Stint {
	from, to := Hours(b, who, day)
	var all []Stint
	for _, s := range open(p, who) {
		begin, end := max(s.Leg.Start, from), min(s.Leg.Finish, to)
		if end > begin {
			s.From, s.Hours = begin, unit.Effort(end-begin)
			all = append(all, s)
		}
	}
	return all
}

// Next lists the first most stints that begin after a day.
func Next(p *plan.Plan, who build.PersonID, day unit.Date, most int) []Stint {
	var all []Stint
	for _, s := range open(p, who) {
		if s.Leg.Start.Date() > day && len(all) < most {
			s.From, s.Hours = s.Leg.Start, s.Leg.Left
			all = append(all, s)
		}
	}
	return all
}

// open lists the legs that a person still works on, the earliest first.
func open(p *plan.Plan, who build.PersonID) []Stint {
	var all []Stint
	for _, t := range p.Tasks {
		for _, l := range t.Legs {
			if l.Person == who && l.Left > 0 && l.Finish != 0 {
				all = append(all, Stint{Task: t, Leg: l})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Stint) int { return cmp.Compare(a.Leg.Start, b.Leg.Start) })
	return all
}

// Hours returns when a person's day begins and ends; the same moment twice on
// a day on which they do not work.
func Hours(b *build.Build, who build.PersonID, day unit.Date) (from, to unit.Moment) {
	p := b.Person(who)
	if p == nil {
		return day.At(8, 0), day.At(8, 0)
	}
	starts, err := build.ParseClock(p.Starts)
	if err != nil {
		starts = 8 * 60
	}
	hours := p.Week[day-day.Monday()]
	if Shut(b, day) != "" || away(b, who, day) {
		hours = 0
	}
	for _, o := range b.Overtime {
		if o.Person == who && o.Day == day {
			hours += o.Hours
		}
	}
	from = day.At(0, starts)
	return from, from + unit.Moment(hours)
}

// Shut says why the shop is shut on a day; empty when it is not.
func Shut(b *build.Build, day unit.Date) string {
	for _, c := range b.Closures {
		if c.First <= day && day <= c.Last {
			return c.Why
		}
	}
	return ""
}

func away(b *build.Build, who build.PersonID, day unit.Date) bool {
	return slices.ContainsFunc(b.Absences, func(a build.Absence) bool { return a.Person == who && a.First <= day && day <= a.Last })
}
