// Package today is one person's list for the day, and the morning's list of
// everybody on one screen.
package today

import (
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/plan"
)

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "today", Label: "Today", Path: "/b/{build}/today", Helper: true, Routes: []web.Route{
		{Pattern: "GET /b/{build}/today", Who: web.Guest, Handle: p.show},
	}}
}

type place struct{ desk desk.Desk }

// everybody is the person that asks for the morning's list.
const everybody = "all"

func (p place) show(r *web.Request) error {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return err
	}
	who, err := asked(r, &view.Build)
	if err != nil {
		return err
	}
	h := huddle(r.Build(), pl, view, p.desk.Shop.Now())
	h.Who = who
	if who != everybody {
		i := slices.IndexFunc(h.People, func(o person) bool { return string(o.Person.ID) == who })
		h.One, h.Lead = &h.People[i], i == 0
	}
	switch r.As() {
	case "csv":
		return r.CSV("today-"+who+".csv", listTable(h).Records())
	case "json":
		return r.JSON(listed(h))
	}
	shown := "what everybody does, " + h.Day.Long()
	if h.One != nil {
		shown = "what " + h.One.Person.Name + " does, " + h.Day.Long()
	}
	return p.desk.Page(r, web.Sheet{Place: "today", Shown: shown}, page(h))
}

// asked returns whose list is shown: the one named, else that of whoever asks,
// else everybody's.
func asked(r *web.Request, b *build.Build) (string, error) {
	who := r.Query("who")
	if who == "" {
		who = everybody
		if own := b.Person(build.PersonID(r.Person().Code)); own != nil {
			who = string(own.ID)
		}
	}
	if who != everybody && b.Person(build.PersonID(who)) == nil {
		return "", fault.New(fault.NotFound, "nobody here is called %q", who).WithHint("Touch a name plate on the page of today.")
	}
	return who, nil
}

// ordersDue are the parts to order now.
func ordersDue(p *plan.Plan) []plan.Order {
	var due []plan.Order
	for _, o := range p.Orders {
		if slices.Contains(p.Today, o.Part) {
			due = append(due, o)
		}
	}
	return due
}

// money writes an amount in the build's currency.
func (h day) money(o plan.Order) string { return h.View.Build.Currency.Format(o.Cost) }
