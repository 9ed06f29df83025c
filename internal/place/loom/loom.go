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
	stage "fettle/stage/loom"
)

// rowsScript is the island by which the list is worked down with Enter.
const rowsScript = "rows.js"

// Place returns the place with its routes, page by page.
func Place(d desk.Desk) web.Place {
	p := place{desk: d}
	return web.Place{Key: "loom", Label: "Loom", Path: "/b/{build}/loom", Routes: slices.Concat(
		p.circuitRoutes(), p.oneRoutes(), p.fuseRoutes(), p.routeRoutes(), p.waypointRoutes(), p.stretchRoutes(), p.holeRoutes(), p.boardRoutes(), p.netRoutes(), p.cutRoutes(), p.labelRoutes(), p.powerRoutes(),
	)}
}

type place struct{ desk desk.Desk }

// sheet is what every page of the place begins with.
type sheet struct {
	Base  string       // /b/pedlar
	Build *build.Build // with the person's slip drawn in
	Kept  *build.Build // without
	Crew  bool         // may record
	Entry string       // for the forms
	Loom  stage.Sheet  // worked out
	Wrong error        // why nothing can be worked out
}

// At is the address of the place.
func (s sheet) At() string { return s.Base + "/loom" }

func (s sheet) onePath(id string) string { return s.At() + "/circuit/" + url.PathEscape(id) }

func (p place) load(r *web.Request) (sheet, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return sheet{}, err
	}
	b, _, err := p.desk.Drafted(r)
	if err != nil {
		return sheet{}, err
	}
	s := sheet{Base: "/b/" + r.Build(), Build: &b, Kept: &view.Build, Crew: r.Person().Role >= account.Crew, Entry: field.NewEntry()}
	s.Loom, s.Wrong = stage.Work(r.Context(), s.Build)
	return s, nil
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

// way leads to one sheet of the place.
type way struct{ Path, Label string }

// ways lists the sheets of the place. A sheet is a line here and its routes in
// Place.
var ways = []way{{"", "Circuits"}, {"/fuses", "Fuses"}, {"/route", "Route"}, {"/board", "Board"}, {"/net", "Net"}, {"/ends", "Terminals"}, {"/cut", "Cut list"}, {"/labels", "Labels"}, {"/takes", "Takes"}, {"/continuity", "Continuity"}, {"/power", "First power"}}
