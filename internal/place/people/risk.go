package people

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

// riskTable is one row for each thing that may happen, and those settled.
func riskTable(f face) table.Table {
	t := table.Table{ID: "may-happen", Caption: "What may happen", Empty: "Nobody has said what may happen.", Columns: []table.Column{{Head: ""}, {Head: "What", Wide: true}, {Head: "Task"},
		{Head: "Takes"}, {Head: "Chance", Number: true}, {Head: "Ready if so", Unit: "%", Number: true}, {Head: "Ready if not", Unit: "%", Number: true}, {Head: "Later", Unit: "days", Number: true}}}
	for _, e := range f.View.Build.Risk.Events {
		row := table.Row{Cells: []table.Cell{table.Text(string(e.ID)), table.Text(e.What), table.Link(string(e.Task), "/b/"+f.Build+"/task/"+string(e.Task)), table.Text(cost(e))}}
		i := slices.IndexFunc(f.Plan.MayHappen, func(m plan.MayHappen) bool { return m.Event == e.ID })
		switch {
		case !e.Open():
			row.Quiet = true
			row.Cells = append(row.Cells, table.Text(string(e.State)), table.Text(""), table.Text(""), table.Text(""))
		case i < 0:
			row.Cells = append(row.Cells, table.Text("its task is finished"), table.Text(""), table.Text(""), table.Text(""))
		default:
			m := f.Plan.MayHappen[i]
			row.Cells = append(row.Cells, table.Show(m.Figure.Text, numbered("event-"+string(e.ID), m.Figure)))
			row.Cells = append(row.Cells, does(m)...)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// does is what an event does to the date in the played builds.
func does(m plan.MayHappen) []table.Cell {
	if m.Chance == 0 {
		return []table.Cell{table.Text(""), table.Text(""), table.Text("")}
	}
	return []table.Cell{table.Text(fmt.Sprintf("%.0f", 100*m.With)), table.Text(fmt.Sprintf("%.0f", 100*m.Without)), table.Text(fmt.Sprintf("%.1f", m.Later))}
}

// cost says what an event costs.
func cost(e build.Event) string {
	var parts []string
	for _, l := range e.Work {
		parts = append(parts, fmt.Sprintf("%s %s", l.Trade, l.Hours))
	}
	if e.Days > 0 {
		parts = append(parts, plan.WorkingDays(e.Days))
	}
	if e.Again() {
		parts = append(parts, "the task once more")
	}
	text := strings.Join(parts, ", ")
	if e.Times > 1 {
		text += fmt.Sprintf(", up to %d times", e.Times)
	}
	return text
}

// wholeTask is picked where an event sends its task back.
const wholeTask = "whole task"

func (p place) judge(r *web.Request) error {
	f, shown, err := p.form(r)
	if err != nil {
		return err
	}
	b := &shown.View.Build
	e := build.Event{ID: build.EventID(f.Text("risk-id", 1, 8)), What: f.Text("risk-what", 1, 80), Source: f.Text("risk-source", 0, 80)}
	e.Task = build.TaskID(f.Choice("risk-task", openTasks(b)...))
	e.Chance = float64(f.Decimal("risk-chance", 1, 0, 1000)) / 1000
	e.Times = int(f.Int("risk-times", 1, 5))
	if trade := f.Choice("risk-costs", append(trades(b), wholeTask)...); trade != wholeTask {
		e.Work = []build.Leg{{Trade: build.TradeID(trade), Hours: unit.Effort(unit.MulDiv(f.Decimal("risk-hours", 2, 25, 1000_00), 60, 100))}}
	}
	return p.propose(r, f, shown, &build.JudgeEvent{Event: e})
}

func (p place) settle(r *web.Request) error {
	f, shown, err := p.form(r)
	if err != nil {
		return err
	}
	id := f.Choice("settle-event", openEvents(&shown.View.Build)...)
	did := f.Choice("settle-did", "yes", "no")
	return p.propose(r, f, shown, &build.SettleEvent{Event: build.EventID(id), Happened: did == "yes"})
}

func (p place) judgeRange(r *web.Request) error {
	f, shown, err := p.form(r)
	if err != nil {
		return err
	}
	c := &build.JudgeRange{Of: build.RangeOf(f.Choice("range-of", string(build.OfLateParts), string(build.OfPeople))), Source: f.Text("range-source", 0, 80)}
	point := func(name string) float64 { return float64(f.Decimal(name, 2, 0, 100_00)) / 100 }
	c.Range = build.Span{Low: point("range-low"), Mode: point("range-mode"), High: point("range-high")}
	tried := shown.View.Build.Clone()
	if err := c.Apply(&tried); err != nil && f.Err() == nil {
		f.Fail("range-low", "must not lie above mostly, nor that above at most; how people differ is above 0")
	}
	return p.propose(r, f, shown, c)
}

func openTasks(b *build.Build) []string {
	var list []string
	for _, t := range b.Tasks {
		if t.State != build.Finished {
			list = append(list, string(t.ID))
		}
	}
	return list
}

func openEvents(b *build.Build) []string {
	var list []string
	for _, e := range b.Risk.Events {
		if e.Open() {
			list = append(list, string(e.ID))
		}
	}
	return list
}

func trades(b *build.Build) []string {
	var list []string
	for _, t := range b.Trades {
		list = append(list, string(t.ID))
	}
	return list
}

// judged writes a range as it stands.
func judged(j build.Judged, of string) string {
	if !j.Given() {
		return "not judged yet: " + of
	}
	text := fmt.Sprintf("%v to %v, mostly %v", j.Range.Low, j.Range.High, j.Range.Mode)
	if j.Source != "" {
		text += " (" + j.Source + ")"
	}
	return text
}
