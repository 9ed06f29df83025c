package wall

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

// card is what a task's page needs to know.
type card struct {
	Build    string
	Plan     plan.Task
	Task     build.Task
	View     live.View
	Booked   unit.Effort
	Own      []booked
	Findings []build.Finding
	Parts    []plan.Order
	Load     *plan.Load
	Before   []plan.Task
	After    []plan.Task
	Entry    string
	Crew     bool
	Wrong    field.Errors
	Sent     map[string]string // what was typed, to show it again
	Bay      string
}

// booked is what one person booked on a task.
type booked struct {
	Person build.Person
	Hours  unit.Effort
	On     bool // is on it now
}

func (p place) card(r *web.Request) (card, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return card{}, err
	}
	id := build.TaskID(r.Path("task"))
	task := view.Build.Task(id)
	if task == nil {
		return card{}, fault.New(fault.NotFound, "there is no task %q", id).WithHint("The wall lists every task.")
	}
	c := card{Build: r.Build(), Plan: taskOf(pl, id), Task: *task, View: view, Booked: bookedOn(&view.Build, id),
		Entry: field.NewEntry(), Crew: r.Person().Role >= web.Crew}
	c.people()
	for _, f := range view.Build.Findings {
		if f.Task == id {
			c.Findings = append(c.Findings, f)
		}
	}
	for _, o := range pl.Orders {
		if o.Task == id {
			c.Parts = append(c.Parts, o)
		}
	}
	for i, l := range pl.Loads {
		if l.ID == task.Outwork || view.Build.Load(l.ID).Task == id {
			c.Load = &pl.Loads[i]
		}
	}
	c.neighbours(pl)
	if i := slices.IndexFunc(view.Build.Bays, func(b build.Bay) bool { return b.ID == task.Bay }); i >= 0 {
		c.Bay = view.Build.Bays[i].Name
	}
	return c, nil
}

func (c *card) people() {
	for _, who := range c.View.Build.People {
		one := booked{Person: who}
		for _, h := range c.View.Build.Hours {
			if h.Person == who.ID && h.Task == c.Task.ID {
				one.Hours += h.Worked
				one.On = one.On || h.Stop == 0
			}
		}
		if one.Hours > 0 || one.On {
			c.Own = append(c.Own, one)
		}
	}
}

func (c *card) neighbours(pl *plan.Plan) {
	for _, t := range pl.Tasks {
		if slices.Contains(c.Task.After, t.ID) {
			c.Before = append(c.Before, t)
		}
		if slices.Contains(t.After, c.Task.ID) {
			c.After = append(c.After, t)
		}
	}
}

func (c card) title() string { return string(c.Task.ID) + " " + c.Task.Name }

func (c card) at(act string) string { return taskHref(c.Build, c.Task.ID) + "/" + act }

func (p place) showTask(r *web.Request) error {
	c, err := p.card(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "json":
		return r.JSON(c.Plan)
	case "csv":
		return r.CSV(string(c.Task.ID)+".csv", legTable(c).Records())
	}
	return p.desk.Page(r, web.Sheet{Place: "wall", Shown: c.title()}, taskPage(c))
}

// toTask leads links of the form /b/pedlar/task/T08 to the task's page.
func (p place) toTask(r *web.Request) error {
	return r.SeeOther(taskHref(r.Build(), build.TaskID(r.Path("task"))))
}

// legTable lists a task's legs.
func legTable(c card) table.Table {
	t := table.Table{ID: "legs", Caption: "Hours", Self: taskHref(c.Build, c.Task.ID), Columns: []table.Column{
		{Head: "Trade", Wide: true}, {Head: "Who"}, {Head: "Planned", Unit: "h", Number: true}, {Head: "Left", Unit: "h", Number: true},
		{Head: "From", Number: true}, {Head: "To", Number: true}}}
	for _, l := range c.Plan.Legs {
		name := string(l.Trade)
		if trade := c.View.Build.Trade(l.Trade); trade != nil {
			name = trade.Name
		}
		row := []table.Cell{table.Text(name), table.Text(string(l.Person)), table.Text(hours(l.Planned)),
			table.Show(hours(l.Left), figureCell("leg-"+string(l.Trade), l.Figure)), {}, {}}
		if l.Start != 0 {
			row[4], row[5] = table.Show(l.Start.String(), word(moment(l.Start))), table.Show(l.Finish.String(), word(moment(l.Finish)))
		}
		t.Rows = append(t.Rows, table.Row{Cells: row})
	}
	t.Empty = "No hours of ours: the time is a wait or an outside shop's."
	return t
}

func moment(m unit.Moment) string { return weekDay(m.Date()) + " " + m.Clock() }

// value is what a field shows: what was typed, else what is known.
func (c card) value(name, known string) string {
	if v, ok := c.Sent[name]; ok {
		return v
	}
	return known
}

// line says what the plan makes of the task in one sentence.
func (c card) line() string {
	t := c.Plan
	switch t.State {
	case build.Finished:
		return fmt.Sprintf("Finished on %s, begun on %s.", c.Task.Ended.Long(), c.Task.Began.Long())
	case build.Begun:
		return fmt.Sprintf("Begun on %s; hours done by %s%s.", c.Task.Began.Long(), lastDay(t.Start, t.Worked).Long(), c.wait())
	}
	return fmt.Sprintf("Planned from %s; hours done by %s%s.", t.Start.Date().Long(), lastDay(t.Start, t.Worked).Long(), c.wait())
}

func (c card) wait() string {
	if c.Task.Wait == 0 {
		return ""
	}
	return fmt.Sprintf(", then %s of waiting until %s", plan.WorkingDays(c.Task.Wait), lastDay(c.Plan.Worked, c.Plan.Finish).Long())
}

// partWord says whether a part is there.
func partWord(o plan.Order) string {
	switch {
	case o.When == "here":
		return "here"
	case o.When == "on order":
		return "due " + weekDay(o.There)
	}
	return strings.TrimSpace(o.When + ", order by " + weekDay(o.OrderBy))
}
