// Package drawn turns a build into the views of its drawn vehicle: which panel
// is filled how, and where each finding's flag stands. Places that show the
// vehicle share it, so that it looks the same everywhere.
package drawn

import (
	"slices"

	"fettle/build"
	"fettle/geom"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/vehicle"
)

// Options say what a place wants of the drawing.
type Options struct {
	Base    string          // the metal place's address, such as /b/pedlar/metal
	Kept    *build.Build    // the build without the person's slip; what differs is drawn as not kept. Nil for none
	Open    bool            // only findings that still need work have a flag
	Touch   bool            // panels lead to a new finding, and a touched point is where it is
	Panel   build.PanelID   // the panel the page is about; empty for none
	Finding build.FindingID // the finding the page is about; empty for none
	Badges  map[build.PanelID]Badge
}

// Badge is a small mark on a panel; where it stands is the drawing's own.
type Badge struct {
	Word, Says string
	Mark       mark.Meaning
	Href       string
}

// Views returns the views of a build in the order they are drawn in.
func Views(b *build.Build, o Options) []vehicle.View {
	spots, two := spotsOf(b), toneOf(b)
	found := map[build.PanelID]int{}
	for _, f := range b.Findings {
		for _, id := range f.Panels {
			found[id]++
		}
	}
	views := make([]vehicle.View, 0, len(b.Views))
	for _, v := range b.Views {
		out := vehicle.View{ID: v.ID, Label: v.Label, Plane: v.Plane, Flip: v.Flip, Box: v.Box}
		for _, d := range v.Details {
			out.Details = append(out.Details, vehicle.Line{Path: d.Path, Weight: d.Weight, Fill: d.Fill})
		}
		if o.Touch {
			out.Pick = o.Base + "/new?view=" + v.ID
		}
		for _, p := range b.Panels {
			if d := outline(p, v.ID); d != "" {
				one := panel(b, p, d, found[p.ID], o)
				if two.both(p) {
					one.Colour, one.Under, one.Break = face(b, two.upper), face(b, two.lower), two.z
				}
				out.Panels = append(out.Panels, one)
				if badge, ok := o.Badges[p.ID]; ok {
					out.Badges = append(out.Badges, badge.on(p, d))
				}
			}
		}
		for _, s := range spots {
			if s.view == v.ID && !(o.Open && Done(b, s.finding)) {
				out.Pins = append(out.Pins, pin(b, s, o))
			}
		}
		views = append(views, out)
	}
	return views
}

// on puts a badge in the middle of a panel's outline.
func (b Badge) on(p build.Panel, d string) vehicle.Badge {
	out := vehicle.Badge{Panel: string(p.ID), Word: b.Word, Says: b.Says, Mark: b.Mark, Href: b.Href}
	if shape, err := geom.ParsePath(d); err == nil && !shape.Empty() {
		at := inside(shape, shape.Centroid())
		out.X, out.Y = at.X, at.Y
	}
	return out
}

// View picks a view by its ID, or the first.
func View(views []vehicle.View, id string) (vehicle.View, bool) {
	for _, v := range views {
		if v.ID == id {
			return v, true
		}
	}
	if len(views) == 0 {
		return vehicle.View{}, false
	}
	return views[0], true
}

// Shows returns the view in which a panel is drawn best: its own side first.
func Shows(b *build.Build, p *build.Panel) string {
	for _, id := range preferred(p.Side) {
		if outline(*p, id) != "" && hasView(b, id) {
			return id
		}
	}
	for _, v := range b.Views {
		if outline(*p, v.ID) != "" {
			return v.ID
		}
	}
	return ""
}

func panel(b *build.Build, p build.Panel, d string, findings int, o Options) vehicle.Panel {
	out := vehicle.Panel{ID: string(p.ID), Name: p.FullName(), State: string(p.State), Colour: Colour(b, p), Path: d,
		Href: o.Base + "/panel/" + string(p.ID), Findings: findings, Lit: p.ID == o.Panel}
	if o.Touch {
		out.Href = o.Base + "/new?panel=" + string(p.ID)
	}
	return out
}

func pin(b *build.Build, s spot, o Options) vehicle.Pin {
	f := s.finding
	state := string(f.State)
	if f.Remedy != "" && f.State == build.Settled {
		state = string(f.Remedy)
	}
	return vehicle.Pin{Number: string(f.ID), X: s.at.X, Y: s.at.Y, State: state, Says: f.What, Href: o.Base + "/finding/" + string(f.ID),
		Draft: o.Kept != nil && o.Kept.Finding(f.ID) == nil, Done: Done(b, f), Lit: f.ID == o.Finding}
}

// Colour returns the face colour of a panel's first surface, which is the one
// that is seen, or nothing.
func Colour(b *build.Build, p build.Panel) string {
	for _, a := range p.Areas {
		if c := face(b, a.Zone); c != "" {
			return c
		}
	}
	return ""
}

func outline(p build.Panel, view string) string {
	for _, o := range p.Outlines {
		if o.View == view {
			return o.Path
		}
	}
	return ""
}

func hasView(b *build.Build, id string) bool {
	return slices.ContainsFunc(b.Views, func(v build.View) bool { return v.ID == id })
}
