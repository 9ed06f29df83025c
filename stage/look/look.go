// Package look is the stage in which colours, materials and the motif are
// decided: what each look would take, side by side.
package look

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// Stage turns facts into the take-off of its part of the job.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "look" }

// TakeOff returns the stage's work, wants, loads and checks.
func (Stage) TakeOff(b *build.Build, r rates.Rates) takeoff.List {
	list := takeoff.Of(b, "look")
	list.Checks = append(append(list.Checks, throughs(b, r)...), unknowns(b)...)
	return list
}

// Apply returns the build as it would be with a look, leaving b as it is.
// The look need not be among those proposed. Faults are those of AddLook.
func Apply(b build.Build, l build.Look) (build.Build, error) {
	c := b.Clone()
	l.Chosen = false
	if old := c.Look(l.ID); old != nil {
		old.Chosen = false // so that it may be proposed anew
	}
	return build.ApplyAll(c, []build.Change{&build.AddLook{Look: l}, &build.ChooseLook{Look: l.ID}})
}

// Zone is how much of a look one zone is.
type Zone struct {
	Zone   build.ZoneID   `json:"zone"`
	Name   string         `json:"name"`
	Colour build.ColourID `json:"colour,omitempty"`
	Area   unit.Area      `json:"area_m2"`
}

// Paint is what a look takes of one product.
type Paint struct {
	Product build.ProductID `json:"product"`
	Name    string          `json:"name"`
	Volume  unit.Volume     `json:"volume_l"` // ready to spray
	Figure  figure.Figure   `json:"working"`
}

// Account is one look reckoned up.
type Account struct {
	Look   build.Look    `json:"look"`
	Zones  []Zone        `json:"zones"`
	Area   unit.Area     `json:"area_m2"` // of all zones
	Paint  []Paint       `json:"paint"`
	Litres unit.Volume   `json:"litres_l"`
	Booth  unit.Effort   `json:"booth_h"` // spraying and flash of all coats of all products
	Cost   unit.Money    `json:"cost"`    // of tins for all of it with a spare, what came in included
	Buy    unit.Money    `json:"buy"`     // of tins still to buy
	Figure figure.Figure `json:"working"` // of the booth hours and the cost

	Unknown []Lack `json:"unknown,omitempty"` // colours without paint: litres, hours and money are at least what stands here
}

// Reckon returns a look reckoned up: areas by zone, litres by product, hours in
// the booth, and the price of the tins.
func Reckon(b build.Build, l build.Look, r rates.Rates) (Account, error) {
	after, err := Apply(b, l)
	if err != nil {
		return Account{}, err
	}
	a := Account{Look: l, Unknown: Lacks(&after)}
	unpainted(&after, a.Unknown)
	for _, z := range after.Zones {
		area := after.ZoneArea(z.ID)
		a.Zones = append(a.Zones, Zone{Zone: z.ID, Name: z.Name, Colour: z.Colour, Area: area})
		a.Area += area
	}
	for _, p := range after.Products {
		if len(p.Zones) > 0 {
			a.add(&after, p, r)
		}
	}
	for _, t := range takeoff.TinsOf(&after, r, takeoff.SpareForRepairs) {
		a.Buy += t.Cost
	}
	whole := after
	whole.Tins = nil
	for _, t := range takeoff.TinsOf(&whole, r, takeoff.SpareForRepairs) {
		a.Cost += t.Cost
	}
	a.Figure.Name, a.Figure.Text = l.Name, fmt.Sprintf("%s, %s, %s", a.Litres, a.Booth, b.Currency.Format(a.Cost))
	a.Figure.Formula = "litres and booth hours of every product; whole tins with the spare at the price told"
	a.Figure.Caution = takeoff.Spraying
	return a, nil
}

// add reckons one product of a look.
func (a *Account) add(b *build.Build, p build.Product, r rates.Rates) {
	volume, f := takeoff.Litres(b, p, r)
	a.Paint = append(a.Paint, Paint{Product: p.ID, Name: p.Name, Volume: volume, Figure: f})
	a.Litres += volume
	var area unit.Area
	for _, z := range p.Zones {
		area += b.ZoneArea(z)
	}
	booth, g := takeoff.Coating(p, area, p.Coats*max(p.Rounds, 1))
	a.Booth += booth
	if a.Figure.With != "" {
		a.Figure.With += "; "
	}
	a.Figure.With += p.Name + ": " + volume.String() + ", " + g.With
	a.Figure.Inputs = append(a.Figure.Inputs, figure.Input{Name: p.Name, Value: volume.String() + ", " + booth.String(), Source: figure.Worked, Note: f.With})
}
