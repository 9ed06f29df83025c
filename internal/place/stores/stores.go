// Package stores is the place of parts: what to order today, what is on its
// way and whether it comes in time, what came in, and what paint and hides the
// build takes.
package stores

import (
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
)

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "stores", Label: "Stores", Path: "/b/{build}/stores", Routes: []web.Route{
		{Pattern: "GET /b/{build}/stores", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/stores/order", Who: web.Guest, Handle: p.orderPaper},
		{Pattern: "POST /b/{build}/stores/order", Who: web.Crew, Handle: p.order},
		{Pattern: "POST /b/{build}/stores/receive", Who: web.Crew, Handle: p.receive},
		{Pattern: "GET /b/{build}/stores/new", Who: web.Crew, Handle: p.newPart},
		{Pattern: "POST /b/{build}/stores/new", Who: web.Crew, Handle: p.addPart},
		{Pattern: "GET /b/{build}/part/{part}", Who: web.Guest, Handle: p.showPart},
		{Pattern: "POST /b/{build}/part/{part}/promise", Who: web.Crew, Handle: p.promise},
		{Pattern: "POST /b/{build}/part/{part}/cancel", Who: web.Crew, Handle: p.cancel},
	}}
}

type place struct{ desk desk.Desk }

// show answers with the stores as a page, a file, JSON or paper.
func (p place) show(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV("stores.csv", s.whole().Records())
	case "json":
		return r.JSON(s.shelf())
	case "paper":
		return r.Page(web.Sheet{Place: "stores", Shown: "parts, all"}, paper(s))
	}
	return p.desk.Page(r, web.Sheet{Place: "stores", Shown: s.shown()}, page(s, nil))
}

// noPart is the fault of a part that is not on the list.
func noPart(id string) error {
	return fault.New(fault.NotFound, "there is no part %q", id).WithHint("the stores list every part with its number")
}
