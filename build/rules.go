package build

import (
	"fmt"
	"strings"

	"fettle/unit"
)

// The rules that facts keep, by number, as faults name them:
//
//	 1  a thing has an ID, and no two things of a kind share one
//	 2  a thing named by another exists
//	 3  a size, a count, a price or an effort is not negative, and not absurd
//	 4  a state or decision is one of the listed words
//	 5  a date follows the dates it must follow
//	 6  a task does not wait for itself, however long the way round
//	 7  a person has hours in the week, and no day has more than 24
//	 8  a person is clocked on to one thing at a time
//	 9  a thing is where the act expects it: an order is ordered once, a load sent once
//	10  a text that must say something says something
//	11  the parts of a whole do not exceed the whole
//	12  a reading of colour is one of a spectrum of 36 values, a Lab of three, or an RGB
//	13  a drawn shape is one area of straight edges: no edge crosses another, and no point is said twice
const (
	ruleID = iota + 1
	ruleExists
	ruleRange
	ruleWord
	ruleDates
	ruleLoop
	ruleHours
	ruleClock
	ruleOrder
	ruleText
	ruleWhole
	ruleReading
	ruleShape
)

// Bounds of rule 3: beyond these a number is a slip of the finger.
const (
	mostLength = 20 * unit.Metre
	mostEffort = 10_000 * unit.Hour
	mostMoney  = unit.Money(100_000_000_00)
	mostDays   = 1_000
	mostCount  = 100_000
	mostPurge  = 100 * unit.Litre
	mostLitres = 1_000 * unit.Litre
	mostMass   = 10_000 * unit.Kilogram

	mostMinutes = 366 * 24 * 60
	mostCoats   = 100
	mostFilm    = 10_000.0 // µm
	coldest     = -40.0    // °C, of air, metal and oven
	hottest     = 150.0
)

func needText(text, where string) error {
	if strings.TrimSpace(text) == "" {
		return rule(ruleText, "must say something").At(where)
	}
	if len(text) > 4000 {
		return rule(ruleRange, "is longer than 4,000 characters").At(where)
	}
	return nil
}

func inRange[T ~int | ~int64](n, low, high T, what string, where string) error {
	if n < low {
		return rule(ruleRange, "%s is below %v", what, low).At(where)
	}
	if n > high {
		return rule(ruleRange, "%s is above %v", what, high).At(where)
	}
	return nil
}

// within applies rule 3 to a number that is no count.
func within(n, low, high float64, what, where string) error {
	if !(n >= low && n <= high) {
		return rule(ruleRange, "%s %g is not between %g and %g", what, n, low, high).At(where)
	}
	return nil
}

func oneOf[T ~string](word T, words []T, where string) error {
	for _, w := range words {
		if w == word {
			return nil
		}
	}
	return rule(ruleWord, "%q is none of %v", string(word), words).At(where)
}

func missing(what string, id any) error {
	return rule(ruleExists, "there is no %s %v", what, id)
}

// first returns the first error that is not nil.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// checkLegs applies rules 2, 3 and 7 to hours by trade.
func (b *Build) checkLegs(legs []Leg, where string) error {
	for i, l := range legs {
		place := fmt.Sprintf("%s, line %d", where, i+1)
		if b.Trade(l.Trade) == nil {
			return at(missing("trade", l.Trade), place)
		}
		if err := inRange(l.Hours, 0, mostEffort, "hours", place); err != nil {
			return err
		}
		if l.Hours > 0 && !b.somebodyDoes(l.Trade) {
			return rule(ruleHours, "nobody does the trade %s", l.Trade).At(place)
		}
	}
	return nil
}
