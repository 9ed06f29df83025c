package paint

import (
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// Mix is what some coats of a product on some panels take, beside the whole job.
type Mix struct {
	takeoff.Need
	Zones   []build.ZoneID // covered, as given or those of the product on the panels
	Job     unit.Volume    // of the first part, the paint, for the whole job as it comes in the tin
	After   unit.Volume    // of Job once this mix is made
	Batches []string       // of the paint's tins that hold any, not boxed together; more than one is a trap
	SameFor unit.Area      // surface of the same zones that this mix leaves; the same batch should do it
}

// Session returns what so many coats of a product on panels take in one mix. No
// zones are those of the product that the panels have. Faults: NotFound for an
// unknown product or panel, Invalid where nothing of them is covered.
func Session(b *build.Build, id build.ProductID, panels []build.PanelID, zones []build.ZoneID, coats int, r rates.Rates) (Mix, error) {
	p := b.Product(id)
	if p == nil {
		return Mix{}, fault.New(fault.NotFound, "there is no paint product %s", id)
	}
	for _, panel := range panels {
		if b.Panel(panel) == nil {
			return Mix{}, fault.New(fault.NotFound, "there is no panel %s", panel)
		}
	}
	area := b.SurfaceOf(*p, panels, zones)
	if area <= 0 || coats < 1 {
		return Mix{}, fault.New(fault.Invalid, "%d coats on %s: nothing is covered", coats, area).
			WithHint("pick panels that have surface in a zone of the product, or name the zone")
	}
	m := Mix{Need: takeoff.NeedOf(*p, area, coats, purgeOf(*p), r), Zones: zones}
	if len(zones) == 0 {
		m.Zones = zonesOf(b, *p, panels)
	}
	m.Job = jobOf(b, *p, r)
	m.After = max(m.Job-m.Parts[0].Volume, 0)
	m.Batches = batchesOf(b, p.ID)
	for _, z := range p.Zones {
		m.SameFor += b.ZoneArea(z)
	}
	m.SameFor = max(m.SameFor-area, 0)
	return m, nil
}

// jobOf returns the paint of a product, as it comes in the tin, for all of it.
func jobOf(b *build.Build, p build.Product, r rates.Rates) unit.Volume {
	volume, _ := takeoff.Litres(b, p, r)
	return takeoff.Share(p, volume)
}

func purgeOf(p build.Product) unit.Volume {
	if p.FillPurge > 0 {
		return p.FillPurge
	}
	return p.Purge
}

func zonesOf(b *build.Build, p build.Product, panels []build.PanelID) []build.ZoneID {
	var list []build.ZoneID
	for _, z := range p.Zones {
		if slices.ContainsFunc(panels, func(id build.PanelID) bool { return b.Panel(id).Has(z) }) {
			list = append(list, z)
		}
	}
	return list
}
