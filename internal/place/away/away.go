// Package away is the place of pieces at outside shops: when each load is
// likely back and how much room that leaves, sending, chasing and counting
// back, and what waits when fewer come back than went.
package away

import (
	"fmt"

	"fettle/internal/desk"
	"fettle/internal/web"
)

// photoLimit is the most a photo of pieces may weigh, in bytes.
const photoLimit = 24 << 20

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "away", Label: "Away", Path: "/b/{build}/away", Routes: []web.Route{
		{Pattern: "GET /b/{build}/away", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/load/{load}", Who: web.Guest, Handle: p.showLoad},
		{Pattern: "GET /b/{build}/load/{load}/note", Who: web.Guest, Handle: p.note},
		{Pattern: "GET /b/{build}/load/{load}/claim", Who: web.Guest, Handle: p.claim},
		{Pattern: "POST /b/{build}/load/{load}/send", Who: web.Crew, MaxBody: photoLimit + 1<<20, Handle: p.send},
		{Pattern: "POST /b/{build}/load/{load}/chase", Who: web.Crew, Handle: p.chase},
		{Pattern: "POST /b/{build}/load/{load}/receive", Who: web.Crew, MaxBody: photoLimit + 1<<20, Handle: p.receive},
		{Pattern: "POST /b/{build}/load/{load}/way", Who: web.Crew, Handle: p.way},
	}}
}

type place struct{ desk desk.Desk }

// show answers with all loads as a page, a file, JSON or paper.
func (p place) show(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV("away.csv", s.list().Records())
	case "json":
		return r.JSON(s.cards())
	case "paper":
		return r.Page(web.Sheet{Place: "away", Shown: "loads at outside shops"}, paper(s))
	}
	out := 0
	for _, c := range s.cards() {
		if c.out() {
			out++
		}
	}
	return p.desk.Page(r, web.Sheet{Place: "away", Shown: fmt.Sprintf("%d loads, %d away", len(s.Plan.Loads), out)}, page(s))
}
