// Package body is the stage of filler, primer and blocking.
package body

import (
	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
)

// Stage turns facts into the take-off of its part of the job.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "body" }

// TakeOff returns the stage's work, wants, loads and checks.
func (Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	return takeoff.Of(b, "body")
}
