package plan

import (
	"fmt"

	"fettle/engine/schedule"
	"fettle/unit"
)

const provedBest = "proved best"

// standing says in words how good a plan is known to be.
func (n *net) standing(res schedule.Result) string {
	gap := n.daysBetween(n.day(res.LowerBound), n.day(res.Makespan))
	switch {
	case res.Status == schedule.OutOfHours:
		return "does not fit the calendars"
	case res.Status == schedule.ProvedBest || gap == 0:
		return provedBest
	case gap == 1:
		return "within 1 day of the bound"
	}
	return fmt.Sprintf("within %d days of the bound", gap)
}

// bound is the day before which nobody can be finished.
func (n *net) bound(res schedule.Result) unit.Date {
	if last, over := n.over(); over {
		return last
	}
	return n.day(res.LowerBound)
}
