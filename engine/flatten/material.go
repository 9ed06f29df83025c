package flatten

import (
	"math"

	"fettle/fault"
)

// Leather returns what upholstery leather bears, along the backbone and across
// it. All limits are assumptions to work from, about a quarter of what it
// breaks at; pull a strip of the hide and set its own.
func Leather() Material {
	return Material{Name: "leather", Tension: [2]float64{0.08, 0.12}, Squeeze: [2]float64{0.01, 0.01},
		Stiffness: [2]float64{1, 0.7}, Poisson: 0.3, Shear: 0.35, Slack: 0.03}
}

// Vinyl returns what coated cloth on a knitted back bears: assumptions, as with
// Leather.
func Vinyl() Material {
	return Material{Name: "vinyl", Tension: [2]float64{0.10, 0.15}, Squeeze: [2]float64{0.01, 0.01},
		Stiffness: [2]float64{1, 0.8}, Poisson: 0.3, Shear: 0.35, Slack: 0.03}
}

// Cloth returns what woven cloth bears: hardly any pull along its threads, and
// shear for next to nothing until they lock; assumptions, as with Leather.
func Cloth() Material {
	return Material{Name: "cloth", Tension: [2]float64{0.03, 0.03}, Squeeze: [2]float64{0.01, 0.01},
		Stiffness: [2]float64{1, 1}, Poisson: 0, Shear: 0.05, Slack: 0.05, Lock: 25 * math.Pi / 180}
}

// Glued returns the material as it is on a glued or steamed cover, which takes
// up 3 % of shortening (an assumption) where a sewn one wrinkles at 1 %.
func (m Material) Glued() Material {
	m.Squeeze = [2]float64{0.03, 0.03}
	return m
}

// Validate reports what a material's figures do not allow.
func (m Material) Validate() error {
	if m.Metal != nil {
		return m.Metal.Validate()
	}
	for i, name := range [2]string{"along", "across"} {
		switch {
		case !(m.Tension[i] >= 0 && m.Tension[i] <= 2):
			return fault.New(fault.Invalid, "tension %s is %g, should be from 0 to 2", name, m.Tension[i])
		case !(m.Squeeze[i] >= 0 && m.Squeeze[i] < 0.9):
			return fault.New(fault.Invalid, "squeeze %s is %g, should be from 0 to 0.9", name, m.Squeeze[i])
		case !(m.Stiffness[i] > 0 && m.Stiffness[i] <= 1e6):
			return fault.New(fault.Invalid, "stiffness %s is %g, should be above 0", name, m.Stiffness[i])
		}
	}
	switch {
	case !(m.Poisson >= 0 && m.Poisson <= 0.5):
		return fault.New(fault.Invalid, "Poisson's ratio is %g, should be from 0 to 0.5", m.Poisson)
	case !(m.Shear > 0 && m.Shear <= 1e6):
		return fault.New(fault.Invalid, "shear is %g, should be above 0", m.Shear)
	case !(m.Slack > 0 && m.Slack <= 1):
		return fault.New(fault.Invalid, "slack is %g, should be above 0 and at most 1", m.Slack)
	case !(m.Lock >= 0 && m.Lock <= 1.2):
		return fault.New(fault.Invalid, "threads lock at %g, should be from 0 to 1.2 radians", m.Lock)
	}
	return nil
}

// limits returns the most and the least log strain that the material bears
// along and across.
func (m Material) limits() (most, least [2]float64) {
	for i := range most {
		most[i], least[i] = math.Log1p(m.Tension[i]), math.Log1p(-m.Squeeze[i])
	}
	return most, least
}

// hair is the log strain that nobody sees or feels, a millimetre in a metre: so
// far a face may be beyond its limits and still count as within.
const hair = 1e-3

// excess returns how far the log strain is beyond the limits in the direction
// in which it is worst, 0 within. The limit of a direction between along and
// across goes by the squares of its cosine and sine, so that one comparison of
// matrices asks all.
func (m Material) excess(h strain) float64 {
	most, least := m.limits()
	_, up := strain{h.xx - most[0], h.yy - most[1], h.xy}.extremes()
	_, down := strain{least[0] - h.xx, least[1] - h.yy, -h.xy}.extremes()
	return max(0, up, down)
}
