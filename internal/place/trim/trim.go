package trim

import (
	"net/url"
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/ways"
	"fettle/plan"
	"fettle/unit"
)

// Place returns the place with its routes, page by page.
func Place(d desk.Desk) web.Place {
	p := place{desk: d}
	return web.Place{Key: "trim", Label: "Trim", Path: "/b/{build}/trim", Routes: slices.Concat(
		p.frontRoutes(), p.surfaceRoutes(), p.patternRoutes(), p.reviseRoutes(), p.sewRoutes(), p.factRoutes(), p.recipeRoutes(), p.hideRoutes(), p.actRoutes(), p.lostRoutes(), p.pieceRoutes(), p.formRoutes(), p.rollRoutes(), p.layRoutes(), p.lotRoutes(), p.fileRoutes(), p.askRoutes(), p.editorRoutes(), p.photoRoutes(),
	)}
}

type place struct{ desk desk.Desk }

// sheet is what every page of the place begins with.
type sheet struct {
	Base  string       // /b/pedlar
	Build *build.Build // with the person's slip drawn in
	Kept  *build.Build // without
	Plan  *plan.Plan
	Today unit.Date
	Crew  bool   // may record
	Entry string // for the forms
}

// At is the address of the place.
func (s sheet) At() string { return s.Base + "/trim" }

func (s sheet) hidePath(id build.HideID) string {
	return s.At() + "/hide/" + url.PathEscape(string(id))
}

func (s sheet) piecePath(id build.PieceID) string {
	return s.At() + "/piece/" + url.PathEscape(string(id))
}

func (s sheet) layPath(material string) string { return s.At() + "/lay/" + url.PathEscape(material) }

func (p place) load(r *web.Request) (sheet, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return sheet{}, err
	}
	b, _, err := p.desk.Drafted(r)
	if err != nil {
		return sheet{}, err
	}
	return sheet{Base: "/b/" + r.Build(), Build: &b, Kept: &view.Build, Plan: pl, Today: view.Now.Date(),
		Crew: r.Person().Role >= account.Crew, Entry: field.NewEntry()}, nil
}

// hide returns the hide that the request names.
func (s sheet) hide(r *web.Request) (*build.Hide, error) {
	id := build.HideID(r.Path("hide"))
	if h := s.Build.Hide(id); h != nil {
		return h, nil
	}
	return nil, fault.New(fault.NotFound, "there is no hide %q", id)
}

// sheets lists the sheets of the place. A sheet is a line here and its routes in
// Place.
var sheets = []ways.Way{{Href: "", Label: "Needs"}, {Href: "/hides", Label: "Hides"}, {Href: "/pieces", Label: "Pieces"}, {Href: "/surfaces", Label: "Surfaces"}, {Href: "/patterns", Label: "Patterns"}, {Href: "/sewn/seam", Label: "Seams"}, {Href: "/sew", Label: "Sewing"}, {Href: "/supplies", Label: "Supplies"}, {Href: "/recipes", Label: "Recipes"}}
