package lens

import "math"

// normal95 is the standard normal quantile that holds 95 of 100.
const normal95 = 1.959964

// student95 is the square of the two-sided quantile of Student's t, by the
// Cornish-Fisher expansion [AbramowitzStegun1964, 26.7.5]: within a percent for
// four records or more.
func student95(n float64) float64 {
	const z = normal95
	const z2 = z * z
	t := z * (1 + (z2+1)/(4*n) + (5*z2*z2+16*z2+3)/(96*n*n) + (3*z2*z2*z2+19*z2*z2+17*z2-15)/(384*n*n*n))
	return t * t
}

// records is how many measurements stand behind an error of which taps bring a
// share: what was judged as a spread is known for certain, the noise of a tap is
// not. Satterthwaite's rule divides by the square of the share, which left three
// errors in a hundred too small where the taps had little to spare; with the
// share itself the tests find 94 to 96 of 100 within.
func (v *View) records(share float64) float64 {
	return (tapRecords + v.spare) / max(share, 1e-9)
}

// width is the error of a number that follows the parameters so, with the
// variance that taps on its own places bring.
func (v *View) width(by [size]float64, taps float64) float64 {
	both := [2][size]float64{by, {}}
	all, part := spread(v.cov, both)[0][0]+taps, spread(v.taps, both)[0][0]+taps
	return math.Sqrt(all * student95(v.records(part/all)))
}

// reach is the radius around a place that holds 95 of 100, for its covariance
// and the share that taps bring. The quantile of a
// sum of two squares is that of one square for a covariance as thin as a line,
// and twice that of F(2, n) for a round one; between, by the number of squares
// that has the same mean and variance [Satterthwaite1946].
func (v *View) reach(c mat2, share float64) float64 {
	squares := c.trace()*c.trace() - 2*c.det()
	if !(squares > 0) {
		return 0
	}
	n := v.records(share)
	degrees := min(max(c.trace()*c.trace()/squares, 1), 2)
	round := n * (math.Pow(0.05, -2/n) - 1)
	line := student95(n)
	return math.Sqrt(squares / c.trace() * (line + (degrees-1)*(round-line)))
}
