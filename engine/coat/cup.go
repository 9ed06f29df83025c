package coat

import (
	"math"

	"fettle/fault"
)

// Cup is an efflux cup: seconds to run empty ↔ mm²/s at 20 to 25 °C.
// ν = A × t − B, or A × t − B ÷ t where the hole is short.
type Cup struct {
	Name     string
	A, B     float64
	Over     bool    // B is divided by the seconds
	From, To float64 // seconds for which the formula is taken; elsewhere refused
	Source   string
}

// Cups returns the cups known [CannonCups] [ASTMD1200] [DIN53211] [ISO2431].
// Where a range is not published with the formula it is a trade default.
func Cups() []Cup {
	return []Cup{
		{"Zahn 1", 1.1, 1.1 * 29, false, 35, 80, "CannonCups; range: trade default"},
		{"Zahn 2", 3.5, 3.5 * 14, false, 20, 80, "CannonCups"},
		{"Zahn 3", 11.7, 11.7 * 7.5, false, 20, 80, "CannonCups; range: trade default"},
		{"Ford 2", 1.44, 1.44 * 18, false, 25, 100, "CannonCups; range: trade default"},
		{"Ford 4", 3.85, 3.85 * 4.49, false, 10, 100, "ASTMD1200; range: the standard begins at 20 s, shops read from 10"},
		{"DIN 4 mm", 4.57, 452, true, 14, 150, "trade default for DIN53211"},
		{"ISO 4 mm", 1.37, 200, true, 20, 100, "trade default for ISO2431; the standard begins at 30 s"},
	}
}

// CupNamed returns a cup by its name.
func CupNamed(name string) (Cup, error) {
	for _, c := range Cups() {
		if c.Name == name {
			return c, nil
		}
	}
	return Cup{}, fault.New(fault.Invalid, "%q is no cup known here", name).At("cup").WithHint("take Zahn 1, 2, 3, Ford 2, 4, DIN 4 mm or ISO 4 mm")
}

// Viscosity returns mm²/s for seconds, within the range of the cup.
func (c Cup) Viscosity(seconds float64) (float64, error) {
	if err := within(c.Name, seconds, c.From, c.To, "s", "outside its range a cup misleads: take one with another hole"); err != nil {
		return 0, err
	}
	if c.Over {
		return c.A*seconds - c.B/seconds, nil
	}
	return c.A*seconds - c.B, nil
}

// Seconds returns the seconds for mm²/s: of the short holes the positive root
// of A t² − ν t − B = 0.
func (c Cup) Seconds(viscosity float64) (float64, error) {
	if err := above(c.Name, viscosity, 1e5, "mm²/s", "paint ready to spray is about 20 to 150 mm²/s"); err != nil {
		return 0, err
	}
	t := (viscosity + c.B) / c.A
	if c.Over {
		t = (viscosity + math.Sqrt(viscosity*viscosity+4*c.A*c.B)) / (2 * c.A)
	}
	if err := within(c.Name, t, c.From-1e-9, c.To+1e-9, "s", "outside its range a cup misleads: take one with another hole"); err != nil {
		return 0, err
	}
	return t, nil
}
