package takeoff

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// SprayRate is how many m² a painter covers in an hour with one coat, turning
// and refilling included: a habit of the trade, replaced by own days.
const SprayRate = 25.0

// Coating returns the hours in the booth for coats on an area: so long to spray
// each, and the flash after it.
func Coating(p build.Product, area unit.Area, coats int) (unit.Effort, figure.Figure) {
	each := area.M2()/SprayRate + float64(p.Flash)/60
	hours := unit.Hours(float64(coats) * each)
	return hours, figure.Figure{
		Name: "booth, " + p.Name, Text: hours.String(), Formula: "coats × (area ÷ m² an hour + flash)",
		With: fmt.Sprintf("%d × (%s ÷ %g + %d min) = %s", coats, area, SprayRate, p.Flash, hours),
		Inputs: []figure.Input{
			{Name: "surface", Value: area.String(), Source: figure.Measured},
			{Name: "one coat", Value: fmt.Sprintf("%g m²/h", SprayRate), Source: figure.TradeDefault},
			{Name: "flash", Value: fmt.Sprintf("%d min at 20 °C", p.Flash), Source: figure.Sheet, Note: p.Sheet},
		},
		Caution: Spraying,
	}
}
