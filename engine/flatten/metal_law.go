package flatten

import "math"

// plastic is the work of bringing a sheet onto its surface in one step: Hill's
// 1948 criterion with normal anisotropy r, a power law of hardening n. Only the
// final shape counts, no path and no friction; work is over K ÷ (n + 1) at an
// equivalent strain of one.
//
// Below floor the power law's stiffness grows without bound; there the work is
// the parabola in the strain that has its slope where they join; the power law is
// moved to the same value there.
type plastic struct {
	form  [3][3]float64 // equivalent strain squared = hᵀ form h, by xx, yy, xy
	n     float64
	floor float64
}

// elasticFloor is the equivalent strain below which steel springs back.
const elasticFloor = 0.002

func plasticLaw(m Metal) plastic {
	k := float64((1+m.R)*(1+m.R)) / (1 + float64(2*m.R))
	c := m.R / (1 + m.R)
	return plastic{form: [3][3]float64{{k, k * c, 0}, {k * c, k, 0}, {0, 0, 2 * k * (1 - c)}}, n: m.N, floor: elasticFloor}
}

func (p plastic) energy(h strain) (w float64, d [3]float64, dd [3][3]float64) {
	v := [3]float64{h.xx, h.yy, h.xy}
	var fv [3]float64
	var q float64 // equivalent strain squared
	for i := range 3 {
		for j := range 3 {
			fv[i] += float64(p.form[i][j] * v[j])
		}
		q += float64(fv[i] * v[i])
	}
	w, slope, bend := p.work(q)
	for i := range 3 {
		d[i] = 2 * float64(slope*fv[i])
		for j := range 3 {
			dd[i][j] = 2*float64(slope*p.form[i][j]) + 4*float64(bend*float64(fv[i]*fv[j]))
		}
	}
	return w, d, dd
}

// work returns the work by the square of the equivalent strain, its slope and
// its bend.
func (p plastic) work(q float64) (w, slope, bend float64) {
	least := float64(p.floor * p.floor)
	exponent := (p.n + 1) / 2
	slope = math.Pow(max(q, least), exponent-1) * exponent
	if q <= least {
		return float64(slope * q), slope, 0
	}
	base := math.Pow(least, exponent)
	return float64(slope/exponent*q) - base + float64(exponent*base), slope, slope * (exponent - 1) / q
}

func (p plastic) value(high, low float64, _ axes) float64 {
	w, _, _ := p.work(float64(p.form[0][0]*(float64(high*high)+float64(low*low))) + 2*float64(p.form[0][1]*float64(high*low)))
	return w
}
