package wall

import (
	"context"
	"fmt"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/plan"
)

// betterOf looks for a better order with the budget that a page spends.
func betterOf(shop *live.Shop) func(context.Context, string) (*plan.BetterOrder, error) {
	return func(ctx context.Context, build string) (*plan.BetterOrder, error) {
		b, _, err := shop.Better(ctx, build, 0)
		return b, err
	}
}

// ordering is what the page of a better order needs to know.
type ordering struct {
	Build string
	Plan  *plan.Plan
	View  live.View
	Order *plan.BetterOrder // nil while it is being looked for
}

func orderHref(build string) string { return "/b/" + build + "/wall/order" }

func (p place) ordering(r *web.Request, wait bool) (ordering, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return ordering{}, err
	}
	o := ordering{Build: r.Build(), Plan: pl, View: view}
	if wait || p.orders.known(r.Build(), view) {
		o.Order, err = p.orders.of(r.Context(), r.Build(), view)
	}
	return o, err
}

func (p place) showOrder(r *web.Request) error {
	as := r.As()
	o, err := p.ordering(r, as != "page" || r.Query("now") != "")
	if err != nil {
		return err
	}
	switch as {
	case "csv":
		return r.CSV(r.Build()+"-better-order.csv", shiftTable(o).Records())
	case "json":
		return r.JSON(o.Order)
	}
	return p.desk.Page(r, web.Sheet{Place: "wall", Shown: "a better order"}, orderPage(o))
}

func (p place) orderFound(r *web.Request) error {
	o, err := p.ordering(r, true)
	if err != nil {
		return err
	}
	return r.Fragment(orderShown(o))
}

func (p place) orderLine(r *web.Request) error {
	o, err := p.ordering(r, true)
	if err != nil {
		return err
	}
	return r.Fragment(orderCard(o.Build, o.Order))
}

// putOrder lays the better order on the person's slip, where its knock-on
// shows before it is kept.
func (p place) putOrder(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	says := f.Text("finding", 1, 500)
	if f.Err() != nil {
		return f.Err()
	}
	o, err := p.ordering(r, true)
	if err != nil {
		return err
	}
	if !o.Order.Found || o.Order.Says != says {
		return fault.New(fault.Conflict, "that order is no longer the better one").WithHint("The facts have moved on: look at the better order again.")
	}
	return p.desk.Propose(r, "/b/"+r.Build()+"/slip", o.Order.Changes...)
}

// orderTable sets the plan as it stands beside the plan with the better order.
func orderTable(o ordering) table.Table {
	b := o.Order
	t := table.Table{ID: "order-dates", Caption: "What it does",
		Columns: []table.Column{{Head: "", Wide: true}, {Head: "As it stands", Number: true}, {Head: "Then", Number: true}}}
	row := func(name string, before, after table.Cell) {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(name), before, after}})
	}
	row("If nothing runs over", day2(b.Before.Plain), day2(b.After.Plain))
	row("Half of the builds by", day2(b.Before.P50), day2(b.After.P50))
	row("Four in five by", day2(b.Before.P80), day2(b.After.P80))
	row("Odds of "+o.Plan.Promise.Ready.Long()+", %", prospectCell(b.Before), prospectCell(b.After))
	row(fmt.Sprintf("Starts of the next %d working days that move", plan.NearDays), table.Text("0"), table.Text(fmt.Sprint(b.Near)))
	if b.Saturdays > 0 {
		row("Saturdays asked for", table.Text("0"), table.Text(fmt.Sprint(b.Saturdays)))
	}
	row("Cash, more", table.Text(""), table.Text(o.View.Build.Currency.Format(b.Cash)))
	return t
}

func prospectCell(p plan.Prospect) table.Cell {
	return table.Show(fmt.Sprintf("%.0f", 100*p.Ready), markOf(p))
}

func wordOf(p plan.Prospect) mark.Meaning { return mark.Meaning(p.Word) }

// acts are the changes of a better order in words.
func (o ordering) acts() []string {
	var list []string
	for _, c := range o.Order.Changes {
		switch c := c.(type) {
		case *build.ArrangeTasks:
			list = append(list, movesOf(&o.View.Build, c)...)
		case *build.AddOvertime:
			list = append(list, comesOn(&o.View.Build, c))
		}
	}
	return list
}

// comesOn tells on which days somebody is asked to come.
func comesOn(b *build.Build, c *build.AddOvertime) string {
	var on []string
	for _, d := range c.Days {
		on = append(on, weekDay(d))
	}
	return fmt.Sprintf("%s comes on %s, %s each", b.Person(c.Person).Name, strings.Join(on, ", "), c.Hours)
}

// movesOf tells of each task that changes its place in the list.
func movesOf(b *build.Build, c *build.ArrangeTasks) []string {
	var list []string
	name := func(id build.TaskID) string { return string(id) + " " + b.Task(id).Name }
	for _, m := range c.Moved(b) {
		where := " comes last on the list"
		if m.Next != "" {
			where = " comes before " + name(m.Next)
		}
		list = append(list, name(m.Task)+where)
	}
	return list
}

// shiftTable lists every task whose days move, and why.
func shiftTable(o ordering) table.Table {
	t := table.Table{
		ID: "order-shifts", Caption: "Tasks whose days move", Self: orderHref(o.Build), Empty: "No task moves.",
		Columns: []table.Column{{Head: "Task"}, {Head: "Name", Wide: true}, {Head: "Was", Number: true}, {Head: "Then", Number: true},
			{Head: "Start", Unit: "days", Number: true}, {Head: "End", Unit: "days", Number: true}, {Head: "What sets its start then", Wide: true}},
	}
	if o.Order == nil {
		return t
	}
	for _, s := range o.Order.Shifts {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Link(string(s.Task), taskHref(o.Build, s.Task)), table.Text(s.Name),
			table.Text(spanOf(s.Before)), table.Text(spanOf(s.After)),
			table.Text(shifted(s.Start)), table.Text(shifted(s.Finish)), table.Text(upper(s.Why)),
		}})
	}
	return t
}

// shifted writes working days with their sign.
func shifted(days int) string {
	if days == 0 {
		return "0"
	}
	return signed(float64(days))
}

func spanOf(d plan.Days) string {
	if d.First == d.Last {
		return dayMonth(d.First)
	}
	return dayMonth(d.First) + " – " + dayMonth(d.Last)
}

// standsSays tells how good the list as it stands is known to be.
func standsSays(o ordering) string {
	switch {
	case o.Order.Bound == 0:
		return "The work does not fit the calendars."
	case o.Order.Status == "proved best":
		return fmt.Sprintf("No order finishes before %s with these people and hours: the list as it stands is proved best.", o.Order.Bound.Long())
	}
	return fmt.Sprintf("No order finishes before %s with these people and hours; the list as it stands is %s.", o.Order.Bound.Long(), o.Order.Status)
}
