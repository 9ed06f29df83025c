package dxf

import (
	"strings"

	"fettle/fault"
)

// millimetres in one unit, by the value of $INSUNITS.
var millimetres = map[string]float64{
	"1": 25.4, "2": 304.8, "4": 1, "5": 10, "6": 1000, "8": 25.4e-6, "9": 0.0254,
	"10": 914.4, "13": 0.001, "14": 100,
}

// unit returns the millimetres in one unit of the file.
func (r *reader) unit() (float64, error) {
	if r.Unit > 0 {
		return r.Unit, nil
	}
	const hint = "State the unit: how many millimetres is 1 in this drawing? 1 for millimetres, 10 for centimetres, 25.4 for inches."
	if r.units == nil {
		return 0, fault.New(fault.Invalid, "the drawing does not say its unit").At("header, $INSUNITS").WithHint(hint)
	}
	if mm, known := millimetres[strings.TrimSpace(r.units.value)]; known {
		return mm, nil
	}
	return 0, fault.New(fault.Invalid, "the drawing's unit %.10q stands for no length that is used here", strings.TrimSpace(r.units.value)).
		At(at(r.units.line) + ", $INSUNITS").WithHint(hint)
}
