package today

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/plan"
	"fettle/unit"
)

func (h day) self() string { return "/b/" + h.Build + "/today" }

func (h day) task(id build.TaskID) string { return "/b/" + h.Build + "/task/" + string(id) }

func weekDay(d unit.Date) string { return d.Time().Format("Mon 2 Jan") }

func hours(e unit.Effort) string { return strings.TrimSuffix(e.String(), " h") }

// late says how a day that is due stands to today.
func (h day) late(due unit.Date) string {
	switch n := int(h.Day - due); {
	case n == 0:
		return "due today"
	case n == 1:
		return "due yesterday"
	default:
		return fmt.Sprintf("due %s, %d days late", weekDay(due), n)
	}
}

// span writes the days of a booth task.
func (b booth) span() string {
	if b.From == b.To {
		return weekDay(b.From)
	}
	return weekDay(b.From) + " – " + weekDay(b.To)
}

func float(l plan.Load) string {
	switch {
	case l.Float == 1:
		return "1 day of float"
	case l.Float < 0:
		return fmt.Sprintf("%d days short", -l.Float)
	}
	return fmt.Sprintf("%d days of float", l.Float)
}

// cautions are those of today's work, each said once.
func (p person) cautions() []string {
	var all []string
	seen := map[string]bool{}
	for _, j := range p.Now {
		for _, c := range j.Cautions {
			if !seen[c] {
				seen[c] = true
				all = append(all, string(j.Task.ID)+": "+c)
			}
		}
	}
	return all
}

// obstacle is the first thing in the way of the person's day.
func (p person) obstacle() string {
	for _, j := range p.Now {
		if j.Obstacle != "" {
			return string(j.Task.ID) + ": " + j.Obstacle
		}
	}
	return ""
}
