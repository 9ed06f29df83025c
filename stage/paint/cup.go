package paint

import "fettle/engine/coat"

// CupSeconds is what one viscosity reads in a cup.
type CupSeconds struct {
	Cup       string
	Seconds   float64
	Viscosity float64 // mm²/s
}

// CupNames returns the cups that SameInCups knows.
func CupNames() []string {
	var list []string
	for _, c := range coat.Cups() {
		list = append(list, c.Name)
	}
	return list
}

// KnownCup reports whether SameInCups knows a cup.
func KnownCup(name string) bool {
	_, err := coat.CupNamed(name)
	return err == nil
}

// SameInCups returns what seconds in a cup read in every cup that can hold it.
// Fault: Invalid for an unknown cup, or seconds out of its range.
func SameInCups(name string, seconds float64) ([]CupSeconds, error) {
	cup, err := coat.CupNamed(name)
	if err != nil {
		return nil, err
	}
	v, err := cup.Viscosity(seconds)
	if err != nil {
		return nil, err
	}
	var list []CupSeconds
	for _, c := range coat.Cups() {
		if t, err := c.Seconds(v); err == nil && t >= c.From && t <= c.To {
			list = append(list, CupSeconds{Cup: c.Name, Seconds: t, Viscosity: v})
		}
	}
	return list, nil
}
