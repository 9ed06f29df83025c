package desk

import (
	"strconv"

	"fettle/internal/web/ui/field"
)

// Budgets of a layout that a person can choose, in steps of the engine. On one
// slow core a thousand take some five seconds.
const (
	QuickSteps = 400
	goodSteps  = 4_000
	longSteps  = 40_000
	MostSteps  = 200_000
)

// Budgets are the ways to look for a layout; well says what the middle one is
// good for.
func Budgets(well string) []field.Option {
	return []field.Option{
		{Value: strconv.Itoa(QuickSteps), Label: "quick", Hint: "some seconds: is there room?", Picked: true},
		{Value: strconv.Itoa(goodSteps), Label: "well", Hint: "half a minute: " + well},
		{Value: strconv.Itoa(longSteps), Label: "long", Hint: "minutes: where it is tight"},
	}
}
