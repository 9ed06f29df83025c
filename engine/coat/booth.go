package coat

import (
	"fmt"

	"fettle/unit"
)

// FaceVelocity is the least speed of air in m/s at the opening or at the
// painter [29CFR1910.94]; 100 ft/min. Large downdraft booths run near 0.3 and
// go by the dilution of the vapour.
const FaceVelocity = 0.508

// Velocity returns the mean speed of air in m/s from m³/h through m².
func Velocity(flow, opening float64) (float64, error) {
	if err := above("flow", flow, 1e6, "m³/h", "take it from the booth's record"); err != nil {
		return 0, err
	}
	if err := above("opening", opening, 1e3, "m²", "give width × height"); err != nil {
		return 0, err
	}
	return flow / 3600 / opening, nil
}

// AirToDilute returns the air that brings the vapour of solvent to a quarter
// of its lower explosive limit: 4 × (100 − limit) × vapour ÷ limit, the limit in
// % by volume, vapour as volume a unit of liquid, air in the same [29CFR1910.94].
// It keeps fire off; it is far from enough for lungs.
func AirToDilute(liquid, vapour, limitPercent float64) (float64, error) {
	if err := within("solvent", liquid, 0, mostLitres, "litres or gallons", "give what evaporates"); err != nil {
		return 0, err
	}
	if err := above("vapour", vapour, 1e3, "volumes a unit of liquid", "take it from the solvent's sheet"); err != nil {
		return 0, err
	}
	if err := within("lower explosive limit", limitPercent, 0.1, 30, "% by volume", "take it from the solvent's sheet: toluene 1.4 %"); err != nil {
		return 0, err
	}
	return liquid * 4 * (100 - limitPercent) * vapour / limitPercent, nil
}

// Entry is when the booth may be entered without air-fed breathing.
type Entry struct {
	From  unit.Moment
	Words string
}

// MayEnter returns the entry after the last spraying, by the clearance time in
// minutes that was measured with smoke and posted. Booths clear in 1 to 5 min,
// rooms in 30 and more; a time nobody measured is refused [HSE-MVR].
func MayEnter(sprayed unit.Moment, clearance float64) (Entry, error) {
	if err := above("clearance time", clearance, 24*60, "min", "measure it with smoke and post it on the door: until then nobody enters without air-fed breathing"); err != nil {
		return Entry{}, err
	}
	e := Entry{From: after(sprayed, clearance)}
	e.Words = fmt.Sprintf("spraying ended %s, clearance %g min: enter from %s", sprayed.Clock(), clearance, moment(sprayed, e.From))
	return e, nil
}
