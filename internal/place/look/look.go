// Package look is the place where colours are chosen: several looks side by side
// with what each takes, the colours themselves, the drawn vehicle in the colours that spray-out cards
// predict under three lights, the page of one paint coat by coat, and the entry
// of cards.
package look

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/drawn"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/rates"
	"fettle/takeoff/sprayout"
	"fettle/unit"
)

// fileLimit is the most a form with an instrument's file may carry, in bytes.
const fileLimit = 9 << 20

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{desk: d, press: &drawn.Press{}, unpacking: make(chan struct{}, 1)}
	at := "/b/{build}/look"
	return web.Place{Key: "look", Label: "Look", Path: at, Routes: []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.board},
		{Pattern: "GET " + at + "/dates", Who: web.Guest, Handle: p.dated},
		{Pattern: "GET " + at + "/new", Who: web.Crew, Handle: p.blank},
		{Pattern: "POST " + at + "/new", Who: web.Crew, Handle: p.propose},
		{Pattern: "GET " + at + "/colour", Who: web.Crew, Handle: p.blankColour},
		{Pattern: "POST " + at + "/colour", Who: web.Crew, Handle: p.setColour},
		{Pattern: "POST " + at + "/choose", Who: web.Crew, Handle: p.choose},
		{Pattern: "GET " + at + "/paint/{product}", Who: web.Guest, Handle: p.paint},
		{Pattern: "POST " + at + "/paint/{product}/step", Who: web.Crew, Handle: p.step},
		{Pattern: "GET " + at + "/card", Who: web.Crew, Handle: p.blankCard},
		{Pattern: "POST " + at + "/card", Who: web.Crew, MaxBody: fileLimit, Handle: p.card},
		{Pattern: "GET " + at + "/picture", Who: web.Crew, Handle: p.blankTouch},
		{Pattern: "POST " + at + "/picture", Who: web.Crew, MaxBody: fileLimit, Handle: p.touch},
		{Pattern: "POST " + at + "/photo", Who: web.Crew, Handle: p.photo},
	}}
}

// place holds what all pages of the place need.
type place struct {
	desk      desk.Desk
	press     *drawn.Press
	unpacking chan struct{} // one picture at a time
}

// scene is what every page of the place begins with.
type scene struct {
	Base   string       // /b/pedlar
	Build  *build.Build // with the person's slip drawn in
	Kept   *build.Build // without
	Slip   []build.Change
	Crew   bool // may record
	Paints *sprayout.Paints
	Rates  rates.Rates
	Today  unit.Date
	Now    unit.Moment
	Mark   string // names all that a drawing depends on
}

// At is the address of the place.
func (s scene) At() string { return s.Base + "/look" }

func (p place) scene(r *web.Request) (scene, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return scene{}, err
	}
	b, slip, err := p.desk.Drafted(r)
	if err != nil {
		return scene{}, err
	}
	s := scene{Base: "/b/" + r.Build(), Build: &b, Kept: &view.Build, Crew: r.Person().Role >= web.Crew, Paints: sprayout.Read(&b),
		Rates: p.desk.Shop.Rates(view), Today: view.Now.Date(), Now: view.Now, Mark: fmt.Sprint("look/", desk.Mark(view, slip))}
	s.Slip = stillHolds(view, slip)
	return s, nil
}

// stillHolds returns the changes of a slip, or none where the facts moved on.
func stillHolds(v live.View, slip live.Slip) []build.Change {
	if _, err := build.ApplyAll(v.Build, slip.Changes); err != nil {
		return nil
	}
	return slip.Changes
}

// product returns the paint product that the request names.
func (s scene) product(id string) (*build.Product, error) {
	if p := s.Build.Product(build.ProductID(id)); p != nil {
		return p, nil
	}
	return nil, fault.New(fault.NotFound, "there is no paint product %q", id)
}

func (s scene) name(id build.ProductID) string {
	if p := s.Build.Product(id); p != nil {
		return p.Name
	}
	return string(id)
}

func (s scene) zoneNames(ids []build.ZoneID) string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = s.Build.ZoneName(id)
	}
	return strings.Join(names, "; ")
}

func (s scene) colour(id build.ColourID) string {
	if c := s.Build.Colour(id); c != nil {
		return c.Name
	}
	return string(id)
}

// page answers with a sheet of the place on neutral grey.
func (p place) sheet(shown string) web.Sheet {
	return web.Sheet{Place: "look", Shown: shown, Neutral: true}
}
