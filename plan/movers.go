package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/unit"
)

// Mover is a task whose hours move the date most.
type Mover struct {
	Task build.TaskID `json:"task"`
	Name string       `json:"name"`
	Part float64      `json:"part"` // of the played builds in which it set the date
	Left unit.Effort  `json:"left_h"`
	Says string       `json:"says"`
	// Event is what may happen to the task, where that is what moves the date.
	Event build.EventID `json:"event,omitempty"`
}

// weighed is a mover with how many days it moves the date, times how often.
type weighed struct {
	Mover
	weight float64
}

// moversOf returns the three things that would move the date most: open tasks
// that set it in most played builds, weighted by how far they may run over, and
// what may happen, by how much later the builds end in which it does.
func moversOf(n *net, tasks []Task, odds schedule.Outlook) []Mover {
	list := n.eventMovers(odds)
	for _, t := range tasks {
		if t.State == build.Finished || t.Critical == 0 {
			continue
		}
		days, what := n.reach(t)
		if days < 0.05 {
			continue
		}
		m := Mover{Task: t.ID, Name: t.Name, Part: t.Critical, Left: t.Left}
		m.Says = fmt.Sprintf("sets the date in %.0f of 100 builds; may run %s over by up to %s", 100*t.Critical, what, inDays(int(math.Ceil(days-0.01))))
		list = append(list, weighed{m, t.Critical * days})
	}
	slices.SortStableFunc(list, func(a, b weighed) int { return cmp.Compare(b.weight, a.weight) })
	var top []Mover
	for _, w := range list[:min(3, len(list))] {
		top = append(top, w.Mover)
	}
	return top
}

// reach returns by how many days a task may overrun its plan, at the high end
// of its range.
func (n *net) reach(t Task) (float64, string) {
	task := n.build.Task(t.ID)
	worst := 0.0
	for _, l := range t.Legs {
		if p := n.build.Person(l.Person); p != nil && l.Left > 0 {
			worst = max(worst, l.Left.H()/(p.PerWeek().H()/5)*(n.high(task.Risk)-1))
		}
	}
	if late := float64(n.parts[t.ID].begin.points[2]-n.minute(t.Start)) / 1440; late > worst && t.State == build.NotBegun {
		return late, "the wait for its parts"
	}
	if task.Outwork == "" {
		return worst, "its hours"
	}
	wait, _ := n.wait(*task)
	return max(worst, float64(wait)/dayLong*(n.high("outwork")-1)), "its turn-round"
}

func (n *net) high(kind string) float64 {
	if r, ok := n.stated(kind); ok {
		return r.Factor.High
	}
	return 1
}

// eventMovers are the events that the played builds end later for.
func (n *net) eventMovers(odds schedule.Outlook) []weighed {
	var list []weighed
	for _, x := range n.events {
		s, ok := x.strike(odds)
		days := float64(s.Later) / 1440
		if !ok || days <= 0 {
			continue
		}
		m := Mover{Task: x.Task, Name: x.What, Part: s.Part, Event: x.ID}
		m.Says = fmt.Sprintf("happens in %.0f of 100 builds; they end %s later and %.0f %% of them are ready in time, else %.0f %%",
			100*s.Part, daysLater(s.Later), 100*s.With, 100*s.Without)
		list = append(list, weighed{m, s.Part * days})
	}
	return list
}
