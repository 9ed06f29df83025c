// Package journal is the place where every kept change stands: who, when, on
// which device, in words, with a way to put it back, and what moved the date.
package journal

import (
	"fmt"

	"fettle/internal/desk"
	"fettle/internal/web"
)

// Place returns the place with its routes. Putting back is answered by the
// place of slips.
func Place(d desk.Desk) web.Place {
	p := place{desk: d, readings: &readings{}}
	return web.Place{Key: "journal", Label: "Journal", Path: "/b/{build}/journal", Helper: true, Routes: []web.Route{
		{Pattern: "GET /b/{build}/journal", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/journal/why", Who: web.Guest, Handle: p.why},
		{Pattern: "GET /b/{build}/journal/why/table", Who: web.Guest, Handle: p.whyTable},
	}}
}

type place struct {
	desk     desk.Desk
	readings *readings
}

// onePage is how many entries stand on a page.
const onePage = 80

func (p place) show(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	rows := s.Filter.of(s.Rows)
	switch r.As() {
	case "csv":
		return r.CSV("journal.csv", s.table(rows).Records())
	case "json":
		return r.JSON(rows)
	case "paper":
		return r.Page(web.Sheet{Place: "journal", Shown: s.Filter.says(len(rows))}, paper(s, rows))
	}
	s.Page, s.Older = s.Filter.page(rows)
	return p.desk.Page(r, web.Sheet{Place: "journal", Shown: s.Filter.says(len(rows))}, page(s))
}

// says names what the filter shows.
func (f filter) says(n int) string {
	text := fmt.Sprintf("%d entries", n)
	if n == 1 {
		text = "1 entry"
	}
	if f.Of != "" {
		text += " of " + f.Of
	}
	return text
}
