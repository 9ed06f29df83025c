package colour

import "math"

// Light is the relative power of a light at the rows of the tables. Take D65,
// A or F11.
type Light struct {
	Name  string
	power [fine]float64
	lines bool // its power jumps within 10 nm: see [NewViewer]
}

// D65 returns average daylight, the light colours are matched in [CIE15].
func D65() Light {
	l := Light{Name: "D65"}
	for i, r := range tables {
		l.power[i] = r.d65
	}
	return l
}

// A returns the tungsten lamp of 2856 K, by Planck's law with the constants
// that define illuminant A [CIE15]: c2 1.435e7 nm K at 2848 K, 100 at 560 nm.
func A() Light {
	const c2, kelvin, peak = 1.435e7, 2848, 560.0
	l := Light{Name: "A"}
	for i := range l.power {
		w := float64(FirstNM + i*StepNM/2)
		l.power[i] = 100 * math.Pow(peak/w, 5) * math.Expm1(c2/(kelvin*peak)) / math.Expm1(c2/(kelvin*w))
	}
	return l
}

// F11 returns the three-band tube lamp of 4000 K that hangs in many shops
// [CIE15]. Its narrow lines part colours that match by day.
func F11() Light {
	l := Light{Name: "F11", lines: true}
	for i, r := range tables {
		l.power[i] = r.f11
	}
	return l
}
