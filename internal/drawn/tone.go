package drawn

import (
	"cmp"
	"math"
	"slices"

	"fettle/build"
	"fettle/geom"
)

// tone is where one paint zone gives way to another on a two-tone vehicle: a
// level line, below which panels that have both are in the lower one.
type tone struct {
	lower, upper build.ZoneID
	z            float64 // mm
}

// edges is a panel's reach in a view that shows z.
type edges struct {
	zone build.ZoneID
	box  geom.Box
}

// meet is how near two edges must be to be the same, in mm.
const meet = 2

// toneOf finds the line along which the panels of two differently coloured
// zones meet for the greatest length. A vehicle in one colour has none.
func toneOf(b *build.Build) tone {
	length := map[tone]float64{}
	var order []tone
	for _, v := range b.Views {
		if v.Plane == "xy" {
			continue
		}
		all := edgesOf(b, v.ID)
		for _, low := range all {
			for _, high := range all {
				over := min(low.box.Max.X, high.box.Max.X) - max(low.box.Min.X, high.box.Min.X)
				if over <= 0 || math.Abs(low.box.Max.Y-high.box.Min.Y) > meet || face(b, low.zone) == face(b, high.zone) {
					continue
				}
				t := tone{low.zone, high.zone, math.Round(low.box.Max.Y)}
				if length[t] == 0 {
					order = append(order, t)
				}
				length[t] += over
			}
		}
	}
	if len(order) == 0 {
		return tone{}
	}
	return slices.MaxFunc(order, func(a, b tone) int { return cmp.Compare(length[a], length[b]) })
}

func edgesOf(b *build.Build, view string) []edges {
	var out []edges
	for _, p := range b.Panels {
		shape, err := geom.ParsePath(outline(p, view))
		if err == nil && !shape.Empty() && len(p.Areas) > 0 {
			out = append(out, edges{p.Areas[0].Zone, shape.Bounds()})
		}
	}
	return out
}

// both tells whether a panel has surface in both zones.
func (t tone) both(p build.Panel) bool {
	return t.lower != "" && t.upper != "" && p.Has(t.lower) && p.Has(t.upper)
}

// face returns the colour that a zone gets, or nothing.
func face(b *build.Build, zone build.ZoneID) string {
	for _, z := range b.Zones {
		for _, c := range b.Colours {
			if z.ID == zone && c.ID == z.Colour {
				return c.Face
			}
		}
	}
	return ""
}

// Done tells whether a finding needs no more work: it is closed, or the task it
// belongs to is finished.
func Done(b *build.Build, f build.Finding) bool {
	t := b.Task(f.Task)
	return f.State == build.Closed || t != nil && t.State == build.Finished
}
