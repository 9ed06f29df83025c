package paint

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// Over is a colour over an undercoat that is not its own, beside its own.
type Over struct {
	Base, Own, Under build.ProductID
	Known            bool // the cards tell how many coats it takes; else only that it is wrong
	Coats, More      int  // over Under, and by how many more than over Own
	Litres, OwnTakes unit.Volume
	Booth            unit.Effort // of the coats more
	Figure           figure.Figure
}

// OverWrong returns what the whole of a colour takes over an undercoat, beside
// over its own: coats that hide it by the cards, litres and booth hours.
func OverWrong(b *build.Build, base, own, under build.ProductID, r rates.Rates) Over {
	o := Over{Base: base, Own: own, Under: under}
	p := *b.Product(base)
	o.OwnTakes, _ = takeoff.Litres(b, p, r)
	coats, err := CoatsToHide(b, base, under)
	if err != nil {
		o.Figure = figure.Figure{Name: "coats of " + p.Name, Text: "not known", Formula: "coats until what is under no longer shows", With: err.Error()}
		return o
	}
	usual := p.Coats
	if n, err := CoatsToHide(b, base, own); err == nil {
		usual = max(n, p.Coats)
	}
	o.Known, o.Coats, o.More = true, coats, max(coats-usual, 0)
	p.Coats = coats
	o.Litres, o.Figure = takeoff.Litres(b, p, r)
	var area unit.Area
	for _, z := range p.Zones {
		area += b.ZoneArea(z)
	}
	o.Booth, _ = takeoff.Coating(p, area, o.More)
	o.Figure.Inputs = append(o.Figure.Inputs,
		figure.Input{Name: "coats over " + name(b, under), Value: fmt.Sprint(coats), Source: figure.Worked, Note: "by the spray-out: until within 1.0 CIEDE2000 and 0.98 of the luminance of a film that hides"},
		figure.Input{Name: "coats over " + name(b, own), Value: fmt.Sprint(usual), Source: figure.Worked, Note: "by the spray-out, not under the sheet's"})
	return o
}

func name(b *build.Build, id build.ProductID) string { return names(b, []build.ProductID{id}) }

// wrong is an undercoat on or mixed for surfaces whose colour goes over another.
type wrong struct {
	under, base build.ProductID
	zone        build.ZoneID
	panels      []build.PanelID
	laid        bool // on already, not only mixed
}

// wrongUndercoats finds sealers that a colour does not go over: in the list of
// a zone, in a mix, or on a panel whose colour is not on yet.
func wrongUndercoats(b *build.Build, r rates.Rates) []takeoff.Check {
	var checks []takeoff.Check
	for _, z := range b.Zones {
		base := colourOf(b, z.ID)
		if base == nil || len(base.Over) == 0 {
			continue
		}
		for _, w := range append(onList(b, z.ID, base), applied(b, z.ID, base)...) {
			checks = append(checks, undercoatCheck(b, w, r))
		}
	}
	return checks
}

// onList finds a sealer that the list of paint puts under a colour of a zone.
func onList(b *build.Build, zone build.ZoneID, base *build.Product) []wrong {
	s := sealerOf(b, zone)
	if s == nil || slices.Contains(base.Over, s.ID) {
		return nil
	}
	return []wrong{{under: s.ID, base: base.ID, zone: zone}}
}

// applied finds panels whose last undercoat is one that their colour does not
// go over, or for which such a one is mixed.
func applied(b *build.Build, zone build.ZoneID, base *build.Product) []wrong {
	var list []wrong
	add := func(under build.ProductID, panel build.PanelID, laid bool) {
		i := slices.IndexFunc(list, func(w wrong) bool { return w.under == under })
		if i < 0 {
			list = append(list, wrong{under: under, base: base.ID, zone: zone, laid: laid})
			i = len(list) - 1
		}
		list[i].laid = list[i].laid || laid
		if !slices.Contains(list[i].panels, panel) {
			list[i].panels = append(list[i].panels, panel)
		}
	}
	for _, p := range b.Panels {
		if p.Face() != zone {
			continue
		}
		under, laid := lastUndercoat(b, p, zone)
		if u := b.Product(under); u != nil && u.Use == build.Sealer && !slices.Contains(base.Over, under) {
			add(under, p.ID, laid)
		}
	}
	return list
}

// lastUndercoat returns what a colour would go on now: the last coat, unless a
// sealer was mixed for it since. A coat of colour ends the matter.
func lastUndercoat(b *build.Build, p build.Panel, zone build.ZoneID) (id build.ProductID, laid bool) {
	var since unit.Moment
	if coats := b.CoatsOn(p.ID, zone); len(coats) > 0 {
		last := coats[len(coats)-1]
		id, laid, since = last.Product, true, last.At
	}
	for _, m := range b.Pours {
		product := b.Product(m.Product)
		on := build.Coat{Panels: m.Panels, Zones: m.Zones}
		if m.At >= since && product.Use == build.Sealer && on.Covers(p, zone) {
			id, laid, since = m.Product, false, m.At
		}
	}
	return id, laid
}

func undercoatCheck(b *build.Build, w wrong, r rates.Rates) takeoff.Check {
	base := b.Product(w.base)
	own := rightSealer(b, base)
	o := OverWrong(b, w.base, own, w.under, r)
	where, weight := "on the list for "+zoneName(b, w.zone), takeoff.Slipping
	if len(w.panels) > 0 {
		where = fmt.Sprintf("mixed for %s", panels(w.panels))
	}
	if w.laid {
		where, weight = "on "+panels(w.panels), takeoff.Lost
	}
	says := fmt.Sprintf("%s is %s, and %s goes over %s", name(b, w.under), where, base.Name, name(b, own))
	if o.Known {
		says += fmt.Sprintf(": over %s it needs %d coats, not %d, %.1f l instead of %.1f l for all of it, and about %s more in the booth",
			name(b, w.under), o.Coats, o.Coats-o.More, o.Litres.L(), o.OwnTakes.L(), halfHours(o.Booth))
	}
	return takeoff.Check{ID: "undercoat/" + string(w.zone) + "/" + string(w.under), Weight: weight, Says: says,
		Do: sealers(b, own, w.under, r), Figure: o.Figure}
}

// rightSealer returns the sealer that a colour goes over.
func rightSealer(b *build.Build, base *build.Product) build.ProductID {
	for _, id := range base.Over {
		if p := b.Product(id); p != nil && p.Use == build.Sealer {
			return id
		}
	}
	return base.Over[0]
}

// sealers says where either undercoat belongs, with litres.
func sealers(b *build.Build, own, under build.ProductID, r rates.Rates) string {
	text := "stop"
	for _, id := range []build.ProductID{own, under} {
		p := b.Product(id)
		if p == nil {
			continue
		}
		var area unit.Area
		for _, z := range p.Zones {
			area += b.ZoneArea(z)
		}
		if area > 0 {
			volume, _ := takeoff.Litres(b, *p, r)
			text += fmt.Sprintf("; %s takes %s for %s", p.Name, volume, area)
		}
	}
	return text
}

func zoneName(b *build.Build, id build.ZoneID) string {
	for _, z := range b.Zones {
		if z.ID == id {
			return z.Name
		}
	}
	return string(id)
}

func panels(ids []build.PanelID) string {
	if len(ids) > 4 {
		return fmt.Sprintf("%d panels", len(ids))
	}
	text := ""
	for i, id := range ids {
		if i > 0 {
			text += ", "
		}
		text += string(id)
	}
	return text
}

// halfHours rounds to the half hour that a guess is worth.
func halfHours(e unit.Effort) unit.Effort {
	const half = 30 * unit.Minute
	return (e + half/2) / half * half
}
