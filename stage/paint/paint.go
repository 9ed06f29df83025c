// Package paint is the stage of epoxy, sealer, colour and clear.
package paint

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// Stage turns areas and products into litres, and its tasks into work.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "paint" }

const spraying = "Two-pack paint holds isocyanates: air-fed breathing, gloves and overall; nobody enters before the booth's clearance time; earth the gun and the panel; the maker's sheet rules."

// TakeOff returns the stage's work and wants.
func (s Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	list := takeoff.Of(b, s.Name())
	for i := range list.Work {
		list.Work[i].Cautions = append([]string{spraying}, list.Work[i].Cautions...)
		list.Work[i].Figure.Caution = spraying
	}
	return list
}

// Litres returns the ready-to-spray paint of a product over all its rounds:
// area ÷ (10 × solids % ÷ film in µm × transfer) + purge, for each round.
func Litres(b *build.Build, p build.Product) (unit.Volume, figure.Figure) {
	var area unit.Area
	var inputs []figure.Input
	for _, id := range p.Zones {
		a := b.ZoneArea(id)
		area += a
		inputs = append(inputs, figure.Input{Name: "zone " + string(id), Value: a.String(), Source: figure.Measured})
	}
	film := float64(p.Coats) * p.Film
	rounds := max(p.Rounds, 1)
	litres := float64(rounds) * (area.M2()/(10*p.Solids/film*p.Transfer) + p.Purge.L())
	volume := unit.Volume(math.Round(litres * float64(unit.Litre)))
	inputs = append(inputs,
		figure.Input{Name: "solids", Value: fmt.Sprintf("%g %%", p.Solids), Source: figure.Sheet},
		figure.Input{Name: "dry film", Value: fmt.Sprintf("%d × %g µm", p.Coats, p.Film), Source: figure.Sheet},
		figure.Input{Name: "transfer", Value: fmt.Sprintf("%.2f", p.Transfer), Source: figure.TradeDefault, Note: "weigh the tin before and after to learn your own"},
		figure.Input{Name: "purge", Value: p.Purge.String(), Source: figure.TradeDefault})
	return volume, figure.Figure{
		Name: p.Name, Text: volume.String(),
		Formula: "area ÷ (10 × solids % ÷ film × transfer) + purge, for each round",
		With:    fmt.Sprintf("%d × (%s ÷ (10 × %g ÷ %g × %.2f) + %s) = %s", rounds, area, p.Solids, film, p.Transfer, p.Purge, volume),
		Inputs:  inputs, Caution: spraying,
	}
}
