package look

import (
	"math"
	"slices"

	"fettle/build"
	"fettle/geom"
	"fettle/unit"
)

// Divide returns a look with the areas that its break line gives: of each panel
// that has the upper or the lower zone and is drawn from the side, the front or
// the rear, the part that changes sides. It is read off the drawn outlines,
// beside the line at which the panels were measured, and is an estimate: a curved panel
// is drawn flat, and a wave in the line is left out. Without another line to
// compare with, or without zones for it, the look comes back as it is.
func Divide(b *build.Build, l build.Look) build.Look {
	was := measuredLine(b)
	if was.Z == 0 || l.Break.Z == 0 || l.Break.Z == was.Z || l.Break.Upper == "" || l.Break.Lower == "" {
		return l
	}
	l.Panels = nil
	for _, p := range b.Panels {
		if p.Undivided != nil {
			p.Areas = p.Undivided
		}
		upper, lower := surfaceIn(p, l.Break.Upper), surfaceIn(p, l.Break.Lower)
		whole := upper + lower
		before, drawn := above(b, p, was.Z.Mm())
		after, _ := above(b, p, l.Break.Z.Mm())
		if whole == 0 || !drawn || before == after {
			continue
		}
		part := moved(float64(upper)/float64(whole), before, after)
		now := unit.Area(math.Round(part * float64(whole)))
		if now != upper {
			l.Panels = append(l.Panels, build.LookPanel{Panel: p.ID, Areas: dividedAreas(p, l.Break, now, whole-now)})
		}
	}
	return l
}

// measuredLine returns the line at which the panels were measured: that of the
// chosen look, or of the first, that divides none of them.
func measuredLine(b *build.Build) build.Break {
	var first build.Break
	for _, l := range b.Looks {
		if len(l.Panels) > 0 {
			continue
		}
		if l.Chosen {
			return l.Break
		}
		if first.Z == 0 {
			first = l.Break
		}
	}
	return first
}

func surfaceIn(p build.Panel, zone build.ZoneID) unit.Area {
	for _, a := range p.Areas {
		if a.Zone == zone {
			return a.Area
		}
	}
	return 0
}

// moved turns the upper part of a panel, as measured, to another line: the part
// of the outline above it before and after. All stays all, and none stays none
// while the line rises.
func moved(part, before, after float64) float64 {
	switch {
	case after < before:
		return part * after / before
	case before < 1:
		return 1 - (1-part)*(1-after)/(1-before)
	}
	return part
}

// above returns the part of a panel's outline that lies above a height, in the
// first view in which height is drawn; false where there is none.
func above(b *build.Build, p build.Panel, z float64) (float64, bool) {
	for _, o := range p.Outlines {
		i := slices.IndexFunc(b.Views, func(v build.View) bool { return v.ID == o.View })
		if i < 0 || b.Views[i].Plane == "xy" {
			continue
		}
		path, err := geom.ParsePath(o.Path)
		if err != nil {
			continue
		}
		whole, high := 0.0, 0.0
		for _, ring := range path.Flatten(0.5) {
			whole, high = whole+ringArea(ring), high+ringArea(clipped(ring, z))
		}
		if whole != 0 {
			return min(max(high/whole, 0), 1), true
		}
	}
	return 0, false
}

// ringArea is signed, so that a hole, which runs the other way, is taken off.
func ringArea(ring []geom.Point) float64 {
	sum := 0.0
	for i, p := range ring {
		sum += p.Cross(ring[(i+1)%len(ring)])
	}
	return sum / 2
}

// clipped returns the part of a ring above a height, by cutting it edge by edge
// with a half plane.
func clipped(ring []geom.Point, z float64) []geom.Point {
	var out []geom.Point
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if p.Y >= z {
			out = append(out, p)
		}
		if (p.Y >= z) != (q.Y >= z) {
			out = append(out, geom.Point{X: p.X + (q.X-p.X)*(z-p.Y)/(q.Y-p.Y), Y: z})
		}
	}
	return out
}

// dividedAreas returns a panel's areas with its upper and lower parts set anew,
// in the order they had; a part it did not have comes after the other.
func dividedAreas(p build.Panel, line build.Break, upper, lower unit.Area) []build.ZoneArea {
	size := map[build.ZoneID]unit.Area{line.Upper: upper, line.Lower: lower}
	other := map[build.ZoneID]build.ZoneID{line.Upper: line.Lower, line.Lower: line.Upper}
	var list []build.ZoneArea
	for _, a := range p.Areas {
		area, divided := size[a.Zone]
		if !divided {
			list = append(list, a)
			continue
		}
		if area > 0 {
			list = append(list, build.ZoneArea{Zone: a.Zone, Area: area})
		}
		if to := other[a.Zone]; !p.Has(to) && size[to] > 0 {
			list = append(list, build.ZoneArea{Zone: to, Area: size[to]})
		}
	}
	return list
}
