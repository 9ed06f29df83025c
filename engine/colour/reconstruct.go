package colour

import (
	"math"

	"fettle/fault"
)

// Rebuilt is a reflectance made up from three numbers of a colour.
type Rebuilt struct {
	Spectrum Spectrum
	Steps    int // of Newton's method, all told
	own      *Viewer
}

// The margin black and white keep from 0 and 1, which the curve nears but
// never reaches.
const margin = 0.0001

// Reconstruct makes up the smoothest reflectance within 0 and 1 that has a
// colour under a viewer: least squared slope of the hyperbolic arc tangent of
// reflectance, by Newton's method [Burns2020]. Reflectance is held between
// 0.01 % and 99.99 % of the way from black to white.
//
// It is one of infinitely many that look alike there. Under another light it
// may stray: see [Rebuilt.Doubt]. A colour that no reflectance has under the
// viewer is refused.
func Reconstruct(l Lab, v *Viewer) (Rebuilt, error) {
	if l.L < 0 || l.L > 100 || math.IsNaN(l.L+l.A+l.B) {
		return Rebuilt{}, fault.New(fault.Invalid, "lightness %.4g is not between 0 and 100", l.L).At("colour").
			WithHint("give L, a, b as the instrument shows them")
	}
	want := l.XYZ(v.white)
	want = want.times(1 - 2*margin).plus(v.white.times(margin))
	s := newton{v: v, z: atFlat(want.Y / 100)}
	grey, reached, stride := v.white.times(want.Y/100), 0.0, 1.0
	// From the grey of the same lightness to the colour: at one go where that
	// converges, else in shorter strides.
	for reached < 1 {
		next := min(1, reached+stride)
		try := s
		if try.solve(grey.times(1 - next).plus(want.times(next))) {
			s, reached, stride = try, next, 2*stride
			continue
		}
		s.steps = try.steps
		if stride /= 2; stride < 1./256 {
			return Rebuilt{}, fault.New(fault.Invalid,
				"no reflectance looks like L %.1f, a %.1f, b %.1f under %s", l.L, l.A, l.B, v.Name).At("colour").
				WithHint("check the signs of a and b, and the light and observer they were read under")
		}
	}
	return Rebuilt{Spectrum: s.reflectance(), Steps: s.steps, own: v}, nil
}

// newton holds a curve z, whose tanh gives reflectance, and the three forces
// that pull it to a colour.
type newton struct {
	v     *Viewer
	z     [Bands]float64
	pull  [3]float64
	steps int
}

func atFlat(y float64) (z [Bands]float64) {
	for i := range z {
		z[i] = math.Atanh(2*min(max(y, margin), 1-margin) - 1)
	}
	return z
}

// reflectance is that of the curve, with the margin taken off again.
func (s *newton) reflectance() Spectrum {
	var r Spectrum
	for i, z := range s.z {
		r[i] = min(max(((math.Tanh(z)+1)/2-margin)/(1-2*margin), 0), 1)
	}
	return r
}

// unknowns of one step: the curve and the three forces.
const unknowns = Bands + 3

// solve moves the curve to a colour and reports whether it got there.
func (s *newton) solve(want XYZ) bool {
	const most, close = 30, 1e-9
	var m [unknowns][unknowns + 1]float64
	for range most {
		miss := s.equations(&m, want)
		if miss < close {
			return true
		}
		s.steps++
		d, ok := eliminate(&m)
		if !ok {
			return false
		}
		for i := range s.z {
			s.z[i] -= d[i]
			if !(math.Abs(s.z[i]) < 20) {
				return false
			}
		}
		for k := range s.pull {
			s.pull[k] -= d[Bands+k]
		}
	}
	return false
}

// equations writes the step's matrix with the residual as last column, and
// returns the largest residual. Rows: slope of the squared differences of
// neighbours plus the pull of the colour; then the colour itself, as parts of
// white.
func (s *newton) equations(m *[unknowns][unknowns + 1]float64, want XYZ) float64 {
	*m = [unknowns][unknowns + 1]float64{}
	goal, last := [3]float64{-want.X / 100, -want.Y / 100, -want.Z / 100}, unknowns
	for i, z := range s.z {
		th := math.Tanh(z)
		bend := (1 - th*th) / 2 // slope of reflectance in z
		w := [3]float64{s.v.weights[i].X / 100, s.v.weights[i].Y / 100, s.v.weights[i].Z / 100}
		force := 0.0
		for k := range w {
			force += w[k] * s.pull[k]
			goal[k] += w[k] * (th + 1) / 2
			m[i][Bands+k], m[Bands+k][i] = bend*w[k], bend*w[k]
		}
		m[i][i], m[i][last] = -2*th*bend*force, bend*force
		for _, n := range [2]int{i - 1, i + 1} {
			if n >= 0 && n < Bands {
				m[i][i] += 2
				m[i][n] -= 2
				m[i][last] += 2 * (z - s.z[n])
			}
		}
	}
	worst := 0.0
	for k := range goal {
		m[Bands+k][last] = goal[k]
	}
	for i := range m {
		worst = max(worst, math.Abs(m[i][last]))
	}
	return worst
}

// eliminate solves the step by Gauss with the largest pivot of each column.
func eliminate(m *[unknowns][unknowns + 1]float64) (x [unknowns]float64, ok bool) {
	for c := range unknowns {
		p := c
		for r := c + 1; r < unknowns; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		if !(math.Abs(m[p][c]) > 1e-14) {
			return x, false
		}
		m[c], m[p] = m[p], m[c]
		for r := c + 1; r < unknowns; r++ {
			f := m[r][c] / m[c][c]
			if f == 0 {
				continue
			}
			for k := c; k <= unknowns; k++ {
				m[r][k] -= f * m[c][k]
			}
		}
	}
	for r := unknowns - 1; r >= 0; r-- {
		v := m[r][unknowns]
		for k := r + 1; k < unknowns; k++ {
			v -= m[r][k] * x[k]
		}
		x[r] = v / m[r][r]
	}
	return x, true
}
