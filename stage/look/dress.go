package look

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/colour"
	"fettle/takeoff/sprayout"
)

// ZoneFace is how a zone is seen.
type ZoneFace struct {
	Zone build.ZoneID `json:"zone"`
	sprayout.Face
}

// Dress returns how every zone of a build that has a colour is seen: its base or
// single stage over its sealer, in the coats planned. b may be another state of
// the build that the paints were read from, such as one with a look applied.
func Dress(p *sprayout.Paints, b *build.Build) []ZoneFace {
	var list []ZoneFace
	known := map[[2]build.ProductID]sprayout.Face{}
	for _, z := range b.Zones {
		if z.Colour == "" {
			continue
		}
		base, over := b.PaintOn(z.ID, build.Use.ShowsColour), Under(b, z.ID)
		if !paints(base, z.Colour) {
			f := p.Drawn(z.Colour)
			f.Why = fmt.Sprintf("no paint of %s is entered yet, so its litres and coats are not known; %s", b.Colour(z.Colour).Name, f.Why)
			list = append(list, ZoneFace{z.ID, f})
			continue
		}
		key := [2]build.ProductID{base.ID, over}
		f, ok := known[key]
		if !ok {
			f = p.Face(base.ID, over, 0)
			known[key] = f
		}
		f.Colour = z.Colour
		list = append(list, ZoneFace{z.ID, f})
	}
	return list
}

// Under returns the undercoat that a zone's colour lies on: its sealer, else the
// last of what goes on before and covers the zone; none where nothing does.
func Under(b *build.Build, zone build.ZoneID) build.ProductID {
	for _, use := range []build.Use{build.Sealer, build.Primer, build.Epoxy} {
		if p := b.PaintOn(zone, func(u build.Use) bool { return u == use }); p != nil {
			return p.ID
		}
	}
	return ""
}

// PanelFace is how the outside of a panel is seen: the index of its zone in what
// Dress returned, and that of a second zone it has surface in; −1 for none.
type PanelFace struct {
	Panel  build.PanelID
	Zone   int
	Second int
}

// Panels tells which of the zones each panel shows.
func Panels(b *build.Build, zones []ZoneFace) []PanelFace {
	index := map[build.ZoneID]int{}
	for i, z := range zones {
		index[z.Zone] = i
	}
	list := make([]PanelFace, len(b.Panels))
	for i, p := range b.Panels {
		f := PanelFace{Panel: p.ID, Zone: -1, Second: -1}
		for _, a := range p.Areas {
			at, ok := index[a.Zone]
			switch {
			case !ok:
			case f.Zone < 0:
				f.Zone = at
			case f.Second < 0:
				f.Second = at
			}
		}
		list[i] = f
	}
	return list
}

// Edge is how two colours that meet stand apart under one light.
type Edge struct {
	Light      string  `json:"light"`
	Difference float64 `json:"difference"` // CIEDE2000
	Lightness  float64 `json:"lightness"`  // L units between the two
	Ratio      float64 `json:"ratio"`      // of luminances, 1 to 21
}

// Beside returns how two faces stand apart under the three lights; none where
// either is not known.
func Beside(a, b sprayout.Face) []Edge {
	if !a.Known() || !b.Known() {
		return nil
	}
	list := make([]Edge, len(sprayout.Lights))
	for i, name := range sprayout.Lights {
		c := colour.Beside(a.Seen[i].Lab, b.Seen[i].Lab)
		list[i] = Edge{name, c.Difference, c.Lightness, c.Ratio}
	}
	return list
}

// Neighbours returns the pairs of zones, as indices, whose colours meet on a
// panel, and the two of the break line first.
func Neighbours(line build.Break, zones []ZoneFace, panels []PanelFace) [][2]int {
	var list [][2]int
	add := func(a, b int) {
		if a < 0 || b < 0 || zones[a].Colour == zones[b].Colour {
			return
		}
		pair := [2]int{min(a, b), max(a, b)}
		if !slices.Contains(list, pair) {
			list = append(list, pair)
		}
	}
	find := func(id build.ZoneID) int {
		return slices.IndexFunc(zones, func(z ZoneFace) bool { return z.Zone == id })
	}
	add(find(line.Upper), find(line.Lower))
	for _, p := range panels {
		add(p.Zone, p.Second)
	}
	return list
}
