// Package loom is the place of whoever wires the vehicle: the circuits to work
// down, fuses and their ways, the route on the drawn vehicle with its holes, the
// net, the board at true size, what to cut and label, and the first power.
package loom

import (
	"net/url"
	"slices"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/ways"
	stage "fettle/stage/loom"
	"fettle/unit"
)

// rowsScript is the island by which the list is worked down with Enter.
const rowsScript = "rows.js"

// Place returns the place with its routes, page by page.
func Place(d desk.Desk) web.Place {
	p := place{desk: d, led: newLed()}
	return web.Place{Key: "loom", Label: "Loom", Path: "/b/{build}/loom", Routes: slices.Concat(
		p.circuitRoutes(), p.oneRoutes(), p.partRoutes(), p.chargeRoutes(), p.fuseRoutes(), p.routeRoutes(), p.waypointRoutes(), p.stretchRoutes(), p.holeRoutes(),
		p.boardRoutes(), p.netRoutes(), p.cutRoutes(), p.labelRoutes(), p.powerRoutes(),
	)}
}

type place struct {
	desk desk.Desk
	led  *led
}

// sheet is what every page of the place begins with.
type sheet struct {
	Base  string       // /b/pedlar
	Build *build.Build // with the person's slip drawn in
	Kept  *build.Build // without
	Crew  bool         // may record
	Entry string       // for the forms
	Now   unit.Moment
	Who   build.PersonID
	Mark  string      // of the facts, with the slip drawn in
	Loom  stage.Sheet // worked out
	Wrong error       // why nothing can be worked out
}

// At is the address of the place.
func (s sheet) At() string { return s.Base + "/loom" }

func (s sheet) onePath(id string) string { return s.At() + "/circuit/" + url.PathEscape(id) }

// load works the loom out whole.
func (p place) load(r *web.Request) (sheet, error) {
	s, err := p.facts(r)
	if err != nil {
		return sheet{}, err
	}
	s.Loom, s.Wrong = stage.Work(r.Context(), s.Build)
	s.box()
	return s, nil
}

// box gives figures of fuse boxes their words.
func (s *sheet) box() {
	for i := range s.Loom.Checks {
		c := &s.Loom.Checks[i]
		c.Figure = boxed(c.Figure, s.Loom.Boxes)
	}
}

// facts is a sheet without what follows.
func (p place) facts(r *web.Request) (sheet, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return sheet{}, err
	}
	b, slip, err := p.desk.Drafted(r)
	if err != nil {
		return sheet{}, err
	}
	return sheet{Base: "/b/" + r.Build(), Build: &b, Kept: &view.Build, Crew: r.Person().Role >= account.Crew, Entry: field.NewEntry(), Now: view.Now, Who: desk.By(r, &b), Mark: desk.Mark(view, slip)}, nil
}

// of returns what a circuit comes to: its own row, or those of its wires where
// it has a net.
func (s sheet) of(circuit string) []stage.Row {
	var list []stage.Row
	for _, row := range s.Loom.Rows {
		w := slices.IndexFunc(s.Build.Loom.Wires, func(w build.Wire) bool { return w.ID == row.ID })
		if row.ID == circuit || w >= 0 && s.Build.Loom.Wires[w].Circuit == circuit {
			list = append(list, row)
		}
	}
	return list
}

// sheets are the pages of the place: what is worked out of the facts, and what
// lies on the bench. A page is a way here and its routes in Place.
var sheets = []ways.Group{
	{Name: "Worked out", Ways: []ways.Way{{Href: "", Label: "Circuits"}, {Href: "/fuses", Label: "Fuses"}, {Href: "/charging", Label: "Charging"}, {Href: "/route", Label: "Route"}, {Href: "/net", Label: "Net"}, {Href: "/takes", Label: "Takes"}, {Href: "/parts", Label: "Parts"}}},
	{Name: "For the bench", Ways: []ways.Way{{Href: "/board", Label: "Board"}, {Href: "/cut", Label: "Cut list"}, {Href: "/ends", Label: "Terminals"}, {Href: "/labels", Label: "Labels"}, {Href: "/continuity", Label: "Continuity"}, {Href: "/power", Label: "First power"}}},
}

// groups are they with their addresses.
func (s sheet) groups() []ways.Group {
	list := slices.Clone(sheets)
	for i := range list {
		list[i].Ways = ways.At(s.At(), list[i].Ways)
	}
	return list
}
