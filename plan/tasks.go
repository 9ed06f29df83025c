package plan

import (
	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Task is when one task runs, in the plain plan.
type Task struct {
	ID       build.TaskID    `json:"id"`
	Name     string          `json:"name"`
	Stage    string          `json:"stage"`
	State    build.TaskState `json:"state"`
	Start    unit.Moment     `json:"start,omitzero"`
	Worked   unit.Moment     `json:"worked,omitzero"` // its hours are done; the wait follows
	Finish   unit.Moment     `json:"finish,omitzero"`
	Planned  unit.Effort     `json:"planned_h"`
	Left     unit.Effort     `json:"left_h"`
	Critical float64         `json:"critical"` // part of the played builds whose date it set, 0 to 1
	Legs     []Leg           `json:"legs,omitempty"`
	After    []build.TaskID  `json:"after,omitempty"`
}

// Leg is when one trade works on a task, and who.
type Leg struct {
	Trade   build.TradeID  `json:"trade"`
	Person  build.PersonID `json:"person,omitempty"`
	Planned unit.Effort    `json:"planned_h"`
	Left    unit.Effort    `json:"left_h"`
	Start   unit.Moment    `json:"start,omitzero"`
	Finish  unit.Moment    `json:"finish,omitzero"`
	Figure  figure.Figure  `json:"working"`
}

func tasksOf(n *net, res schedule.Result, odds schedule.Outlook) []Task {
	share := map[string]float64{}
	for _, g := range odds.Groups {
		share[g.Group] = g.Part
	}
	list := make([]Task, 0, len(n.build.Tasks))
	for _, t := range n.build.Tasks {
		p := Task{ID: t.ID, Name: t.Name, Stage: t.Stage, State: t.State, After: t.After, Critical: round4(share[string(t.ID)])}
		for _, w := range n.work[t.ID] {
			p.Planned, p.Left = p.Planned+w.Planned, p.Left+w.Left
			p.Legs = append(p.Legs, n.legOf(w, res))
		}
		n.timing(&p, t, res)
		list = append(list, p)
	}
	return list
}

// legOf returns a line of work with its time and its person.
func (n *net) legOf(w takeoff.Work, res schedule.Result) Leg {
	l := Leg{Trade: w.Trade, Planned: w.Planned, Left: w.Left, Figure: w.Figure}
	for _, own := range n.legs {
		if own.task != w.Task || own.work.Trade != w.Trade {
			continue
		}
		at := res.Times[own.activity]
		l.Start, l.Finish = n.moment(at.Resume), n.moment(at.Finish)
		if len(at.People) > 0 {
			l.Person = n.build.People[at.People[0]].ID
		}
	}
	return l
}

// timing fills in start and finish: facts where there are any, else the plan.
func (n *net) timing(p *Task, t build.Task, res schedule.Result) {
	if t.State == build.Finished {
		p.Start, p.Worked, p.Finish = t.Began.At(8, 0), t.Ended.At(16, 0), t.Ended.At(16, 0)
		return
	}
	p.Worked, p.Finish = n.moment(res.Times[n.joins[t.ID]].Finish), n.moment(res.Times[n.ends[t.ID]].Finish)
	p.Start = p.Worked
	for _, i := range n.starts[t.ID] {
		p.Start = min(p.Start, n.moment(res.Times[i].Start))
	}
	if t.State == build.Begun {
		p.Start = t.Began.At(8, 0)
	}
}
