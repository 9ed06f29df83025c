// Package tin is the place of money: what the build costs line by line, what
// was given, what reaches the cause, and the account that a treasurer asks for.
package tin

import (
	"fettle/internal/desk"
	"fettle/internal/web"
)

// photoLimit is the most a photo of a receipt may weigh, in bytes.
const photoLimit = 24 << 20

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "tin", Label: "Tin", Path: "/b/{build}/tin", Routes: []web.Route{
		{Pattern: "GET /b/{build}/tin", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/tin/account", Who: web.Guest, Handle: p.account},
		{Pattern: "GET /b/{build}/payment/{payment}", Who: web.Guest, Handle: p.receipt},
		{Pattern: "POST /b/{build}/tin/pay", Who: web.Crew, MaxBody: photoLimit + 1<<20, Handle: p.pay},
		{Pattern: "POST /b/{build}/tin/gift", Who: web.Crew, Handle: p.gift},
		{Pattern: "POST /b/{build}/tin/kind", Who: web.Crew, Handle: p.kind},
		{Pattern: "POST /b/{build}/tin/thank", Who: web.Crew, Handle: p.thank},
		{Pattern: "POST /b/{build}/tin/budget", Who: web.Crew, Handle: p.budget},
		{Pattern: "POST /b/{build}/tin/sale", Who: web.Crew, Handle: p.sale},
	}}
}

type place struct{ desk desk.Desk }

// show answers with the tin as a page, a file, JSON or paper.
func (p place) show(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV("tin.csv", s.lines().Records())
	case "json":
		return r.JSON(s.data())
	case "paper":
		return r.Page(web.Sheet{Place: "tin", Shown: "cash, gifts and what reaches the cause"}, page(s, form{Paper: true}))
	}
	return p.desk.Page(r, web.Sheet{Place: "tin", Shown: "cash, gifts and what reaches the cause"}, page(s, form{}))
}
