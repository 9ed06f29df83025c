package coat

import (
	"math"

	"fettle/fault"
)

// Least and most of readings that can be right in a workshop.
const (
	coldestAir = -40 // °C, the range in which the dew point formula holds
	hottestAir = 60
	hottestOf  = 200 // °C of metal
	mostLitres = 1e4
	mostArea   = 1e4 // m²
	mostFilm   = 5e3 // µm
	mostTime   = 1e6 // minutes
)

// within refuses a number that is not from low to high, or is none.
func within(where string, v, low, high float64, unit, hint string) error {
	if v >= low && v <= high {
		return nil
	}
	if math.IsNaN(v) {
		return fault.New(fault.Invalid, "no reading").At(where).WithHint(hint)
	}
	return fault.New(fault.Invalid, "%g %s is not from %g to %g", v, unit, low, high).At(where).WithHint(hint)
}

// above refuses a number that is not more than nothing and at most high.
func above(where string, v, high float64, unit, hint string) error {
	if v > 0 && v <= high {
		return nil
	}
	if math.IsNaN(v) {
		return fault.New(fault.Invalid, "no reading").At(where).WithHint(hint)
	}
	return fault.New(fault.Invalid, "%g %s is not more than 0 and at most %g", v, unit, high).At(where).WithHint(hint)
}

func solids(where string, percent float64) error {
	return within(where, percent, 0.1, 100, "%", "take the solids by volume, ready to spray, from the maker's sheet")
}

func transfer(where string, part float64) error {
	hint := "give the part of the paint that stays on the panel, such as 0.60"
	if part > 1 && part <= 100 {
		hint = "a transfer of 60 % is written 0.60"
	}
	return within(where, part, 0.01, 1, "as a part", hint)
}
