package sprayout

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// Wrong is a colour over an undercoat that is not its own, beside over the right
// one: what it takes to hide it, and where either undercoat belongs.
type Wrong struct {
	Zones []build.ZoneID
	Base  build.ProductID
	Under build.ProductID
	Right build.ProductID // the undercoat to take instead; empty where none is better

	Coats  int           // planned
	Needs  int           // to hide Under; 0 where no number does, or nothing is known
	Usual  int           // to hide Right, at least the planned
	Why    string        // why no number of coats is known
	Now    takeoff.Need  // for Zones in the planned coats
	Then   takeoff.Need  // in the coats it needs, at least the planned
	Booth  unit.Effort   // of the coats more
	Sealer takeoff.Need  // Right, for Zones
	Other  takeoff.Need  // Under, for what else it is under; nothing where that is nothing
	Figure figure.Figure // of Then, with how the coats were counted
}

// More is how many coats it needs more than over the right undercoat.
func (w Wrong) More() int { return max(w.Needs-w.Usual, 0) }

// Fewest returns the undercoat that a product hides in the fewest coats, or
// nothing where none is known to be better than one.
func (p *Paints) Fewest(id, than build.ProductID) build.ProductID {
	if all := p.Undercoats(id); len(all) > 0 && all[0].Coats > 0 && all[0].Product != than {
		return all[0].Product
	}
	return ""
}

// Wrong reckons a colour over an undercoat, on zones of a build, beside over the
// right one, which may be empty. b may be another state of the build that the
// paints were read from. Base and undercoat must be products of it.
func (p *Paints) Wrong(b *build.Build, base, under, right build.ProductID, zones []build.ZoneID, r rates.Rates) Wrong {
	w := Wrong{Zones: zones, Base: base, Under: under, Right: right}
	of, area := *b.Product(base), areaOf(b, zones)
	w.Coats, _ = p.Planned(base)
	w.Usual, w.Now = w.Coats, need(of, area, w.Coats, r)
	if better := b.Product(right); better != nil {
		if n, err := p.ToHide(base, right); err == nil {
			w.Usual = max(n, w.Coats)
		}
		w.Sealer = need(*better, area, better.Coats, r)
	}
	if other := *b.Product(under); len(without(other.Zones, zones)) > 0 {
		w.Other = need(other, areaOf(b, without(other.Zones, zones)), other.Coats, r)
	}
	n, err := p.ToHide(base, under)
	if err != nil {
		w.Why = err.Error()
		w.Figure = figure.Figure{Name: "coats of " + of.Name, Text: "not known", Formula: "coats until what is under no longer shows", With: w.Why}
		return w
	}
	w.Needs, w.Then = n, need(of, area, max(n, w.Coats), r)
	w.Booth, _ = takeoff.Coating(of, area, w.More())
	w.work(b)
	return w
}

// work adds how the coats were counted to the working of the litres.
func (w *Wrong) work(b *build.Build) {
	w.Figure = w.Then.Figure
	w.Figure.Inputs = append(w.Figure.Inputs, figure.Input{Name: "coats over " + b.Product(w.Under).Name, Value: fmt.Sprint(w.Needs), Source: figure.Worked,
		Note: "by the spray-out: until within 1.0 CIEDE2000 and 0.98 of the luminance of a film that hides"})
	if right := b.Product(w.Right); right != nil {
		w.Figure.Inputs = append(w.Figure.Inputs, figure.Input{Name: "coats over " + right.Name, Value: fmt.Sprint(w.Usual), Source: figure.Worked,
			Note: "by the spray-out, not under those planned"})
	}
}

// need is the paint of all rounds of a product.
func need(p build.Product, area unit.Area, coats int, r rates.Rates) takeoff.Need {
	rounds := max(p.Rounds, 1)
	return takeoff.NeedOf(p, area, max(coats, 1)*rounds, p.Purge*unit.Volume(rounds), r)
}

func areaOf(b *build.Build, zones []build.ZoneID) unit.Area {
	var sum unit.Area
	for _, z := range zones {
		sum += b.ZoneArea(z)
	}
	return sum
}

func without(zones, out []build.ZoneID) []build.ZoneID {
	return slices.DeleteFunc(slices.Clone(zones), func(z build.ZoneID) bool { return slices.Contains(out, z) })
}

// Says tells what would happen, with the figures.
func (w Wrong) Says(b *build.Build) string {
	base, under := b.Product(w.Base).Name, b.Product(w.Under).Name
	if w.Needs == 0 {
		return fmt.Sprintf("%s does not hide %s in any number of coats", base, under)
	}
	return fmt.Sprintf("%s over %s needs %s", base, under, w.Takes())
}

// Takes tells the coats, litres and booth hours that it needs.
func (w Wrong) Takes() string {
	return fmt.Sprintf("%d coats, not %d: %.1f l instead of %.1f l, +%d coats ≈ +%.1f h in the booth",
		w.Needs, w.Usual, w.Then.Volume.L(), w.Now.Volume.L(), w.More(), w.Booth.H())
}

// Do tells what to do instead.
func (w Wrong) Do(b *build.Build) string {
	text := "Stop: take a sealer nearer to the colour"
	if right := b.Product(w.Right); right != nil {
		text = fmt.Sprintf("Stop: %s here, %s for %s", right.Name, w.Sealer.Volume, w.Sealer.Area)
	}
	if w.Other.Area > 0 {
		text += fmt.Sprintf("; %s only where it belongs, %s for %s", b.Product(w.Under).Name, w.Other.Volume, w.Other.Area)
	}
	return text
}
