package colour

import "math"

// vector is a change of Lab.
type vector [3]float64

func (a vector) plus(b vector, times float64) vector {
	for i := range a {
		a[i] += times * b[i]
	}
	return a
}

// outer adds variance times a·bᵀ, made symmetric.
func (m *matrix) outer(a, b vector, variance float64) {
	for i := range m {
		for j := range m[i] {
			m[i][j] += variance * (a[i]*b[j] + b[i]*a[j]) / 2
		}
	}
}

// covariance returns that of Lab after a coat, by the delta method: what the
// noise of the card does in each band by itself, and what its gauge and the
// spray gun do in all bands together.
func (j *Job) covariance(v *Viewer, c *Coat) matrix {
	var cov matrix
	var laid vector
	p, f := &j.Paint.Paint, &j.Paint
	together := make([]vector, len(f.together))
	for b := range Bands {
		eye := v.slope(&c.Seen, b)
		k, s, x := j.slopes(b, p.K[b], p.S[b], c.Film)
		dk, ds := vector{}.plus(eye, k), vector{}.plus(eye, s)
		n := f.noise[b]
		cov.outer(dk, dk, n.kk)
		cov.outer(dk, ds, 2*n.ks)
		cov.outer(ds, ds, n.ss)
		for i := range f.together {
			together[i] = together[i].plus(dk, f.together[i][b].k).plus(ds, f.together[i][b].s)
		}
		laid = laid.plus(eye, x*j.Scatter*c.Film)
	}
	for _, t := range together {
		cov.outer(t, t, 1)
	}
	cov.outer(laid, laid, 1)
	return cov
}

// slope returns the change of Lab a unit of reflectance in a band.
func (v *Viewer) slope(seen *Spectrum, b int) vector {
	const h = 1e-5
	at := v.XYZ(*seen)
	p, q := at.plus(v.weights[b].times(h)).Lab(v.white), at.plus(v.weights[b].times(-h)).Lab(v.white)
	return vector{(p.L - q.L) / (2 * h), (p.A - q.A) / (2 * h), (p.B - q.B) / (2 * h)}
}

// slopes returns the change of what is measured in a band a unit of K, of S,
// and a µm.
func (j *Job) slopes(b int, k, s, x float64) (dk, ds, dx float64) {
	out := func(k, s, x float64) float64 {
		r := Film(k, s, x, j.Over[b])
		for i := range j.Clear {
			c := &j.Clear[i]
			r = Film(c.Paint.K[b], c.Paint.S[b], c.Film, r)
		}
		return j.Surface.Out(r)
	}
	at, hk, hs, hx := out(k, s, x), step(k, s), step(s, k), 1e-6*x
	return (out(k+hk, s, x) - at) / hk, (out(k, s+hs, x) - at) / hs, (out(k, s, x+hx) - at) / hx
}

// within95 returns the CIEDE2000 that holds a colour in 95 of 100 draws of a
// covariance. Near the colour its square is a quadratic form; the sum of squares
// is taken as a multiple of a chi-squared variable with the same mean and
// variance [Patnaik1949], whose quantile is by [WilsonHilferty1931], put right
// for few degrees of freedom: within 0.2 % from 1 on.
func within95(at Lab, cov matrix) float64 {
	both := metric(at, math.Sqrt(max(cov[0][0]+cov[1][1]+cov[2][2], 1e-6)/3)).of(cov)
	mean, square := 0.0, 0.0
	for i := range both {
		mean += both[i][i]
		for j := range both {
			square += both[i][j] * both[j][i]
		}
	}
	if !(mean > 0 && square > 0) {
		return 0
	}
	free := mean * mean / square
	root := 1 - 2/(9*free) + 1.644854*math.Sqrt(2/(9*free))
	return math.Sqrt(mean * root * root * root * (1 + 0.025/free))
}

// metric returns the quadratic form that CIEDE2000 squared is near a colour, as
// seen over steps of h Lab units either way.
func metric(at Lab, h float64) matrix {
	square := func(d vector) float64 {
		p, q := Difference(at, off(at, d, h)), Difference(at, off(at, d, -h))
		return (p*p + q*q) / (2 * h * h)
	}
	var m matrix
	unit := [3]vector{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	for i := range m {
		m[i][i] = square(unit[i])
	}
	for i := range m {
		for j := range i {
			mixed := (square(unit[i].plus(unit[j], 1)) - m[i][i] - m[j][j]) / 2
			m[i][j], m[j][i] = mixed, mixed
		}
	}
	return m
}

func off(at Lab, d vector, h float64) Lab {
	return Lab{at.L + h*d[0], at.A + h*d[1], at.B + h*d[2]}
}
