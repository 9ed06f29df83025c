package build

import (
	"fmt"
	"slices"

	"fettle/unit"
)

// AddPerson adds a pair of hands.
type AddPerson struct {
	Person Person `json:"person"`
}

// Kind names the act.
func (c *AddPerson) Kind() string { return "add-person" }

// Say tells what the change does.
func (c *AddPerson) Say(*Build) string { return c.Person.Name + " joins the build" }

// Apply adds the person.
func (c *AddPerson) Apply(b *Build) error {
	if c.Person.ID == "" || b.Person(c.Person.ID) != nil {
		return rule(ruleID, "the short name is missing or taken").At("person " + string(c.Person.ID))
	}
	if err := b.checkPerson(c.Person); err != nil {
		return err
	}
	b.People = append(b.People, c.Person)
	return nil
}

// AddAbsence says that a person is away.
type AddAbsence struct {
	Absence Absence `json:"absence"`
}

// Kind names the act.
func (c *AddAbsence) Kind() string { return "add-absence" }

// Say tells what the change does.
func (c *AddAbsence) Say(*Build) string {
	return fmt.Sprintf("%s away %s to %s", c.Absence.Person, c.Absence.First.Short(), c.Absence.Last.Short())
}

// Apply adds the absence.
func (c *AddAbsence) Apply(b *Build) error {
	if b.Person(c.Absence.Person) == nil {
		return missing("person", c.Absence.Person)
	}
	if err := checkDays(c.Absence.First, c.Absence.Last, "absence of "+string(c.Absence.Person)); err != nil {
		return err
	}
	b.Absences = append(b.Absences, c.Absence)
	return nil
}

// AddClosure says that the shop is shut.
type AddClosure struct {
	Closure Closure `json:"closure"`
}

// Kind names the act.
func (c *AddClosure) Kind() string { return "add-closure" }

// Say tells what the change does.
func (c *AddClosure) Say(*Build) string {
	return fmt.Sprintf("Shut %s to %s: %s", c.Closure.First.Short(), c.Closure.Last.Short(), c.Closure.Why)
}

// Apply adds the closure.
func (c *AddClosure) Apply(b *Build) error {
	if err := checkDays(c.Closure.First, c.Closure.Last, "closure"); err != nil {
		return err
	}
	b.Closures = append(b.Closures, c.Closure)
	return nil
}

// AddOvertime gives a person extra hours on named days.
type AddOvertime struct {
	Person PersonID    `json:"person"`
	Days   []unit.Date `json:"days"`
	Hours  unit.Effort `json:"hours_h"` // on each of the days
}

// Kind names the act.
func (c *AddOvertime) Kind() string { return "add-overtime" }

// Say tells what the change does.
func (c *AddOvertime) Say(*Build) string {
	return fmt.Sprintf("%s works %d extra days of %s", c.Person, len(c.Days), c.Hours)
}

// Apply adds the days.
func (c *AddOvertime) Apply(b *Build) error {
	where := "overtime of " + string(c.Person)
	if b.Person(c.Person) == nil {
		return missing("person", c.Person)
	}
	if err := checkOvertime(c.Hours, where); err != nil {
		return err
	}
	for i, day := range c.Days {
		taken := slices.ContainsFunc(b.Overtime, func(o Overtime) bool { return o.Person == c.Person && o.Day == day })
		if day == 0 || taken || slices.Contains(c.Days[:i], day) {
			return rule(ruleDates, "the day is missing or has overtime already").At(where + ", " + day.Short())
		}
	}
	for _, day := range c.Days {
		b.Overtime = append(b.Overtime, Overtime{Person: c.Person, Day: day, Hours: c.Hours})
	}
	return nil
}

func checkOvertime(h unit.Effort, where string) error {
	return inRange(h, 1, 16*unit.Hour, "hours", where+", hours_h")
}

// SetPromise moves the promised day.
type SetPromise struct {
	Ready unit.Date `json:"ready"`
	Day   unit.Date `json:"day"`
	Why   string    `json:"why"`
}

// Kind names the act.
func (c *SetPromise) Kind() string { return "set-promise" }

// Say tells what the change does.
func (c *SetPromise) Say(*Build) string { return "Promised for " + c.Day.Long() + ": " + c.Why }

// Apply sets the days. The account is not given before the day: where it would
// be, its day moves along.
func (c *SetPromise) Apply(b *Build) error {
	p := b.Promise
	p.Ready, p.Day = c.Ready, c.Day
	if p.Account != 0 {
		p.Account = max(p.Account, c.Day)
	}
	if err := first(checkPromise(p), needText(c.Why, "promise, why")); err != nil {
		return err
	}
	b.Promise = p
	return nil
}

func checkPromise(p Promise) error {
	if p.In == 0 || p.Ready < p.In || p.Day < p.Ready || p.Account != 0 && p.Account < p.Day {
		return rule(ruleDates, "in, ready, day and account must follow one another").At("promise")
	}
	if p.Day-p.In > 10*366 {
		return rule(ruleRange, "that is more than ten years").At("promise")
	}
	return nil
}

func checkDays(from, to unit.Date, where string) error {
	if from == 0 || to < from {
		return rule(ruleDates, "the last day lies before the first").At(where)
	}
	if to-from > mostDays {
		return rule(ruleRange, "that is more than %d days", mostDays).At(where)
	}
	return nil
}
