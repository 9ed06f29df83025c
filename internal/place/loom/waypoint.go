package loom

import (
	"net/url"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/vehicle"
	"fettle/unit"
)

// touchScript turns a touch on the drawing into millimetres.
const touchScript = "touch.js"

func (p place) waypointRoutes() []web.Route {
	at := "/b/{build}/loom/route"
	return []web.Route{
		{Pattern: "GET " + at + "/new", Who: web.Crew, Handle: p.newPoint},
		{Pattern: "POST " + at + "/waypoint", Who: web.Crew, Handle: p.setPoint},
		{Pattern: "GET " + at + "/waypoint/{id}", Who: web.Guest, Handle: p.point},
		{Pattern: "POST " + at + "/waypoint/{id}/drop", Who: web.Crew, Handle: p.drop("waypoint")},
	}
}

// pointPage is one waypoint, with the drawing to touch it in.
type pointPage struct {
	sheet
	Point   build.Waypoint
	New     bool
	Guessed string // what no touch said, and where it is taken from
	Begins  string // circuits that begin here
	Reaches string // circuits that reach it
	Views   []vehicle.View
	Near    []field.Option // waypoints to join it to
	Named   []string       // what holds on to it, so that it cannot be taken off
	formed
}

func (s sheet) pointPath(id build.WaypointID) string {
	return s.At() + "/route/waypoint/" + url.PathEscape(string(id))
}

// newPoint begins a waypoint where the drawing was touched.
func (p place) newPoint(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	w, guessed := s.touched(r)
	page := pointPage{sheet: s, New: true, Point: w, Guessed: guessed}
	page.Begins, page.Reaches = s.byName(w.Name)
	return p.showPoint(r, page)
}

func (p place) point(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	w := s.Build.Loom.Waypoint(build.WaypointID(r.Path("id")))
	if w == nil {
		return fault.New(fault.NotFound, "there is no waypoint %q", r.Path("id"))
	}
	if r.As() == "json" {
		return r.JSON(w)
	}
	page := pointPage{sheet: s, Point: *w, Named: s.holdsOn(w.ID)}
	page.Begins, page.Reaches = s.circuitsAt(w.ID)
	return p.showPoint(r, page)
}

func (p place) showPoint(r *web.Request, page pointPage) error {
	page.Views = page.pointViews()
	if page.New {
		page.Near = page.near()
	}
	sh := web.Sheet{Place: "loom", Shown: "waypoint " + string(page.Point.ID), Scripts: []string{touchScript}}
	if len(page.Errs) > 0 {
		return r.Invalid(sh, showPoint(page))
	}
	return p.desk.Page(r, sh, showPoint(page))
}

// setPoint lays a waypoint on the slip, with the circuits that end there and the
// stretches that join it.
func (p place) setPoint(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	w := readPoint(f)
	isNew := f.Raw("new") != ""
	if isNew && s.Build.Loom.Waypoint(w.ID) != nil {
		f.Fail("id", "is taken: another waypoint has it")
	}
	changes := append([]build.Change{&build.SetWaypoint{Waypoint: w}}, s.endings(f, w.ID)...)
	changes = append(changes, s.joinings(f, w)...)
	desk.Holds(f, s.Build, "id", changes...)
	if f.Err() != nil {
		return p.showPoint(r, pointPage{sheet: s, New: isNew, Point: w, formed: typed(f)})
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

// farthest is how far off a waypoint may be typed, in mm.
const farthest = 20_000

func readPoint(f *web.Form) build.Waypoint {
	w := build.Waypoint{ID: build.WaypointID(strings.ToUpper(f.Text("id", 1, 12))), Name: f.Text("name", 0, 80), What: f.Choice("what", "", "clip", "breakout", "end")}
	for i, axis := range []string{"x", "y", "z"} {
		w.At[i] = unit.Length(f.Decimal(axis, 3, -farthest*1000, farthest*1000))
	}
	return w
}

// drop takes something of the route off the list.
func (p place) drop(what string) func(*web.Request) error {
	return func(r *web.Request) error {
		return p.desk.Propose(r, "/b/"+r.Build()+"/slip", &build.DropWired{What: what, ID: r.Path("id")})
	}
}
