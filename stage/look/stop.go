package look

import (
	"slices"

	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/takeoff/sprayout"
)

// Stops returns where a build, such as one with a look applied, lays a colour
// over an undercoat that its planned coats do not hide, one for each pair. The
// right one is that which it hides in the fewest coats.
func Stops(p *sprayout.Paints, b *build.Build, r rates.Rates) []sprayout.Wrong {
	type pair struct{ base, under build.ProductID }
	var pairs []pair
	zones := map[pair][]build.ZoneID{}
	for _, z := range Dress(p, b) {
		if z.Basis != sprayout.WorkedOut || z.Hidden {
			continue
		}
		one := pair{z.Product, z.Over}
		if !slices.Contains(pairs, one) {
			pairs = append(pairs, one)
		}
		zones[one] = append(zones[one], z.Zone)
	}
	var list []sprayout.Wrong
	for _, one := range pairs {
		list = append(list, p.Wrong(b, one.base, one.under, p.Fewest(one.base, one.under), zones[one], r))
	}
	return list
}

// StopOver returns what would stop if all that a product covers were over an
// undercoat; nil where its planned coats hide that, or nothing is worked out.
func StopOver(p *sprayout.Paints, b *build.Build, id, under build.ProductID, r rates.Rates) *sprayout.Wrong {
	f := p.Face(id, under, 0)
	of := b.Product(id)
	if f.Basis != sprayout.WorkedOut || f.Hidden || of == nil || b.Product(under) == nil {
		return nil
	}
	w := p.Wrong(b, id, under, p.Fewest(id, under), of.Zones, r)
	return &w
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
			Says: s.Says(b), Do: s.Do(b), Link: "look/paint/" + string(s.Base) + "?over=" + string(s.Under), Figure: s.Figure})
	}
	return list
}
