package loom

import (
	"fmt"

	"fettle/build"
	"fettle/internal/web/ui/vehicle"
)

// drawn lays the loom over a view: a line for each stretch, as heavy as its
// bundle, broken where no wire may lie, and a flag at every hole.
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
		v.Details = append(v.Details, vehicle.Line{Path: fmt.Sprintf("M%g %gL%g %g", from[0], from[1], to[0], to[1]), Weight: weight(x, across[x.ID])})
	}
	for _, h := range s.Build.Loom.Holes {
		w := s.Build.Loom.Waypoint(h.At)
		if w == nil {
			continue
		}
		at := inPlane(v.Plane, *w)
		pin := vehicle.Pin{Number: h.ID, X: at[0], Y: at[1], State: "to drill", Says: fmt.Sprintf("%g mm in %s", h.Diameter.Mm(), h.Panel), Href: "#hole-" + h.ID}
		if h.Drilled {
			pin.State, pin.Done = "drilled", true
		}
		v.Pins = append(v.Pins, pin)
	}
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
