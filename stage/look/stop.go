package look

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/takeoff/sprayout"
	"fettle/unit"
)

// Stop is a colour over an undercoat that its planned coats do not hide.
type Stop struct {
	Zones  []build.ZoneID
	Base   build.ProductID
	Under  build.ProductID
	Right  build.ProductID // the undercoat that it hides in the fewest coats; empty where none is better
	Coats  int             // planned
	Needs  int             // to hide Under; 0 where no number does
	Usual  int             // to hide Right, at least the planned
	Now    takeoff.Need    // for Zones in the planned coats
	Then   takeoff.Need    // in the coats it needs
	Booth  unit.Effort     // more
	Sealer takeoff.Need    // Right, for Zones
	Other  takeoff.Need    // Under, for what else it is under; nothing where that is nothing
}

// Stops returns where a build, such as one with a look applied, lays a colour
// over an undercoat that shows through, one for each pair.
func Stops(p *sprayout.Paints, b *build.Build, r rates.Rates) []Stop {
	var list []Stop
	for _, z := range Dress(p, b) {
		if z.Basis != sprayout.WorkedOut || z.Hidden {
			continue
		}
		i := slices.IndexFunc(list, func(s Stop) bool { return s.Base == z.Product && s.Under == z.Over })
		if i < 0 {
			i = len(list)
			list = append(list, Stop{Base: z.Product, Under: z.Over, Coats: z.Coats, Needs: z.ToHide})
		}
		list[i].Zones = append(list[i].Zones, z.Zone)
	}
	for i := range list {
		list[i].settle(p, b, r)
	}
	return list
}

// StopOver returns what would stop if all that a product covers were over an
// undercoat; nil where its planned coats hide that, or nothing is worked out.
func StopOver(p *sprayout.Paints, b *build.Build, id, under build.ProductID, r rates.Rates) *Stop {
	f := p.Face(id, under, 0)
	of := b.Product(id)
	if f.Basis != sprayout.WorkedOut || f.Hidden || of == nil || b.Product(under) == nil {
		return nil
	}
	s := Stop{Zones: of.Zones, Base: id, Under: under, Coats: f.Coats, Needs: f.ToHide}
	s.settle(p, b, r)
	return &s
}

func (s *Stop) settle(p *sprayout.Paints, b *build.Build, r rates.Rates) {
	base, under := b.Product(s.Base), b.Product(s.Under)
	area := areaOf(b, s.Zones)
	s.Now = takeoff.NeedOf(*base, area, s.Coats, base.Purge, r)
	s.Usual = s.Coats
	if all := p.Undercoats(s.Base); len(all) > 0 && all[0].Coats > 0 && all[0].Product != s.Under {
		s.Right, s.Usual = all[0].Product, max(all[0].Coats, s.Coats)
		right := b.Product(s.Right)
		s.Sealer = takeoff.NeedOf(*right, area, max(right.Coats, 1), right.Purge, r)
	}
	if s.Needs > 0 {
		s.Then = takeoff.NeedOf(*base, area, s.Needs, base.Purge, r)
		s.Booth, _ = takeoff.Coating(*base, area, max(s.Needs-s.Usual, 0))
	}
	var rest []build.ZoneID
	for _, z := range under.Zones {
		if !slices.Contains(s.Zones, z) {
			rest = append(rest, z)
		}
	}
	if len(rest) > 0 {
		s.Other = takeoff.NeedOf(*under, areaOf(b, rest), max(under.Coats, 1), under.Purge, r)
	}
}

func areaOf(b *build.Build, zones []build.ZoneID) unit.Area {
	var sum unit.Area
	for _, z := range zones {
		sum += b.ZoneArea(z)
	}
	return sum
}

// throughs finds colours that the list of paint lays over an undercoat of theirs
// that shows through in the planned coats, before the first of them is on. An
// undercoat that a colour does not go over at all is the stage of paint's.
func throughs(b *build.Build, r rates.Rates) []takeoff.Check {
	if len(b.Cards) == 0 {
		return nil
	}
	var list []takeoff.Check
	for _, s := range Stops(sprayout.Read(b), b, r) {
		over := b.Product(s.Base).Over
		laid := slices.ContainsFunc(b.Coats, func(c build.Coat) bool { return c.Product == s.Base })
		if laid || len(over) > 0 && !slices.Contains(over, s.Under) {
			continue
		}
		list = append(list, takeoff.Check{ID: "shows-through/" + string(s.Base) + "/" + string(s.Under), Weight: takeoff.Slipping,
			Says: s.Says(b), Do: s.Do(b), Link: "look/paint/" + string(s.Base) + "?over=" + string(s.Under), Figure: s.Then.Figure})
	}
	return list
}

// Says tells what would happen, with the figures.
func (s Stop) Says(b *build.Build) string {
	base, under := b.Product(s.Base).Name, b.Product(s.Under).Name
	if s.Needs == 0 {
		return fmt.Sprintf("%s does not hide %s in any number of coats", base, under)
	}
	return fmt.Sprintf("%s over %s needs %d coats, not %d: %.1f l instead of %.1f l, +%d coats ≈ +%.1f h in the booth",
		base, under, s.Needs, s.Usual, s.Then.Volume.L(), s.Now.Volume.L(), s.Needs-s.Usual, s.Booth.H())
}

// Do tells what to do instead.
func (s Stop) Do(b *build.Build) string {
	text := "Stop: take a sealer nearer to the colour"
	if s.Right != "" {
		text = fmt.Sprintf("Stop: %s here, %s for %s", b.Product(s.Right).Name, s.Sealer.Volume, s.Sealer.Area)
	}
	if s.Other.Area > 0 {
		text += fmt.Sprintf("; %s only where it belongs, %s for %s", b.Product(s.Under).Name, s.Other.Volume, s.Other.Area)
	}
	return text
}
