package look

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/takeoff"
	"fettle/unit"
)

// Lack is a colour on zones that no base or single stage is entered for: how
// many litres it takes is not known.
type Lack struct {
	Colour build.ColourID    `json:"colour"`
	Name   string            `json:"name"`
	Zones  []build.ZoneID    `json:"zones"`
	Area   unit.Area         `json:"area_m2"`
	Other  []build.ProductID `json:"laid_out_for,omitempty"` // paint of another colour that the list has there
}

// Lacks returns the colours of a build, such as one with a look applied, that
// stand on zones without paint of them.
func Lacks(b *build.Build) []Lack {
	var list []Lack
	for _, z := range b.Zones {
		base := b.PaintOn(z.ID, build.Use.ShowsColour)
		if z.Colour == "" || paints(base, z.Colour) {
			continue
		}
		i := slices.IndexFunc(list, func(l Lack) bool { return l.Colour == z.Colour })
		if i < 0 {
			i = len(list)
			list = append(list, Lack{Colour: z.Colour, Name: b.Colour(z.Colour).Name})
		}
		l := &list[i]
		l.Zones, l.Area = append(l.Zones, z.ID), l.Area+b.ZoneArea(z.ID)
		if base != nil && !slices.Contains(l.Other, base.ID) {
			l.Other = append(l.Other, base.ID)
		}
	}
	return list
}

// paints reports whether a product is paint of a colour. One that does not say
// its colour is taken for that of its zone.
func paints(p *build.Product, of build.ColourID) bool {
	return p != nil && (p.Colour == "" || p.Colour == of)
}

// unpainted takes zones from the paint of another colour that covers them, so
// that nobody counts its litres.
func unpainted(b *build.Build, lacks []Lack) {
	for _, l := range lacks {
		for _, id := range l.Other {
			p := b.Product(id)
			p.Zones = slices.DeleteFunc(slices.Clone(p.Zones), func(z build.ZoneID) bool { return slices.Contains(l.Zones, z) })
		}
	}
}

// unknowns are the checks of colours that the list has other paint for.
func unknowns(b *build.Build) []takeoff.Check {
	var list []takeoff.Check
	for _, l := range Lacks(b) {
		if len(l.Other) == 0 {
			continue
		}
		var other, zones []string
		for _, id := range l.Other {
			other = append(other, b.Product(id).Name)
		}
		for _, z := range b.Zones {
			if slices.Contains(l.Zones, z.ID) {
				zones = append(zones, z.Name)
			}
		}
		list = append(list, takeoff.Check{ID: "no-paint/" + string(l.Colour), Weight: takeoff.Slipping, Link: "look",
			Says: fmt.Sprintf("%s is to go on %s, %s, and no paint of it is entered: its litres are not known, and the list still counts %s there",
				l.Name, strings.Join(zones, " and "), l.Area, strings.Join(other, " and ")),
			Do: fmt.Sprintf("enter the sheet of a base or single stage of %s, and spray a card of it", l.Name)})
	}
	return list
}
