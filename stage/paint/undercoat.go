package paint

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/takeoff/sprayout"
	"fettle/unit"
)

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
	var paints *sprayout.Paints // read when the first is found
	for _, z := range b.Zones {
		base := b.PaintOn(z.ID, build.Use.ShowsColour)
		if base == nil || len(base.Over) == 0 {
			continue
		}
		for _, w := range append(onList(b, z.ID, base), applied(b, z.ID, base)...) {
			if paints == nil {
				paints = sprayout.Read(b)
			}
			checks = append(checks, undercoatCheck(b, paints, w, r))
		}
	}
	return checks
}

// onList finds a sealer that the list of paint puts under a colour of a zone.
func onList(b *build.Build, zone build.ZoneID, base *build.Product) []wrong {
	s := b.PaintOn(zone, func(u build.Use) bool { return u == build.Sealer })
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

func undercoatCheck(b *build.Build, paints *sprayout.Paints, w wrong, r rates.Rates) takeoff.Check {
	base := b.Product(w.base)
	own := rightSealer(b, base)
	o := paints.Wrong(b, w.base, w.under, own, base.Zones, r)
	where, weight := "on the list for "+b.ZoneName(w.zone), takeoff.Slipping
	if len(w.panels) > 0 {
		where = fmt.Sprintf("mixed for %s", panels(w.panels))
	}
	if w.laid {
		where, weight = "on "+panels(w.panels), takeoff.Lost
	}
	says := fmt.Sprintf("%s is %s, and %s goes over %s", name(b, w.under), where, base.Name, name(b, own))
	if o.More() > 0 {
		says += fmt.Sprintf(": over %s it needs %s, for all of it", name(b, w.under), o.Takes())
	}
	return takeoff.Check{ID: "undercoat/" + string(w.zone) + "/" + string(w.under), Weight: weight, Says: says, Do: o.Do(b), Figure: o.Figure}
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

func name(b *build.Build, id build.ProductID) string { return names(b, []build.ProductID{id}) }

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
