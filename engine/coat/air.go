package coat

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Magnus' formula over water, b in °C [WMO8]; [AlduchovEskridge1996] agree to
// 0.01 °C here.
const (
	magnusA = 17.62
	magnusB = 243.12
)

// DewMargin is by how many °C steel must be warmer than the dew point before
// anything is put on it: what paint makers' sheets ask; the method is that of
// [ISO8502-4].
const DewMargin = 3.0

// DewPoint returns the °C at which water comes out of air of °C and % relative
// humidity: b γ ÷ (a − γ) with γ = ln(RH ÷ 100) + a T ÷ (b + T).
func DewPoint(air, rh float64) (float64, error) {
	if err := refuseAir(air); err != nil {
		return 0, err
	}
	if err := refuseRH(rh); err != nil {
		return 0, err
	}
	gamma := math.Log(rh/100) + magnusA*air/(magnusB+air)
	return magnusB * gamma / (magnusA - gamma), nil
}

// Margin returns by how many °C the metal is warmer than the dew point of the
// air about it. At 0 and below, water stands on it.
func Margin(metal, air, rh float64) (float64, error) {
	dew, err := DewPoint(air, rh)
	if err != nil {
		return 0, err
	}
	if err := refuseMetal(metal, air); err != nil {
		return 0, err
	}
	return metal - dew, nil
}

// LeastMetal returns the °C from which steel may be painted in this air.
func LeastMetal(air, rh float64) (float64, error) {
	dew, err := DewPoint(air, rh)
	return dew + DewMargin, err
}

// MostRH returns the % relative humidity of the air up to which metal of °C
// keeps its margin.
func MostRH(metal, air float64) (float64, error) {
	if err := refuseAir(air); err != nil {
		return 0, err
	}
	if err := refuseMetal(metal, air); err != nil {
		return 0, err
	}
	return min(100, 100*saturation(metal-DewMargin)/saturation(air)), nil
}

// saturation is the vapour pressure over water beside that at 0 °C.
func saturation(t float64) float64 { return math.Exp(magnusA * t / (magnusB + t)) }

func refuseAir(air float64) error {
	hint := "read the thermometer in °C"
	if air > hottestAir && air <= 140 {
		hint = fmt.Sprintf("if that is °F, it is %.1f °C", (air-32)/1.8)
	}
	return within("air", air, coldestAir, hottestAir, "°C", hint)
}

// refuseRH names what was most likely meant.
func refuseRH(rh float64) error {
	switch {
	case math.IsNaN(rh):
		return fault.New(fault.Invalid, "no reading").At("humidity").WithHint("read the hygrometer")
	case rh > 100 && rh <= 1e4:
		meant := rh
		for meant > 100 {
			meant /= 10
		}
		return fault.New(fault.Invalid, "%g %% relative humidity: air holds at most 100 %%", rh).At("humidity").WithHint(fmt.Sprintf("was %g %% meant?", meant))
	case rh > 0 && rh < 1:
		return fault.New(fault.Invalid, "%g %% relative humidity is drier than any shop", rh).At("humidity").WithHint(fmt.Sprintf("was %g %% meant?", 100*rh))
	}
	return within("humidity", rh, 1, 100, "% relative humidity", "read the hygrometer")
}

func refuseMetal(metal, air float64) error {
	if err := within("metal", metal, coldestAir, hottestOf, "°C", "read the metal where it is coldest, in °C"); err != nil {
		return err
	}
	if metal < air-35 {
		return fault.New(fault.Invalid, "metal of %g °C in air of %g °C", metal, air).At("metal").WithHint("no metal stays that cold: read both again, a shiny surface misleads an infra-red thermometer")
	}
	return nil
}
