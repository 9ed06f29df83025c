// Package assembly is the stage in which the vehicle goes together.
package assembly

import (
	"fettle/build"
	"fettle/rates"
	"fettle/takeoff"
)

// Stage turns facts into the take-off of its part of the job.
type Stage struct{}

// Name is the stage's name in the task list.
func (Stage) Name() string { return "assembly" }

// TakeOff returns the stage's work, wants, loads and checks.
func (Stage) TakeOff(b *build.Build, _ rates.Rates) takeoff.List {
	return takeoff.Of(b, "assembly")
}
