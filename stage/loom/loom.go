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
	"fettle/engine/loom"
	"fettle/rates"
	"fettle/takeoff"
)

// Stage turns facts into the take-off of its part of the job.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "loom" }

// TakeOff returns the stage's work, wants, loads and checks. The route is left
// out: it takes longer than a plan may, see Work.
func (Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	list := takeoff.Of(b, "loom")
	if len(b.Circuits)+len(b.Loom.Wires) == 0 {
		return list
	}
	p := ProblemOf(b)
	r, err := loom.Solve(context.Background(), p, loom.Options{})
	if err != nil {
		list.Checks = append(list.Checks, unsolved(err))
		return list
	}
	needs := needsOf(b, p, r, nil)
	for i := range list.Wants {
		list.Wants[i].Figure.Inputs = append(list.Wants[i].Figure.Inputs, inputsOf(needs, list.Wants[i].Part)...)
	}
	list.Checks = append(list.Checks, checks(b, p, r, needs)...)
	return list
}
