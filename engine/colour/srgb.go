package colour

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/fault"
)

// SRGB is a colour as a screen is told it [IEC61966], each channel encoded,
// 0 to 1.
type SRGB struct{ R, G, B float64 }

// linear is light from the three screen colours, each 0 to 1; beyond that no
// screen of the standard can show it.
type linear struct{ r, g, b float64 }

// The white and primaries of the standard, from x and y of each. White is
// D65 at 0.3127, 0.3290, as the standard rounds it.
var (
	screenWhite = chromaticity(0.3127, 0.3290)
	toXYZ       = primaries()
	fromXYZ     = toXYZ.inverse()
)

func chromaticity(x, y float64) XYZ { return XYZ{100 * x / y, 100, 100 * (1 - x - y) / y} }

// primaries returns linear sRGB → XYZ: red, green and blue scaled so that all
// of each together give white.
func primaries() matrix {
	r, g, b := chromaticity(0.64, 0.33), chromaticity(0.30, 0.60), chromaticity(0.15, 0.06)
	m := matrix{{r.X, g.X, b.X}, {r.Y, g.Y, b.Y}, {r.Z, g.Z, b.Z}}
	inv := m.inverse()
	return m.of(scale(inv.at(screenWhite.X, screenWhite.Y, screenWhite.Z)))
}

// XYZ returns the tristimulus values of a screen colour; white is X 95.046,
// Y 100, Z 108.906.
func (c SRGB) XYZ() XYZ {
	var x XYZ
	l := c.linear()
	x.X, x.Y, x.Z = toXYZ.at(l.r, l.g, l.b)
	return x
}

// Lab returns a screen colour relative to the screen's white.
func (c SRGB) Lab() Lab { return c.XYZ().Lab(screenWhite) }

// Hex returns the colour as "#rrggbb", rounded to 8 bits a channel.
func (c SRGB) Hex() string {
	return fmt.Sprintf("#%02x%02x%02x", eight(c.R), eight(c.G), eight(c.B))
}

func eight(v float64) int { return int(math.Round(255 * min(max(v, 0), 1))) }

// ParseHex reads "#rrggbb" or "rrggbb".
func ParseHex(s string) (SRGB, error) {
	digits := strings.TrimPrefix(strings.TrimSpace(s), "#")
	n, err := strconv.ParseUint(digits, 16, 32)
	if err != nil || len(digits) != 6 {
		return SRGB{}, fault.New(fault.Invalid, "%.20q is not a screen colour", s).
			WithHint("write six hexadecimal digits, such as #2f6f73")
	}
	part := func(shift int) float64 { return float64(n>>shift&255) / 255 }
	return SRGB{part(16), part(8), part(0)}, nil
}

func (c SRGB) linear() linear { return linear{decode(c.R), decode(c.G), decode(c.B)} }
func (l linear) encode() SRGB { return SRGB{encode(l.r), encode(l.g), encode(l.b)} }

// encode and decode are the curve of the standard, odd below 0.
func encode(v float64) float64 {
	if a := math.Abs(v); a > 0.0031308 {
		return math.Copysign(1.055*math.Pow(a, 1/2.4)-0.055, v)
	}
	return 12.92 * v
}

func decode(v float64) float64 {
	if a := math.Abs(v); a > 0.04045 {
		return math.Copysign(math.Pow((a+0.055)/1.055, 2.4), v)
	}
	return v / 12.92
}
