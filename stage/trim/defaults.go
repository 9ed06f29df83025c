package trim

import (
	"fettle/build"
	"fettle/figure"
)

// Habits of the trade, in mm and degrees. They are stated wherever they count.
const (
	Clearance  = 2.0  // between two pieces: a knife takes 0 to 2
	EdgeMargin = 10.0 // to the edge of a hide, and to what a piece may not lie on
	SoftMargin = 30.0 // to the edge where it runs through a lesser zone: belly, shank and neck ruffle and thin out over 20 to 40
	Tolerance  = 15.0 // how far a tight direction may stray from the stretch of the hide, to either side

	rollSpare = 0.10 // end faults, squaring the end, a lay that creeps
)

// Habits are the defaults as the working of a layout shows them.
func Habits() []figure.Input {
	return []figure.Input{
		{Name: "between pieces", Value: "2 mm", Source: figure.TradeDefault, Note: "a knife takes 0 to 2 mm"},
		{Name: "to the edge, and off marks and keep-outs", Value: "10 mm and the error of the outline", Source: figure.TradeDefault},
		{Name: "to the edge at belly, shanks and neck", Value: "30 mm and the error of the outline", Source: figure.TradeDefault, Note: "the edge ruffles and thins out over 20 to 40 mm"},
		{Name: "tight direction to the stretch", Value: "± 15° where the piece says no other", Source: figure.TradeDefault, Note: "stretch runs across the lines of tightness; test a strip of this hide"},
		{Name: "turned over", Value: "never", Source: figure.TradeDefault, Note: "leather has a face"},
	}
}

// HabitsOf are what the working of a layout of a material shows: the habits, or
// the facts of its roll.
func HabitsOf(b *build.Build, material string) []figure.Input {
	r := RollOf(b, material)
	if r == nil {
		return Habits()
	}
	return []figure.Input{
		{Name: "roll " + string(r.ID), Value: r.Width.String() + " wide", Source: figure.Sheet, Note: napWords(*r)},
		{Name: "between pieces", Value: r.Gap.String(), Source: figure.Decided},
		{Name: "to both edges and the squared end", Value: r.Edge.String(), Source: figure.Decided},
		{Name: "turned", Value: "the tight direction or the nap along the roll", Source: figure.Decided, Note: "a half turn where there is no nap; quarter turns where a piece may lie as it likes"},
	}
}

// Quality turns a grade into the engine's: a larger number is better, and 0
// takes nothing. A piece without a grade is taken for one that is seen first.
func Quality(grade string) int {
	switch grade {
	case "B":
		return 2
	case "C":
		return 1
	}
	return 3
}

// Takes is the quality of what a mark leaves.
func Takes(m build.Mark) int {
	if m.Grade == "" {
		return 0
	}
	return Quality(m.Grade)
}
