// Package paint is the stage of epoxy, sealer, colour and clear: litres and
// tins, what a mix takes, how many coats hide what lies under, and what the
// facts say is going wrong.
package paint

import (
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

// TakeOff returns the stage's work, wants, tins and checks.
func (s Stage) TakeOff(b *build.Build, r rates.Rates) takeoff.List {
	list := takeoff.Of(b, s.Name())
	for i := range list.Work {
		list.Work[i].Cautions = append([]string{takeoff.Spraying}, list.Work[i].Cautions...)
		list.Work[i].Figure.Caution = takeoff.Spraying
	}
	list.Tins = takeoff.TinsOf(b, r, takeoff.SpareForRepairs)
	list.Checks = append(list.Checks, wrongUndercoats(b, r)...)
	list.Checks = append(list.Checks, notBoxed(b)...)
	list.Checks = append(list.Checks, mixedBatches(b)...)
	return list
}

// Litres returns the ready-to-spray paint of a product over all its rounds, and
// of what is painted again, with the transfer its sheet gives:
// area ÷ (10 × solids % ÷ film in µm × transfer) + purge, for each round.
func Litres(b *build.Build, p build.Product) (unit.Volume, figure.Figure) {
	return takeoff.Litres(b, p, rates.Default())
}
