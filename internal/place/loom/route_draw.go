package loom

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/drawn"
	"fettle/internal/web/ui/vehicle"
)

// drawings are the views of the vehicle with the loom over them. Where they may
// be touched, a panel begins a new waypoint.
func (s sheet) drawings(touch bool) []vehicle.View {
	o := drawn.Options{Base: s.Base + "/metal", Kept: s.Kept}
	if touch {
		o.Base, o.Touch = s.At()+"/route", true
	}
	views := drawn.Views(s.Build, o)
	for i := range views {
		v := &views[i]
		if v.Pins, v.Ground = nil, touch; folded(*v) {
			v.Pick = ""
			continue
		}
		s.drawn(v)
	}
	return views
}

// folded tells whether a view folds panels out of their place, so that nothing
// can be drawn over it by its measures.
func folded(v vehicle.View) bool { return v.ID == "inside" }

// drawn lays the loom over a view: a line for each stretch, as heavy as its
// bundle, broken where no wire may lie, a dot at each waypoint and a flag at
// every hole. Each leads to its page.
func (s sheet) drawn(v *vehicle.View) {
	across := map[string]float64{}
	if s.Loom.Route != nil {
		for _, x := range s.Loom.Route.Runs {
			across[x.ID] = x.Outside
		}
	}
	for _, x := range s.Build.Loom.Stretches {
		a, b := s.Build.Loom.Waypoint(x.From), s.Build.Loom.Waypoint(x.To)
		if a == nil || b == nil {
			continue
		}
		from, to := inPlane(v.Plane, *a), inPlane(v.Plane, *b)
		v.Ways = append(v.Ways, vehicle.Way{Line: vehicle.Line{Path: fmt.Sprintf("M%g %gL%g %g", from[0], from[1], to[0], to[1]), Weight: weight(x, across[x.ID])},
			Says: s.says(x, across[x.ID]), Href: s.stretchPath(x.ID)})
	}
	for _, w := range s.Build.Loom.Waypoints {
		at := inPlane(v.Plane, w)
		v.Dots = append(v.Dots, vehicle.Dot{X: at[0], Y: at[1], Says: strings.TrimSpace(string(w.ID) + " " + w.Name), Href: s.pointPath(w.ID), Draft: s.Kept.Loom.Waypoint(w.ID) == nil})
	}
	for _, h := range s.Build.Loom.Holes {
		w := s.Build.Loom.Waypoint(h.At)
		if w == nil {
			continue
		}
		at := inPlane(v.Plane, *w)
		pin := vehicle.Pin{Number: h.ID, X: at[0], Y: at[1], State: "to drill", Says: fmt.Sprintf("%g mm in %s", h.Diameter.Mm(), h.Panel), Href: s.holePath(h.ID), Draft: s.Kept.Loom.Hole(h.ID) == nil}
		if h.Drilled {
			pin.State, pin.Done = "drilled", true
		}
		v.Pins = append(v.Pins, pin)
	}
}

// says is a stretch in words, for those who do not see its line.
func (s sheet) says(x build.Stretch, across float64) string {
	text := fmt.Sprintf("%s, %s to %s", x.ID, s.placeName(string(x.From)), s.placeName(string(x.To)))
	switch {
	case x.Forbidden != "":
		return text + ": no wire may lie here, " + x.Forbidden
	case across == 0:
		return text + ": nothing lies here"
	}
	return fmt.Sprintf("%s: %.1f mm across", text, across)
}

// viewOf is the side that a waypoint is seen best from, with what the page is
// about marked in it.
func (s sheet) viewOf(at build.WaypointID, mark func(*vehicle.View)) vehicle.View {
	side := "left"
	if w := s.Build.Loom.Waypoint(at); w != nil && w.At[1] < 0 {
		side = "right"
	}
	v, _ := drawn.View(s.drawings(false), side)
	mark(&v)
	return v
}

// pointViews are two drawings that together show all three measures, to touch
// a waypoint in: the nearer side, and from above.
func (page pointPage) pointViews() []vehicle.View {
	side := "left"
	if page.Point.At[1] < 0 {
		side = "right"
	}
	var list []vehicle.View
	for _, id := range []string{side, "top"} {
		v, ok := drawn.View(page.drawings(false), id)
		if !ok || folded(v) || v.ID != id {
			continue
		}
		v.Fill, v.Pins = page.Crew, nil
		v.Dots = nil
		for _, w := range page.Build.Loom.Waypoints {
			if w.ID != page.Point.ID {
				at := inPlane(v.Plane, w)
				v.Dots = append(v.Dots, vehicle.Dot{X: at[0], Y: at[1], Says: page.placeName(string(w.ID)), Href: page.pointPath(w.ID)})
			}
		}
		at := inPlane(v.Plane, page.Point)
		v.Dots = append(v.Dots, vehicle.Dot{X: at[0], Y: at[1], Says: string(page.Point.ID) + " " + page.Point.Name, Href: "#x", Lit: true})
		list = append(list, v)
	}
	return list
}

// inPlane drops the axis that a view does not show.
func inPlane(plane string, w build.Waypoint) [2]float64 {
	x, y, z := w.At[0].Mm(), w.At[1].Mm(), w.At[2].Mm()
	switch plane {
	case "yz":
		return [2]float64{y, z}
	case "xy":
		return [2]float64{x, y}
	}
	return [2]float64{x, z}
}

// weight is the class of a stretch's line: by its bundle, or why it has none.
func weight(x build.Stretch, across float64) string {
	switch {
	case x.Forbidden != "":
		return "loom-no"
	case across == 0:
		return "loom-0"
	case across < 6:
		return "loom-1"
	case across < 12:
		return "loom-2"
	}
	return "loom-3"
}

// forbidden lists where no wire may lie, with why.
func (s sheet) forbidden() []build.Stretch {
	var list []build.Stretch
	for _, x := range s.Build.Loom.Stretches {
		if x.Forbidden != "" {
			list = append(list, x)
		}
	}
	return list
}
