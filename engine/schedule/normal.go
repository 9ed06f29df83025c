package schedule

import "math"

// The functions below give the same bits on every machine, which those of the
// standard library do not promise: every product is converted before it is
// added to, so that nothing is fused, and division, square root and the taking
// apart of a float are exact in IEEE 754.

// expTerms are 1/k! of the Taylor series of the exponential, highest power
// first. Cut after the ninth power and read within ln 2 / 2 of zero it is
// within 0.347^10/10! < 7e-12 of an exponential of at least 0.7.
var expTerms = [...]float64{1. / 362880, 1. / 40320, 1. / 5040, 1. / 720, 1. / 120, 1. / 24, 1. / 6, 1. / 2, 1, 1}

// exp is the exponential of x to a relative error of 1e-11. Beyond ±700 it
// stays where it is there, far outside any plan.
func exp(x float64) float64 {
	x = min(max(x, -700), 700)
	k := math.Floor(float64(x*math.Log2E) + 0.5)
	r := x - float64(k*math.Ln2)
	return polynomial(r, expTerms[:]) * math.Float64frombits(uint64(1023+int64(k))<<52)
}

// logTerms are 2/(2k+1) of the series of the logarithm in (m-1)/(m+1), highest
// power first. For m within a factor of √2 of 1 what is cut is below 1e-15.
var logTerms = [...]float64{2. / 17, 2. / 15, 2. / 13, 2. / 11, 2. / 9, 2. / 7, 2. / 5, 2. / 3, 2}

// log is the natural logarithm of a positive x to an error of 1e-15 of itself
// or, near 1, of 1e-15.
func log(x float64) float64 {
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m, e = 2*m, e-1
	}
	s := (m - 1) / (m + 1)
	return float64(float64(e)*math.Ln2) + float64(s*polynomial(s*s, logTerms[:]))
}

// The coefficients of routine PPND7 of algorithm AS 241 [Wichura1988], highest
// power first: numerator and denominator near the middle, further out and far
// out.
var (
	middleOver  = [...]float64{5.9109374720e+01, 1.5929113202e+02, 5.0434271938e+01, 3.3871327179e+00}
	middleUnder = [...]float64{6.7187563600e+01, 7.8757757664e+01, 1.7895169469e+01, 1}
	outerOver   = [...]float64{1.7023821103e-01, 1.3067284816e+00, 2.7568153900e+00, 1.4234372777e+00}
	outerUnder  = [...]float64{1.2021132975e-01, 7.3700164250e-01, 1}
	tailOver    = [...]float64{1.7337203997e-02, 4.2868294337e-01, 3.0812263860e+00, 6.6579051150e+00}
	tailUnder   = [...]float64{1.2258202635e-02, 2.4197894225e-01, 1}
)

// probit is the quantile of the standard normal distribution at u in (0, 1) to
// about one part in 10^7 [Wichura1988].
func probit(u float64) float64 {
	q := u - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - float64(q*q)
		return q * polynomial(r, middleOver[:]) / polynomial(r, middleUnder[:])
	}
	r := math.Sqrt(-log(min(u, 1-u)))
	z := 0.0
	if r <= 5 {
		z = polynomial(r-1.6, outerOver[:]) / polynomial(r-1.6, outerUnder[:])
	} else {
		z = polynomial(r-5, tailOver[:]) / polynomial(r-5, tailUnder[:])
	}
	return math.Copysign(z, q)
}

// polynomial is Horner's rule, highest power first.
func polynomial(x float64, terms []float64) float64 {
	sum := terms[0]
	for _, c := range terms[1:] {
		sum = float64(sum*x) + c
	}
	return sum
}
