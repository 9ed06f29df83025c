package loom

import (
	"fmt"
	"math"
	"net/url"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/vehicle"
	stage "fettle/stage/loom"
	"fettle/unit"
)

func (p place) holeRoutes() []web.Route {
	at := "/b/{build}/loom/route/hole"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.newHole},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.setHole},
		{Pattern: "GET " + at + "/{id}", Who: web.Guest, Handle: p.hole},
		{Pattern: "POST " + at + "/{id}/drop", Who: web.Crew, Handle: p.drop("hole")},
	}
}

// holePage is one hole with what passes it and what it costs where its panel is
// in paint.
type holePage struct {
	sheet
	Hole build.Hole
	New  bool
	On   *build.Stretch // that it is set into; nil for a waypoint that is there
	Row  *stage.HoleRow
	Late *figure.Figure // nil while the panel is in metal
	View vehicle.View
	formed
}

func (s sheet) holePath(id string) string { return s.At() + "/route/hole/" + url.PathEscape(id) }

func (p place) newHole(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	h := build.Hole{ID: desk.NextID("H%02d", len(s.Build.Loom.Holes), func(id string) bool { return s.Build.Loom.Hole(id) != nil }),
		At: build.WaypointID(r.Query("at")), Panel: build.PanelID(r.Query("panel")), Grommet: "wire grommet"}
	return p.showHole(r, holePage{sheet: s, New: true, Hole: h, On: s.stretch(r.Query("on"))})
}

func (p place) hole(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	h := s.Build.Loom.Hole(r.Path("id"))
	if h == nil {
		return fault.New(fault.NotFound, "there is no hole %q", r.Path("id"))
	}
	page := holePage{sheet: s, Hole: *h}
	if i := slices.IndexFunc(s.Loom.Holes, func(x stage.HoleRow) bool { return x.ID == h.ID }); i >= 0 {
		page.Row = &s.Loom.Holes[i]
	}
	if r.As() == "json" {
		return r.JSON(page.Row)
	}
	return p.showHole(r, page)
}

func (p place) showHole(r *web.Request, page holePage) error {
	at := page.Hole.At
	if page.On != nil {
		at = page.On.From
	}
	page.View = page.viewOf(at, func(v *vehicle.View) {
		for i := range v.Pins {
			v.Pins[i].Lit = v.Pins[i].Number == page.Hole.ID
		}
	})
	if late, ok := stage.LateHole(page.Build, page.Hole); ok {
		page.Late = &late
	}
	sh := web.Sheet{Place: "loom", Shown: "hole " + page.Hole.ID}
	if len(page.Errs) > 0 {
		return r.Invalid(sh, showHole(page))
	}
	return p.desk.Page(r, sh, showHole(page))
}

func (p place) setHole(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	h, on := s.readHole(f), s.stretch(f.Raw("on"))
	isNew := f.Raw("new") != ""
	if isNew && s.Build.Loom.Hole(h.ID) != nil {
		f.Fail("id", "is taken: another hole has it")
	}
	changes := s.holeChanges(f, &h, on)
	desk.Holds(f, s.Build, "id", changes...)
	if f.Err() != nil {
		return p.showHole(r, holePage{sheet: s, New: isNew, Hole: h, On: on, formed: typed(f)})
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

func (s sheet) readHole(f *web.Form) build.Hole {
	h := build.Hole{ID: strings.ToUpper(f.Text("id", 1, 12)), Panel: build.PanelID(f.Choice("panel", field.Values(s.panels())...)),
		Diameter: unit.Length(f.Decimal("diameter", 3, 1000, 500_000)), Grommet: f.Text("grommet", 0, 60)}
	if strings.TrimSpace(f.Raw("bore")) != "" {
		h.Bore = unit.Length(f.Decimal("bore", 3, 100, 500_000))
	}
	if h.Bore >= h.Diameter && h.Diameter > 0 && h.Bore > 0 {
		f.Fail("bore", "is no less than the hole: it is what passes inside the grommet")
	}
	if h.Day = f.Date("day"); h.Day != 0 {
		h.Drilled = true
	}
	if old := s.Build.Loom.Hole(h.ID); old != nil && old.Drilled && old.Day == h.Day {
		h.Drilled, h.By = true, old.By
	}
	return h
}

// holeChanges sets a hole at its waypoint, or a new one into a stretch, which
// it parts in two.
func (s sheet) holeChanges(f *web.Form, h *build.Hole, on *build.Stretch) []build.Change {
	if on == nil {
		h.At = build.WaypointID(f.Choice("at", field.Values(s.points()[1:])...))
		if c := slices.IndexFunc(s.Build.Circuits, func(c build.Circuit) bool { return slices.Contains(c.Ends, h.At) }); c >= 0 {
			f.Fail("at", "is where "+s.Build.Circuits[c].ID+" ends: a hole lies on the way, not at an end")
		}
		return []build.Change{&build.SetHole{Hole: *h}}
	}
	long := s.Build.Loom.Long(*on)
	along := unit.Length(f.Decimal("along", 3, 1000, farthest*1000))
	if along >= long {
		f.Fail("along", fmt.Sprintf("is no less than the stretch, %.0f mm", long.Mm()))
		return nil
	}
	from, to := s.Build.Loom.Waypoint(on.From), s.Build.Loom.Waypoint(on.To)
	w := build.Waypoint{ID: build.WaypointID(desk.NextID("W%02d", len(s.Build.Loom.Waypoints), func(id string) bool { return s.Build.Loom.Waypoint(build.WaypointID(id)) != nil })), Name: "hole " + h.ID}
	share := float64(along) / float64(long)
	for i := range w.At {
		w.At[i] = from.At[i] + unit.Length(math.Round(float64(share*float64(to.At[i]-from.At[i]))))
	}
	h.At = w.ID
	first, second := *on, *on
	first.To, second.From, second.ID = w.ID, w.ID, desk.NextID("R%02d", len(s.Build.Loom.Stretches), s.stretchTaken)
	if on.Length > 0 { // a straight one may come out longer by the rounding of its ends
		first.Length, second.Length = along+2, long-along+2
	}
	return []build.Change{&build.SetWaypoint{Waypoint: w}, &build.SetStretch{Stretch: first}, &build.SetStretch{Stretch: second}, &build.SetHole{Hole: *h}}
}

// panels are the panels to choose one from.
func (s sheet) panels() []field.Option {
	list := make([]field.Option, 0, len(s.Build.Panels))
	for _, p := range s.Build.Panels {
		list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.FullName()})
	}
	return list
}
