package build

import (
	"fmt"

	"fettle/unit"
)

// ClockOn starts a person on a task. A person who is on another is first
// clocked off there at the same minute.
type ClockOn struct {
	ID      string      `json:"id"`
	Person  PersonID    `json:"person"`
	Task    TaskID      `json:"task"`
	Finding FindingID   `json:"finding,omitempty"`
	At      unit.Moment `json:"at"`
}

// Kind names the act.
func (c *ClockOn) Kind() string { return "clock-on" }

// Say tells what the change does.
func (c *ClockOn) Say(b *Build) string {
	return fmt.Sprintf("%s starts %s at %s", c.Person, b.taskName(c.Task), c.At.Clock())
}

// Apply closes what is open and opens the new entry.
func (c *ClockOn) Apply(b *Build) error {
	h := Hours{ID: c.ID, Person: c.Person, Task: c.Task, Finding: c.Finding, Start: c.At}
	if err := b.checkNewHours(h); err != nil {
		return err
	}
	if open := b.Clocked(c.Person); open != nil {
		if c.At < open.Start {
			return rule(ruleClock, "%s is on %s since %s", c.Person, open.Task, open.Start.Clock()).At("clock-on, at")
		}
		open.stop(c.At)
	}
	b.Hours = append(b.Hours, h)
	if t := b.Task(c.Task); t.State == NotBegun {
		t.State, t.Began = Begun, c.At.Date()
	}
	return nil
}

// longestShift is what a forgotten stop is cut to until somebody says better.
const longestShift = 12 * unit.Hour

func (h *Hours) stop(when unit.Moment) {
	h.Stop = when
	h.Worked = min(unit.Effort(when-h.Start), longestShift)
}

// ClockOff stops a person's work.
type ClockOff struct {
	Person PersonID    `json:"person"`
	At     unit.Moment `json:"at"`
}

// Kind names the act.
func (c *ClockOff) Kind() string { return "clock-off" }

// Say tells what the change does.
func (c *ClockOff) Say(*Build) string { return fmt.Sprintf("%s stops at %s", c.Person, c.At.Clock()) }

// Apply closes the open entry.
func (c *ClockOff) Apply(b *Build) error {
	open := b.Clocked(c.Person)
	if open == nil {
		return rule(ruleClock, "%s is not clocked on", c.Person)
	}
	if c.At < open.Start {
		return rule(ruleDates, "the stop lies before the start at %s", open.Start.Clock()).At("clock-off, at")
	}
	open.stop(c.At)
	return nil
}

// RecordHours adds finished hours, such as those of a paper day sheet.
type RecordHours struct {
	Hours []Hours `json:"hours"`
}

// Kind names the act.
func (c *RecordHours) Kind() string { return "record-hours" }

// Say tells what the change does.
func (c *RecordHours) Say(*Build) string {
	var sum unit.Effort
	for _, h := range c.Hours {
		sum += h.Worked
	}
	if len(c.Hours) == 1 {
		return fmt.Sprintf("%s recorded in one line", sum)
	}
	return fmt.Sprintf("%s recorded in %d lines", sum, len(c.Hours))
}

// Apply adds the lines and begins their tasks.
func (c *RecordHours) Apply(b *Build) error {
	tried := b.Clone()
	for _, h := range c.Hours {
		if err := tried.checkNewHours(h); err != nil {
			return err
		}
		if err := inRange(h.Worked, 1, 24*unit.Hour, "hours", "hours "+h.ID+", worked_h"); err != nil {
			return err
		}
		if h.Stop == 0 {
			h.Stop = h.Start + unit.Moment(h.Worked)
		}
		tried.Hours = append(tried.Hours, h)
		if t := tried.Task(h.Task); t.State == NotBegun {
			t.State, t.Began = Begun, h.Start.Date()
		}
	}
	b.Hours, b.Tasks = tried.Hours, tried.Tasks
	return nil
}

func (b *Build) checkNewHours(h Hours) error {
	if h.ID == "" || find(b.Hours, h.ID, func(o *Hours) string { return o.ID }) != nil {
		return rule(ruleID, "the line's ID is missing or taken").At("hours " + h.ID)
	}
	return b.checkHours(h)
}

func (b *Build) checkHours(h Hours) error {
	where := "hours " + h.ID
	switch {
	case b.Person(h.Person) == nil:
		return at(missing("person", h.Person), where)
	case b.Task(h.Task) == nil:
		return at(missing("task", h.Task), where)
	case h.Finding != "" && b.Finding(h.Finding) == nil:
		return at(missing("finding", h.Finding), where)
	case h.Start == 0:
		return rule(ruleDates, "the start is missing").At(where + ", start")
	case h.Stop != 0 && h.Stop < h.Start:
		return rule(ruleDates, "the stop lies before the start").At(where + ", stop")
	}
	return nil
}
