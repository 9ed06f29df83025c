package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/unit"
)

// Mover is a task whose hours move the date most.
type Mover struct {
	Task build.TaskID `json:"task"`
	Name string       `json:"name"`
	Part float64      `json:"part"` // of the played builds in which it set the date
	Left unit.Effort  `json:"left_h"`
	Says string       `json:"says"`
}

// moversOf returns the three open tasks that would move the date most: those
// that set it in most played builds, weighted by how far they may run over.
func moversOf(n *net, tasks []Task) []Mover {
	type weighed struct {
		Mover
		weight float64
	}
	var list []weighed
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
	if task.Outwork == "" {
		return worst, "its hours"
	}
	wait, _ := n.wait(*task)
	return max(worst, float64(wait)/dayLong*(n.high("outwork")-1)), "its turn-round"
}

func (n *net) high(kind string) float64 {
	for _, r := range n.build.Risk.Ranges {
		if r.Kind == kind {
			return r.Factor.High
		}
	}
	return 1
}
