package flatten

import (
	"math"

	"fettle/fault"
)

// grades are the cold-rolled steels of EN 10130 [EN10130], least values of r and
// n as the standard states them; K follows from the tensile strength in the
// middle of its range and n, as K = Rm (e ÷ n)ⁿ, where a power law necks. DC01
// has no r or n in the standard, DC03 no n: those are assumptions.
var grades = []Metal{
	metalOf("DC01", 1.0, 0.16, 340),
	metalOf("DC03", 1.3, 0.17, 320),
	metalOf("DC04", 1.6, 0.18, 310),
	metalOf("DC05", 1.9, 0.21, 300),
	metalOf("DC06", 1.8, 0.22, 310),
}

func metalOf(grade string, r, n, strength float64) Metal {
	return Metal{Grade: grade, R: r, N: n, K: strength * math.Pow(math.E/n, n)}
}

// Grades returns the names of the steels that Sheet knows, the plainest first.
func Grades() []string {
	names := make([]string, len(grades))
	for i, g := range grades {
		names[i] = g.Grade
	}
	return names
}

// Sheet returns a steel of EN 10130 as a material, thickness in millimetres.
func Sheet(grade string, thickness float64) (Material, error) {
	for _, g := range grades {
		if g.Grade == grade {
			g.Thickness = thickness
			m := Material{Name: grade, Metal: &g}
			return m, m.Validate()
		}
	}
	return Material{}, fault.New(fault.NotFound, "no steel is named %q", grade).
		WithHint("known are DC01, DC03, DC04, DC05, DC06; for others give r, n and K")
}

// Validate reports what a metal's figures do not allow.
func (m Metal) Validate() error {
	switch {
	case !(m.Thickness > 0 && m.Thickness <= 10):
		return fault.New(fault.Invalid, "thickness is %g mm, should be above 0 and at most 10", m.Thickness)
	case !(m.R > 0 && m.R <= 10):
		return fault.New(fault.Invalid, "plastic strain ratio is %g, should be above 0 and at most 10", m.R)
	case !(m.N > 0 && m.N < 1):
		return fault.New(fault.Invalid, "hardening exponent is %g, should be between 0 and 1", m.N)
	case !(m.K > 0):
		return fault.New(fault.Invalid, "strength coefficient is %g MPa, should be above 0", m.K)
	}
	return nil
}

// Limit returns the greatest major strain before the sheet necks, at a minor
// strain, both in shares of the length before: Keeler and Brazier's level by n
// and thickness, with the sides of the steel curve. Where the minor strain is
// beyond where the curve was measured (40 %) its end holds.
func (m Metal) Limit(minor float64) float64 {
	level := m.N / 0.2116 * (23.36 + float64(14.042*min(m.Thickness, 3)))
	x := 100 * min(max(minor, -0.4), 0.4)
	if x < 0 {
		return (level + float64(x*(float64(0.042*x)-0.627))) / 100
	}
	return (level + float64(x*(0.785-float64(0.0086*x)))) / 100
}

// Forming sums up what a sheet must bear to become the surface. Shares are of
// the surface's area.
type Forming struct {
	Ratio             float64 // area of the surface over that of the blank
	Stretched, Shrunk float64 // share to be stretched or shrunk by more than 1 % of its area
	Thin, Thick       float64 // least and most thickness over that before, less one
	Near              float64 // share at 90 % of the forming limit or more
	Worst             float64 // greatest major strain over its limit
}

// nearLimit is where a face is flagged before it reaches the forming limit.
const nearLimit = 0.9

// Formed sums up faces of a sheet, areas being those of the surface.
func Formed(m Metal, faces []FaceStrain, areas []float64) Forming {
	f := Forming{Thin: math.Inf(1), Thick: math.Inf(-1)}
	var flat, all float64
	for i, s := range faces {
		ratio := 1 / (1 + s.Thick) // volume stays
		all, flat = all+areas[i], flat+areas[i]/ratio
		if ratio > 1.01 {
			f.Stretched += areas[i]
		} else if ratio < 1/1.01 {
			f.Shrunk += areas[i]
		}
		f.Thin, f.Thick = min(f.Thin, s.Thick), max(f.Thick, s.Thick)
		near := s.Stretch[0] / m.Limit(s.Stretch[1])
		f.Worst = max(f.Worst, near)
		if near >= nearLimit {
			f.Near += areas[i]
		}
	}
	if all == 0 {
		return Forming{}
	}
	f.Ratio, f.Stretched, f.Shrunk, f.Near = all/flat, f.Stretched/all, f.Shrunk/all, f.Near/all
	return f
}
