// Package trim is the stage of patterns, hides and sewing: what the pieces of
// every material take, what is there of it, how they are laid on hides and
// rolls, how their patterns are sewn, in which order and with what, and what is
// wrong with all that.
package trim

import (
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
)

// Stage turns facts into the take-off of its part of the job.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "trim" }

// TakeOff returns the stage's work, wants, loads and checks.
func (Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	list := takeoff.Of(b, "trim")
	supplies := Supplies(b)
	for i := range list.Wants {
		for _, s := range supplies {
			if slices.Contains(s.Parts, list.Wants[i].Part) {
				list.Wants[i].Figure.Inputs = append(list.Wants[i].Figure.Inputs, s.inputs()...)
			}
		}
		if r := rollOfPart(b, list.Wants[i].Part); r != nil {
			need := NeedOf(b, r.Material).Figure
			list.Wants[i].Figure.Inputs = append(list.Wants[i].Figure.Inputs,
				figure.Input{Name: need.Name, Value: need.Text, Source: figure.Worked, Note: need.With})
		}
	}
	list.Checks = append(list.Checks, Checks(b)...)
	return list
}

func rollOfPart(b *build.Build, id build.PartID) *build.Roll {
	for i := range b.Rolls {
		if b.Rolls[i].Part == id && id != "" {
			return &b.Rolls[i]
		}
	}
	return nil
}
