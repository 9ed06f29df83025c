package loom

import (
	"fmt"
	"net/url"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/vehicle"
	stage "fettle/stage/loom"
	"fettle/unit"
)

func (p place) stretchRoutes() []web.Route {
	at := "/b/{build}/loom/route/stretch"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.newStretch},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.setStretch},
		{Pattern: "GET " + at + "/{id}", Who: web.Guest, Handle: p.stretch},
		{Pattern: "POST " + at + "/{id}/drop", Who: web.Crew, Handle: p.drop("stretch")},
	}
}

// stretchPage is one way from waypoint to waypoint with what lies in it.
type stretchPage struct {
	sheet
	Stretch build.Stretch
	New     bool
	Bundle  *stage.Bundle // nil where nothing lies in it
	View    vehicle.View
	formed
}

func (s sheet) stretchPath(id string) string {
	return s.At() + "/route/stretch/" + url.PathEscape(id)
}

func (p place) newStretch(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	x := build.Stretch{ID: desk.NextID("R%02d", len(s.Build.Loom.Stretches), s.stretchTaken), From: build.WaypointID(r.Query("from"))}
	return p.showStretch(r, stretchPage{sheet: s, New: true, Stretch: x})
}

func (p place) stretch(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	x := s.stretch(r.Path("id"))
	if x == nil {
		return fault.New(fault.NotFound, "there is no stretch %q", r.Path("id"))
	}
	page := stretchPage{sheet: s, Stretch: *x, Bundle: s.Loom.Bundle(x.ID)}
	switch {
	case r.As() == "json":
		return r.JSON(map[string]any{"stretch": x, "bundle": page.Bundle})
	case r.As() == "csv" && page.Bundle != nil:
		return r.CSV(r.Build()+"-stretch-"+x.ID+".csv", page.wireTable().Records())
	}
	return p.showStretch(r, page)
}

func (p place) showStretch(r *web.Request, page stretchPage) error {
	page.View = page.viewOf(page.Stretch.From, func(v *vehicle.View) {
		for i := range v.Ways {
			v.Ways[i].Lit = v.Ways[i].Href == page.stretchPath(page.Stretch.ID)
		}
	})
	sh := web.Sheet{Place: "loom", Shown: "stretch " + page.Stretch.ID}
	if len(page.Errs) > 0 {
		return r.Invalid(sh, showStretch(page))
	}
	return p.desk.Page(r, sh, showStretch(page))
}

func (p place) setStretch(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	x := s.readStretch(f)
	isNew := f.Raw("new") != ""
	if isNew && s.stretch(x.ID) != nil {
		f.Fail("id", "is taken: another stretch has it")
	}
	change := &build.SetStretch{Stretch: x}
	desk.Holds(f, s.Build, "id", change)
	if f.Err() != nil {
		return p.showStretch(r, stretchPage{sheet: s, New: isNew, Stretch: x, Bundle: s.Loom.Bundle(x.ID), formed: typed(f)})
	}
	return p.desk.Propose(r, s.Base+"/slip", change)
}

func (s sheet) readStretch(f *web.Form) build.Stretch {
	points := make([]string, 0, len(s.Build.Loom.Waypoints))
	for _, w := range s.Build.Loom.Waypoints {
		points = append(points, string(w.ID))
	}
	x := build.Stretch{ID: strings.ToUpper(f.Text("id", 1, 12)), From: build.WaypointID(f.Choice("from", points...)), To: build.WaypointID(f.Choice("to", points...)),
		Forbidden: f.Text("forbidden", 0, 120), Moves: f.Has("moves"), Air: f.Choice("air", field.Values(s.airOptions())...), Sleeve: f.Choice("sleeve", field.Values(sleeves())...)}
	if strings.TrimSpace(f.Raw("length")) != "" {
		x.Length = unit.Length(f.Decimal("length", 3, 1, farthest*1000))
	}
	if x.From == x.To && x.From != "" {
		f.Fail("to", "is where it begins: name another waypoint")
		return x
	}
	if least := s.Build.Loom.Long(build.Stretch{From: x.From, To: x.To}); x.Length > 0 && x.Length < least {
		f.Fail("length", fmt.Sprintf("is less than the straight line, %.0f mm: measure along the body, or move a waypoint", least.Mm()))
	}
	return x
}

// airOptions are the parts of the vehicle that have air of their own.
func (s sheet) airOptions() []field.Option {
	list := []field.Option{{Label: "as everywhere"}}
	for _, a := range s.Build.Loom.Settings.Airs {
		list = append(list, field.Option{Value: a.Name, Label: fmt.Sprintf("%s, %g °C", a.Name, a.Celsius)})
	}
	return list
}

// sleeves are what a stretch can be covered with.
func sleeves() []field.Option {
	list := []field.Option{{Label: "as the loom"}}
	return append(list, field.Words(build.SleeveKinds(), "")...)
}

// points are the waypoints to choose one from.
func (s sheet) points() []field.Option {
	list := []field.Option{{Label: "choose one"}}
	for _, w := range s.Build.Loom.Waypoints {
		list = append(list, field.Option{Value: string(w.ID), Label: strings.TrimSpace(string(w.ID) + " " + w.Name)})
	}
	return list
}
