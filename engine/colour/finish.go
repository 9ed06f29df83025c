package colour

import "fettle/fault"

// Finish sorts paints by whether the two-flux equations hold in them.
type Finish uint8

// The finishes.
const (
	Solid    Finish = iota // pigment that scatters to all sides
	Metallic               // aluminium flakes
	Pearl                  // interference flakes
)

var finishes = [...]string{Solid: "solid", Metallic: "metallic", Pearl: "pearl"}

// String names the finish.
func (f Finish) String() string {
	if int(f) < len(finishes) {
		return finishes[f]
	}
	return "unknown finish"
}

// Check refuses the finishes in whose films the equations do not hold, and says why;
// name is the paint.
func (f Finish) Check(name string) error {
	if f == Solid {
		return nil
	}
	why := "flakes lie flat and throw light by angle, like small mirrors, and Kubelka–Munk knows only light that goes to all sides"
	if f == Pearl {
		why = "the colour of a pearl is made by thin layers and turns with the angle, and Kubelka–Munk knows only what pigment takes away"
	}
	return fault.New(fault.Invalid, "no prediction for a %s film: %s", f, why).At(name).
		WithHint("spray a panel as it will be sprayed, measure face and flop, and interpolate between them: an indication only")
}
