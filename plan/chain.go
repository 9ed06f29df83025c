package plan

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/unit"
)

// Step is one link of the chain behind the date, first things first.
type Step struct {
	Task   build.TaskID `json:"task"`
	Name   string       `json:"name"`
	What   string       `json:"what"` // the hours of a trade, or a wait
	Start  unit.Moment  `json:"start"`
	Finish unit.Moment  `json:"finish"`
	Why    string       `json:"why"` // what set its start
}

// chainOf walks the binding chain of the plain plan from now to hand-over.
func chainOf(n *net, res schedule.Result) []Step {
	var steps []Step
	for _, s := range schedule.Chain(n.problem, res) {
		a := n.problem.Activities[s.Activity]
		at := res.Times[s.Activity]
		if a.Kind == schedule.Milestone && at.Start == at.Finish && s.Binding.Cause == schedule.ByLink {
			continue
		}
		task := n.build.Task(build.TaskID(a.Group))
		steps = append(steps, Step{Task: task.ID, Name: task.Name, What: n.what(a, at),
			Start: n.moment(at.Start), Finish: n.moment(at.Finish), Why: n.why(s.Binding, at)})
	}
	slices.Reverse(steps)
	return steps
}

func (n *net) what(a schedule.Activity, at schedule.Timing) string {
	switch {
	case a.Kind == schedule.Passive:
		return WorkingDays(waitDays(a.Work)) + " of waiting"
	case strings.HasSuffix(a.ID, partsGate):
		return "its parts"
	case a.Kind == schedule.Milestone:
		return "ready"
	case len(at.People) > 0:
		return fmt.Sprintf("%s, %s", n.build.People[at.People[0]].Name, unit.Effort(a.Work))
	}
	return unit.Effort(a.Work).String()
}

// why puts a binding into words.
func (n *net) why(b schedule.Binding, at schedule.Timing) string {
	other := ""
	if b.Activity >= 0 {
		other = n.taskLabel(b.Activity)
	}
	switch b.Cause {
	case schedule.ByLink:
		if strings.HasSuffix(n.problem.Activities[b.Activity].ID, partsGate) {
			return "its parts are there"
		}
		return "after " + other
	case schedule.ByPerson:
		return fmt.Sprintf("%s was on %s", n.build.People[b.Person].Name, other)
	case schedule.ByPlace:
		return fmt.Sprintf("%s was full with %s", n.build.Bays[b.Place].Name, other)
	case schedule.ByCalendar:
		if other != "" {
			return "after " + other + ", then off hours"
		}
		return "first working hour"
	case schedule.ByRelease:
		return "waits for parts, or is held until " + n.moment(at.Start).Date().Short()
	case schedule.ByFact:
		return "under way"
	case schedule.ByHold:
		return "kept back for what follows"
	}
	return "nothing holds it: begins now"
}

func (n *net) taskLabel(activity int) string {
	t := n.build.Task(build.TaskID(n.problem.Activities[activity].Group))
	return string(t.ID) + " " + t.Name
}
