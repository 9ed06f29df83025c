package loom

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// touched is a waypoint at the place that was touched. A view shows two of its
// three measures: the third is that of the panel, or of the nearest waypoint.
func (s sheet) touched(r *web.Request) (build.Waypoint, string) {
	w := build.Waypoint{ID: build.WaypointID(desk.NextID("W%02d", len(s.Build.Loom.Waypoints), func(id string) bool { return s.Build.Loom.Waypoint(build.WaypointID(id)) != nil })), Name: r.Query("name")}
	var said [3]bool
	for i, axis := range []string{"x", "y", "z"} {
		if v, err := strconv.ParseFloat(r.Query(axis), 64); err == nil && math.Abs(v) <= farthest {
			w.At[i], said[i] = unit.Length(math.Round(v))*unit.Millimetre, true
		}
	}
	var words []string
	if p := s.Build.Panel(build.PanelID(r.Query("panel"))); p != nil {
		at, known := drawn.Centre(s.Build, p)
		words = fillIn(&w, &said, at, known, "the middle of "+string(p.ID)+" "+p.FullName())
	}
	if said != [3]bool{} && said != [3]bool{true, true, true} {
		if n := s.nearest(w, said); n != nil {
			words = append(words, fillIn(&w, &said, [3]float64{n.At[0].Mm(), n.At[1].Mm(), n.At[2].Mm()}, [3]bool{true, true, true}, "the nearest waypoint, "+s.placeName(string(n.ID)))...)
		}
	}
	return w, strings.Join(words, "; ")
}

// fillIn takes what is not said from elsewhere, and tells so.
func fillIn(w *build.Waypoint, said *[3]bool, at [3]float64, known [3]bool, from string) []string {
	var axes []string
	for i := range said {
		if !said[i] && known[i] {
			w.At[i], said[i] = unit.Length(math.Round(at[i]))*unit.Millimetre, true
			axes = append(axes, string(rune('x'+i)))
		}
	}
	if len(axes) == 0 {
		return nil
	}
	return []string{strings.Join(axes, " and ") + " from " + from}
}

// nearest is the waypoint nearest in the measures that are said, or nil.
func (s sheet) nearest(w build.Waypoint, said [3]bool) *build.Waypoint {
	var best *build.Waypoint
	least := math.Inf(1)
	for i, o := range s.Build.Loom.Waypoints {
		d := 0.0
		for k := range said {
			if said[k] {
				x := (o.At[k] - w.At[k]).Mm()
				d += float64(x * x)
			}
		}
		if d < least {
			best, least = &s.Build.Loom.Waypoints[i], d
		}
	}
	return best
}

// near offers the four nearest waypoints to join a new one to.
func (page pointPage) near() []field.Option {
	type far struct {
		id build.WaypointID
		mm float64
	}
	var list []far
	for _, o := range page.Build.Loom.Waypoints {
		if d := straight(o, page.Point); d > 0 {
			list = append(list, far{o.ID, d})
		}
	}
	slices.SortStableFunc(list, func(a, b far) int { return cmp.Compare(a.mm, b.mm) })
	var options []field.Option
	for _, x := range list[:min(4, len(list))] {
		options = append(options, field.Option{Value: string(x.id), Label: fmt.Sprintf("%s %s", x.id, page.placeName(string(x.id))), Hint: fmt.Sprintf("%.0f mm straight", x.mm)})
	}
	return options
}

// straight is how far two waypoints lie apart, in mm.
func straight(a, b build.Waypoint) float64 {
	sum := 0.0
	for i := range a.At {
		d := (a.At[i] - b.At[i]).Mm()
		sum += float64(d * d)
	}
	return math.Sqrt(sum)
}

// joinings are the stretches from a new waypoint to those that are ticked.
func (s sheet) joinings(f *web.Form, w build.Waypoint) []build.Change {
	var changes []build.Change
	n := len(s.Build.Loom.Stretches)
	for _, id := range f.All("join") {
		to := s.Build.Loom.Waypoint(build.WaypointID(id))
		if to == nil {
			f.Fail("join", "names "+id+", which is not there")
			return nil
		}
		name := desk.NextID("R%02d", n, s.stretchTaken)
		n, _ = strconv.Atoi(strings.TrimPrefix(name, "R"))
		changes = append(changes, &build.SetStretch{Stretch: build.Stretch{ID: name, From: to.ID, To: w.ID}})
	}
	return changes
}

func (s sheet) stretchTaken(id string) bool { return s.stretch(id) != nil }

func (s sheet) stretch(id string) *build.Stretch {
	i := slices.IndexFunc(s.Build.Loom.Stretches, func(x build.Stretch) bool { return x.ID == id })
	if i < 0 {
		return nil
	}
	return &s.Build.Loom.Stretches[i]
}
