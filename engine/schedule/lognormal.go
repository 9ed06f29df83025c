package schedule

import "math"

// Lognormal is the distribution of a factor whose logarithm is normal: a job
// as likely takes twice as long as half. Its zero value is exactly 1.
type Lognormal struct {
	Mu    float64 // mean of the logarithm; exp(Mu) is the factor's median
	Sigma float64 // standard deviation of the logarithm
}

// Lognormal is the lognormal factor with the mean and the standard deviation of
// the triangular distribution over the range: what a person states as lowest,
// likeliest and highest, without the claim that nothing lies beyond. The zero
// Spread, and a Spread that is 0 throughout, give a factor of 1.
func (s Spread) Lognormal() Lognormal {
	mean := (s.Low + s.Mode + s.High) / 3
	if mean == 0 {
		return Lognormal{}
	}
	a, b := s.Mode-s.Low, s.High-s.Mode // the variance is (a² + ab + b²) / 18
	variance := (float64(a*a) + float64(a*b) + float64(b*b)) / 18
	square := log(1 + variance/float64(mean*mean))
	return Lognormal{Mu: log(mean) - square/2, Sigma: math.Sqrt(square)}
}

// Mean is the mean of the factor.
func (d Lognormal) Mean() float64 { return exp(d.Mu + float64(d.Sigma*d.Sigma)/2) }

// Quantile is the factor that a part q of the draws stays below; q lies between
// 0 and 1.
func (d Lognormal) Quantile(q float64) float64 { return exp(d.log(q)) }

// log is the logarithm of the factor at the quantile u.
func (d Lognormal) log(u float64) float64 {
	if d.Sigma == 0 {
		return d.Mu
	}
	return d.Mu + float64(d.Sigma*probit(u))
}
