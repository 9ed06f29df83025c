package wall

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/live"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

// taskTable lists every task, for people, files and programs.
func taskTable(buildID string, p *plan.Plan, v live.View) table.Table {
	t := table.Table{
		ID: "tasks", Caption: "Tasks", Self: "/b/" + buildID + "/wall",
		Columns: []table.Column{
			{Head: "Task"}, {Head: "Name", Wide: true}, {Head: "Stage"}, {Head: "State"}, {Head: "Who"},
			{Head: "Planned", Unit: "h", Number: true}, {Head: "Booked", Unit: "h", Number: true}, {Head: "Left", Unit: "h", Number: true},
			{Head: "From", Number: true}, {Head: "To", Number: true}, {Head: "Sets the date", Unit: "of 100", Number: true},
		},
	}
	var planned, booked, left unit.Effort
	for _, one := range p.Tasks {
		spent := bookedOn(&v.Build, one.ID)
		planned, booked, left = planned+one.Planned, booked+spent, left+one.Left
		t.Rows = append(t.Rows, table.Row{ID: "task-" + string(one.ID), Quiet: one.State == build.Finished, Cells: []table.Cell{
			table.Link(string(one.ID), taskHref(buildID, one.ID)), table.Text(one.Name), table.Text(one.Stage), table.Text(string(one.State)),
			table.Text(strings.Join(onIt(one), " ")), table.Text(hours(one.Planned)), table.Text(hours(spent)), table.Text(hours(one.Left)),
			day2(one.Start.Date()), day2(lastDay(one.Start, one.Finish)), table.Text(fmt.Sprintf("%.0f", 100*one.Critical)),
		}})
	}
	t.Foot = []table.Cell{table.Text("All"), {}, {}, {}, {}, table.Text(hours(planned)), table.Text(hours(booked)), table.Text(hours(left)), {}, {}, {}}
	return t
}

// day2 is a day in short for people and in figures for files.
func day2(d unit.Date) table.Cell {
	return table.Show(d.String(), word(dayMonth(d)))
}

// onIt lists the people, or the trades where nobody is named yet.
func onIt(t plan.Task) []string {
	var who []string
	for _, l := range t.Legs {
		one := string(l.Trade)
		if l.Person != "" {
			one = string(l.Person)
		}
		if !slices.Contains(who, one) {
			who = append(who, one)
		}
	}
	return who
}

func bookedOn(b *build.Build, task build.TaskID) unit.Effort {
	var sum unit.Effort
	for _, h := range b.Hours {
		if h.Task == task {
			sum += h.Worked
		}
	}
	return sum
}

// hours writes hours without their unit, as columns do.
func hours(e unit.Effort) string { return strings.TrimSuffix(e.String(), " h") }
