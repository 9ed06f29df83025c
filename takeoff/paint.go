package takeoff

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// Spraying is the caution of every act with a spray gun.
const Spraying = "Two-pack paint holds isocyanates: air-fed breathing, gloves and overall; nobody enters before the booth's clearance time; earth the gun and the panel; the maker's sheet rules."

// Need is the paint for coats of one product on a surface.
type Need struct {
	Product  build.ProductID `json:"product"`
	Area     unit.Area       `json:"area_m2"`
	Coats    int             `json:"coats"`
	Sprayed  unit.Volume     `json:"sprayed_l"` // through the gun, to have the film on the panel
	Purge    unit.Volume     `json:"purge_l"`   // stays in cup and hose
	Volume   unit.Volume     `json:"volume_l"`  // ready to spray
	Parts    []PartNeed      `json:"parts"`
	Figure   figure.Figure   `json:"working"`
	Transfer float64         `json:"transfer"`
}

// PartNeed is one part of the mix, as it comes in the tin.
type PartNeed struct {
	Part   int         `json:"part"` // place in the product's mix, from 0
	Name   string      `json:"name"`
	Volume unit.Volume `json:"volume_l"`
}

// litresFormula is how every need of paint is reckoned.
const litresFormula = "area ÷ (10 × solids % ÷ film × transfer) + purge"

// NeedOf returns the paint for so many coats of a product on an area, with a
// purge: area ÷ (10 × solids % ÷ film in µm × transfer) + purge.
func NeedOf(p build.Product, area unit.Area, coats int, purge unit.Volume, r rates.Rates) Need {
	transfer, in := r.Transfer(p)
	sprayed := unit.Volume(0)
	if area > 0 && coats > 0 {
		sprayed = litres(through(area, p, coats, transfer))
	}
	n := Need{Product: p.ID, Area: area, Coats: coats, Sprayed: sprayed, Purge: purge, Volume: sprayed + purge, Transfer: transfer}
	n.Parts = partsOf(p, n.Volume)
	n.Figure = figure.Figure{
		Name: p.Name, Text: n.Volume.String(), Formula: litresFormula,
		With:   fmt.Sprintf("%s ÷ (10 × %g ÷ %g × %.2f) + %s = %s + %s = %s", area, p.Solids, float64(coats)*p.Film, transfer, purge, sprayed, purge, n.Volume),
		Inputs: append([]figure.Input{{Name: "surface", Value: area.String(), Source: figure.Measured}}, sheetInputs(p, coats, in, purge)...), Caution: Spraying,
	}
	return n
}

// through returns the litres that go through the gun.
func through(area unit.Area, p build.Product, coats int, transfer float64) float64 {
	return area.M2() / (10 * p.Solids / (float64(coats) * p.Film) * transfer)
}

func litres(l float64) unit.Volume { return unit.Volume(math.Round(l * float64(unit.Litre))) }

func sheetInputs(p build.Product, coats int, transfer figure.Input, purge unit.Volume) []figure.Input {
	return []figure.Input{
		{Name: "solids", Value: fmt.Sprintf("%g %%", p.Solids), Source: figure.Sheet, Note: p.Sheet},
		{Name: "dry film", Value: fmt.Sprintf("%d × %g µm", coats, p.Film), Source: figure.Sheet, Note: p.Sheet},
		transfer,
		{Name: "purge", Value: purge.String(), Source: figure.TradeDefault},
	}
}

// partsOf divides a volume ready to spray among the parts of the mix. Parts of
// nothing are left out; a product without a mix comes ready.
func partsOf(p build.Product, v unit.Volume) []PartNeed {
	sum := 0.0
	for _, m := range p.Mix {
		sum += m
	}
	if sum <= 0 {
		return []PartNeed{{Name: p.Name, Volume: v}}
	}
	var list []PartNeed
	for i, m := range p.Mix {
		if m > 0 {
			list = append(list, PartNeed{Part: i, Name: PartName(p, i), Volume: unit.Volume(math.Round(float64(v) * m / sum))})
		}
	}
	return list
}

// Share returns the first part, the paint as it comes in the tin, of a volume
// ready to spray.
func Share(p build.Product, v unit.Volume) unit.Volume { return partsOf(p, v)[0].Volume }

// PartName returns what a part of a mix is called.
func PartName(p build.Product, part int) string {
	if part < len(p.Parts) && p.Parts[part].Name != "" {
		return p.Parts[part].Name
	}
	return p.Name + ", " + [...]string{"paint", "hardener", "reducer", "more"}[min(max(part, 0), 3)]
}

// Litres returns the ready-to-spray paint of a product over all its rounds, and
// of what is painted again.
func Litres(b *build.Build, p build.Product, r rates.Rates) (unit.Volume, figure.Figure) {
	var area unit.Area
	var inputs []figure.Input
	for _, id := range p.Zones {
		a := b.ZoneArea(id)
		area += a
		inputs = append(inputs, figure.Input{Name: "zone " + string(id), Value: a.String(), Source: figure.Measured})
	}
	transfer, in := r.Transfer(p)
	rounds := max(p.Rounds, 1)
	volume := litres(float64(rounds) * (through(area, p, p.Coats, transfer) + p.Purge.L()))
	f := figure.Figure{
		Name: p.Name, Formula: litresFormula + ", for each round",
		With:   fmt.Sprintf("%d × (%s ÷ (10 × %g ÷ %g × %.2f) + %s)", rounds, area, p.Solids, float64(p.Coats)*p.Film, transfer, p.Purge),
		Inputs: append(inputs, sheetInputs(p, p.Coats, in, p.Purge)...), Caution: Spraying,
	}
	for _, redo := range b.Redos {
		for _, n := range RedoNeeds(b, redo, r) {
			if n.Product == p.ID {
				volume += n.Volume
				f.With += " + " + n.Volume.String()
				f.Inputs = append(f.Inputs, figure.Input{Name: "painted again", Value: n.Volume.String(), Source: figure.Worked, Note: redo.Why})
			}
		}
	}
	f.Text = volume.String()
	f.With += " = " + f.Text
	return volume, f
}

// RedoNeeds returns the paint of what is painted again, product by product.
func RedoNeeds(b *build.Build, redo build.Redo, r rates.Rates) []Need {
	var list []Need
	for _, c := range redo.Coats {
		if p := b.Product(c.Product); p != nil {
			list = append(list, NeedOf(*p, redoArea(b, *p, redo), c.Coats, p.Purge, r))
		}
	}
	return list
}

// redoArea is the surface of a redo that a product covers: of the zones it
// names, or else of its own, those that both have. No panels are all panels.
func redoArea(b *build.Build, p build.Product, redo build.Redo) unit.Area {
	var sum unit.Area
	for _, zone := range p.Zones {
		if len(redo.Zones) > 0 && !slices.Contains(redo.Zones, zone) {
			continue
		}
		if len(redo.Panels) == 0 {
			sum += b.ZoneArea(zone)
			continue
		}
		with := slices.DeleteFunc(slices.Clone(redo.Panels), func(id build.PanelID) bool { return !b.Panel(id).Has(zone) })
		if len(with) > 0 || len(redo.Zones) > 0 {
			sum += b.SurfaceOf(p, with, []build.ZoneID{zone}) // on none of the panels: such as the wheels
		}
	}
	return sum
}
