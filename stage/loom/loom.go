// Package loom is the stage of wiring: the list of circuits and the parts of
// the loom become sections with the rule that decided each, sums of fuses, a
// route with its holes, what is cut, labelled, metered and powered first, what
// all that takes from Stores, and what is wrong with it.
//
// It advises and certifies nothing: the makers' sheets, the law, and where it
// asks for one a licensed electrician decide.
package loom

import (
	"context"

	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
)

// Stage turns facts into the take-off of its part of the job.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "loom" }

// TakeOff returns the stage's work, wants, loads and checks.
func (Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	list := takeoff.Of(b, "loom")
	if len(b.Circuits)+len(b.Loom.Wires) == 0 {
		return list
	}
	s, err := solve(context.Background(), b)
	if err != nil {
		list.Checks = append(list.Checks, unsolved(err))
		return list
	}
	needs := s.needs()
	for i := range list.Wants {
		list.Wants[i].Figure.Inputs = append(list.Wants[i].Figure.Inputs, inputsOf(needs, list.Wants[i].Part)...)
	}
	list.Checks = append(list.Checks, s.checks(needs)...)
	return list
}
