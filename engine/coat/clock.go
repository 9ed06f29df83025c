package coat

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/unit"
)

// Temperatures that clocks hold for, in °C.
const (
	SheetTemperature = 20.0 // what the times of a data sheet are given at
	ScaleFrom        = 16.0 // scaling of drying holds from here; no two-pack on colder metal
	ScaleTo          = 30.0
	DryingDoubling   = 12.0 // drying takes twice as long for so many °C less
	PotDoubling      = 10.0 // pot life halves for so many °C more
	coldestPot       = 10.0
	hottestPot       = 35.0
)

// Scale moves minutes that hold at 20 °C to the metal's temperature:
// × 2^((20 − T) ÷ doubling), doubling in °C, 0 for the default of 12. Outside
// 16 to 30 °C it is refused, for nobody has shown that it holds.
func Scale(minutes, metal, doubling float64) (float64, error) {
	if doubling == 0 {
		doubling = DryingDoubling
	}
	if err := within("time", minutes, 0, mostTime, "min", "take it from the maker's sheet, at 20 °C"); err != nil {
		return 0, err
	}
	if err := within("metal", metal, ScaleFrom, ScaleTo, "°C", "times are known from 16 to 30 °C: warm the metal, or go by the maker's sheet"); err != nil {
		return 0, err
	}
	if err := within("doubling", doubling, 5, 40, "°C", "drying doubles for about every 12 °C less"); err != nil {
		return 0, err
	}
	return minutes * math.Exp2((SheetTemperature-metal)/doubling), nil
}

// PotLife moves a pot life in minutes at 20 °C to the temperature of the mix:
// × 2^(−(T − 20) ÷ 10) [PotLife], from 10 to 35 °C.
func PotLife(minutes, mix float64) (float64, error) {
	if err := above("pot life", minutes, mostTime, "min", "take it from the maker's sheet, at 20 °C"); err != nil {
		return 0, err
	}
	if err := within("mix", mix, coldestPot, hottestPot, "°C", "pot life is known from 10 to 35 °C"); err != nil {
		return 0, err
	}
	return minutes * math.Exp2(-(mix-SheetTemperature)/PotDoubling), nil
}

// Flash returns the minutes between coats at the metal's temperature, from
// minutes at 20 °C and the wet film in µm beside the one the sheet means: a
// thicker film holds its solvent by the square. A thinner one is not taken to be
// quicker. Give 0 for both films where only the temperature counts.
func Flash(minutes, metal, doubling, wetUm, sheetUm float64) (float64, error) {
	at, err := Scale(minutes, metal, doubling)
	if err != nil || wetUm == 0 && sheetUm == 0 {
		return at, err
	}
	if err := above("wet film", wetUm, mostFilm, "µm", "read the wet film comb"); err != nil {
		return 0, err
	}
	if err := within("wet film of the sheet", sheetUm, 1, mostFilm, "µm", "take it from the maker's sheet"); err != nil {
		return 0, err
	}
	k := max(1, wetUm/sheetUm)
	return at * k * k, nil
}

// ForceDry returns the minutes at a metal temperature in °C that do what so
// many minutes at 60 °C do: each 10 °C less doubles them (trade default). Flash
// 10 to 15 min first.
func ForceDry(minutesAt60, metal float64) (float64, error) {
	if err := above("time at 60 °C", minutesAt60, mostTime, "min", "mostly 30 to 40 min"); err != nil {
		return 0, err
	}
	if err := within("metal", metal, 40, 80, "°C", "it is the metal that counts, not the air; from 40 to 80 °C"); err != nil {
		return 0, err
	}
	return minutesAt60 * math.Exp2((60-metal)/10), nil
}

// Spell is some minutes at a metal temperature.
type Spell struct {
	Minutes float64
	Metal   float64 // °C
}

// Aged returns to how many minutes at 20 °C the spells come. What lay under
// 16 °C counts for nothing, what lay over 30 °C counts as 30: both on the careful
// side.
func Aged(spells []Spell, doubling float64) (float64, error) {
	sum := 0.0
	for i, s := range spells {
		if err := within(fmt.Sprintf("spell %d", i+1), s.Metal, coldestAir, hottestOf, "°C", "read the metal"); err != nil {
			return 0, err
		}
		factor, err := Scale(1, min(max(s.Metal, ScaleFrom), ScaleTo), doubling)
		if err != nil {
			return 0, err
		}
		if !(s.Minutes >= 0 && s.Minutes <= mostTime) {
			return 0, fault.New(fault.Invalid, "%g minutes", s.Minutes).At(fmt.Sprintf("spell %d", i+1))
		}
		if s.Metal >= ScaleFrom {
			sum += s.Minutes / factor
		}
	}
	return sum, nil
}

// after returns the moment so many minutes later, a part of a minute counting
// as a whole one.
func after(m unit.Moment, minutes float64) unit.Moment {
	return m + unit.Moment(math.Ceil(minutes-1e-9))
}

// before rounds the other way: a window never closes later than reckoned.
func before(m unit.Moment, minutes float64) unit.Moment {
	return m + unit.Moment(math.Floor(minutes+1e-9))
}
