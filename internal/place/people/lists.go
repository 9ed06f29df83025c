package people

import (
	"strings"

	"fettle/figure"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

func hours(e unit.Effort) string { return strings.TrimSuffix(e.String(), " h") }

// amount writes money without the sign of the currency, as columns do.
func (f face) amount(m unit.Money) string {
	return strings.Replace(f.View.Build.Currency.Format(m), f.View.Build.Currency.Symbol, "", 1)
}

// peopleTable is one row for each person.
func peopleTable(f face) table.Table {
	t := table.Table{ID: "people", Caption: "Each person", Self: path(f.Build) + "?list=people", Columns: []table.Column{{Head: ""}, {Head: "Who", Wide: true},
		{Head: "Booked", Unit: "h", Number: true}, {Head: "Left", Unit: "h", Number: true}, {Head: "In all", Unit: "h", Number: true},
		{Head: "Given", Unit: "h", Number: true}, {Head: "Paid", Unit: "h", Number: true}}}
	if f.Money {
		symbol := f.View.Build.Currency.Symbol
		t.Columns = append(t.Columns, table.Column{Head: "Overtime", Unit: symbol, Number: true}, table.Column{Head: "Cost", Unit: symbol, Number: true})
	}
	var sum plan.Person
	for _, p := range f.Plan.People {
		sum.Booked, sum.Left, sum.Total = sum.Booked+p.Booked, sum.Left+p.Left, sum.Total+p.Total
		sum.Given, sum.Paid, sum.Cost, sum.Premium = sum.Given+p.Given, sum.Paid+p.Paid, sum.Cost+p.Cost, sum.Premium+p.Premium
		row := f.personRow(p)
		if f.Money && p.Figure.With != "" {
			row.Cells[4] = table.Show(hours(p.Total), numbered("person-"+string(p.ID), shown(p)))
		}
		t.Rows = append(t.Rows, row)
	}
	sum.Name = "All"
	t.Foot = f.personRow(sum).Cells
	return t
}

func (f face) personRow(p plan.Person) table.Row {
	row := table.Row{ID: "person-" + string(p.ID), Cells: []table.Cell{table.Text(string(p.ID)), table.Text(p.Name), table.Text(hours(p.Booked)),
		table.Text(hours(p.Left)), table.Text(hours(p.Total)), table.Text(hours(p.Given)), table.Text(hours(p.Paid))}}
	if f.Money {
		row.Cells = append(row.Cells, table.Text(f.amount(p.Premium)), table.Text(f.amount(p.Cost)))
	}
	return row
}

// taskTable is one row for each person and task, under the person's name, with
// the stage beside it.
func taskTable(f face) table.Table {
	t := table.Table{ID: "hours", Caption: "By task", Self: path(f.Build), Empty: "No hours are planned or booked.", Columns: []table.Column{{Head: "Who"}, {Head: "Stage"},
		{Head: "Task"}, {Head: "What", Wide: true}, {Head: "Planned", Unit: "h", Number: true}, {Head: "Booked", Unit: "h", Number: true}, {Head: "Left", Unit: "h", Number: true}}}
	for _, l := range linesOf(f.Plan, &f.View.Build) {
		t.Rows = append(t.Rows, table.Row{Group: l.Name, Quiet: l.Left == 0, Cells: []table.Cell{table.Text(string(l.Person)), table.Text(l.Stage),
			table.Link(string(l.Task), "/b/"+f.Build+"/task/"+string(l.Task)), table.Text(l.What),
			table.Text(hours(l.Planned)), table.Text(hours(l.Booked)), table.Text(hours(l.Left))}})
	}
	return t
}

// stageTable is one row for each stage, one column for each person: booked
// and left together.
func stageTable(f face) table.Table {
	t := table.Table{ID: "stages", Caption: "By stage, booked and left", Columns: []table.Column{{Head: "Stage", Wide: true}}}
	lines := linesOf(f.Plan, &f.View.Build)
	var who []string
	for _, p := range f.Plan.People {
		if p.Total > 0 {
			who = append(who, string(p.ID))
			t.Columns = append(t.Columns, table.Column{Head: string(p.ID), Unit: "h", Number: true})
		}
	}
	t.Columns = append(t.Columns, table.Column{Head: "All", Unit: "h", Number: true})
	for _, s := range f.Plan.Stages {
		row := table.Row{Cells: []table.Cell{table.Text(s.Stage)}}
		var all unit.Effort
		for _, id := range who {
			var sum unit.Effort
			for _, l := range lines {
				if l.Stage == s.Stage && string(l.Person) == id {
					sum += l.Booked + l.Left
				}
			}
			all += sum
			row.Cells = append(row.Cells, table.Text(hours(sum)))
		}
		if all > 0 {
			row.Cells = append(row.Cells, table.Text(hours(all)))
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// shown is a person's working, with the unit left to the column.
func shown(p plan.Person) figure.Figure {
	f := p.Figure
	f.Text = hours(p.Total)
	return f
}
