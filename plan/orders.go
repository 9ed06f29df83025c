package plan

import (
	"cmp"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Order is a part with the last day on which it may be ordered.
type Order struct {
	Part    build.PartID      `json:"part"`
	Name    string            `json:"name"`
	Count   int               `json:"quantity"`
	Cost    unit.Money        `json:"cost"`
	Donated bool              `json:"donated,omitempty"`
	State   build.OrderState  `json:"state"`
	Task    build.TaskID      `json:"needed_for"`
	Lead    int               `json:"lead_days"`
	NeedBy  unit.Date         `json:"need_by,omitzero"`
	OrderBy unit.Date         `json:"order_by,omitzero"`
	There   unit.Date         `json:"there,omitzero"` // arrived, promised, or reckoned from order and lead
	When    string            `json:"when"`           // late, due, later, on order, here
	Because []build.FindingID `json:"because,omitempty"`
	Figure  figure.Figure     `json:"working"`
}

// ordersOf returns all parts, those still to order first by their last order
// day, and the IDs of those that are due.
func ordersOf(n *net, tasks []Task, lists []takeoff.List) (orders []Order, due []build.PartID) {
	margin := n.build.Shop.OrderMargin
	for _, list := range lists {
		for _, w := range list.Wants {
			orders = append(orders, n.order(w, tasks, margin))
		}
	}
	slices.SortStableFunc(orders, func(a, b Order) int {
		return cmp.Or(cmp.Compare(rank(a.When), rank(b.When)), cmp.Compare(a.OrderBy, b.OrderBy), cmp.Compare(a.Part, b.Part))
	})
	for _, o := range orders {
		if o.When == "late" || o.When == "due" {
			due = append(due, o.Part)
		}
	}
	return orders, due
}

func rank(when string) int {
	return slices.Index([]string{"late", "due", "later", "on order", "here"}, when)
}

func (n *net) order(w takeoff.Want, tasks []Task, margin int) Order {
	p := n.build.Part(w.Part)
	o := Order{Part: p.ID, Name: p.Name, Count: p.Quantity, Cost: p.Cost(), Donated: p.Donated, State: p.State,
		Task: p.Task, Lead: p.Lead, Because: p.Because, Figure: w.Figure}
	t := tasks[slices.IndexFunc(tasks, func(t Task) bool { return t.ID == p.Task })]
	o.NeedBy = t.Start.Date()
	if p.AtEnd {
		o.NeedBy = t.Worked.Date()
	}
	if o.NeedBy != 0 {
		o.OrderBy = n.addDays(o.NeedBy, -p.Lead)
	}
	o.There, o.When = n.arrival(*p), n.when(*p, o.OrderBy, margin)
	if o.When == "here" {
		o.There = p.Arrived
	}
	o.Figure.Name = "last order day of " + p.Name
	o.Figure.Formula = "day it is needed less the supplier's lead in working days; due when less than the shop's margin is left"
	if o.NeedBy == 0 {
		o.Figure.Text, o.Figure.With = "none", "its task has no day in this plan"
		return o
	}
	o.Figure.Text = o.OrderBy.Short()
	o.Figure.With = fmt.Sprintf("%s − %d working days = %s; margin %d working days; today %s",
		o.NeedBy.Short(), p.Lead, o.OrderBy.Short(), margin, n.now.Date().Short())
	return o
}

// when says how an order stands: a part whose task has no day can wait.
func (n *net) when(p build.Part, orderBy unit.Date, margin int) string {
	today := n.now.Date()
	switch {
	case p.State == build.In || p.State == build.Given:
		return "here"
	case p.State == build.Ordered || p.State == build.Promised || p.State == build.Late:
		return "on order"
	case orderBy == 0:
		return "later"
	case orderBy < today:
		return "late"
	case n.addDays(orderBy, -margin) <= today:
		return "due"
	}
	return "later"
}
