// Package metal is the place of the body in bare metal: the drawn body, a
// finding touched in where it is, the choice of its remedy with hours, cost and
// days side by side, the decisions on panels, and the photos of it all.
package metal

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/drawn"
	"fettle/internal/web"
)

// photoLimit is the most a form with photos may carry, in bytes.
const photoLimit = 64 << 20

// script is the island that turns a touch on the drawing into a place.
const script = "touch.js"

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{desk: d, press: &drawn.Press{}, shrinking: make(chan struct{}, 1)}
	at := "/b/{build}/metal"
	return web.Place{Key: "metal", Label: "Metal", Path: at, Routes: slices.Concat(p.sheetRoutes(), p.blankRoutes(), p.foldRoutes(), p.surfaceRoutes(), p.holeRoutes(), []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.body},
		{Pattern: "GET " + at + "/new", Who: web.Crew, Handle: p.blank},
		{Pattern: "POST " + at + "/new", Who: web.Crew, MaxBody: photoLimit, Handle: p.record},
		{Pattern: "POST " + at + "/guess", Who: web.Crew, Handle: p.guess},
		{Pattern: "GET " + at + "/findings", Who: web.Guest, Handle: p.findings},
		{Pattern: "GET " + at + "/finding/{id}", Who: web.Guest, Handle: p.finding},
		{Pattern: "POST " + at + "/finding/{id}/state", Who: web.Crew, Handle: p.moveFinding},
		{Pattern: "POST " + at + "/finding/{id}/remedy", Who: web.Crew, Handle: p.decideRemedy},
		{Pattern: "POST " + at + "/finding/{id}/withdraw", Who: web.Crew, Handle: p.withdraw},
		{Pattern: "POST " + at + "/finding/{id}/photo", Who: web.Crew, MaxBody: photoLimit, Handle: p.photoOfFinding},
		{Pattern: "GET " + at + "/panels", Who: web.Guest, Handle: p.panels},
		{Pattern: "GET " + at + "/panel/{id}", Who: web.Guest, Handle: p.panel},
		{Pattern: "POST " + at + "/panel/{id}/decide", Who: web.Crew, Handle: p.decidePanel},
		{Pattern: "POST " + at + "/panel/{id}/photo", Who: web.Crew, MaxBody: photoLimit, Handle: p.photoOfPanel},
		{Pattern: "GET /b/{build}/finding/{id}", Who: web.Guest, Handle: below("finding")},
		{Pattern: "GET /b/{build}/panel/{id}", Who: web.Guest, Handle: below("panel")},
		{Pattern: "GET /b/{build}/photo/{hash}", Who: web.Guest, Handle: p.photo},
	})}
}

// below leads from the short address of a thing, as figures name it, to its
// page in this place.
func below(kind string) func(*web.Request) error {
	return func(r *web.Request) error {
		return r.SeeOther("/b/" + r.Build() + "/metal/" + kind + "/" + r.Path("id"))
	}
}

// place holds what all pages of the place need.
type place struct {
	desk      desk.Desk
	press     *drawn.Press
	shrinking chan struct{} // one large picture is made smaller at a time
}

// scene is what every page of the place begins with.
type scene struct {
	Base  string       // /b/pedlar
	Build *build.Build // with the person's slip drawn in
	Kept  *build.Build // without
	Crew  bool         // may record
	Mark  string       // names all that the drawing depends on
}

// At is the address of the place.
func (s scene) At() string { return s.Base + "/metal" }

func (p place) scene(r *web.Request) (scene, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return scene{}, err
	}
	b, slip, err := p.desk.Drafted(r)
	if err != nil {
		return scene{}, err
	}
	crew := r.Person().Role >= web.Crew
	return scene{Base: "/b/" + r.Build(), Build: &b, Kept: &view.Build, Crew: crew, Mark: fmt.Sprint(desk.Mark(view, slip), crew)}, nil
}

// found returns the finding that the request names.
func (s scene) found(r *web.Request) (*build.Finding, error) {
	if f := s.Build.Finding(build.FindingID(r.Path("id"))); f != nil {
		return f, nil
	}
	return nil, fault.New(fault.NotFound, "there is no finding %q", r.Path("id")).WithHint("It may have been withdrawn; the journal tells.")
}

func (s scene) named(r *web.Request) (*build.Panel, error) {
	if p := s.Build.Panel(build.PanelID(r.Path("id"))); p != nil {
		return p, nil
	}
	return nil, fault.New(fault.NotFound, "there is no panel %q", r.Path("id"))
}

// draft tells whether a finding is on the slip and not kept yet.
func (s scene) draft(id build.FindingID) bool { return s.Kept.Finding(id) == nil }
