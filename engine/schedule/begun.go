package schedule

import "math"

// Left is the mean of what a piece of work still takes that has taken spent
// already and is not over, both in parts of its plan, where d is the
// distribution of the whole: the mean excess of a lognormal distribution,
// E[X | X > s] − s = exp(μ + σ²/2) Φ(σ − z) / Φ(−z) − s with z = (ln s − μ)/σ
// [KlugmanPanjerWillmot2012]. With nothing spent it is the mean. It is never
// nothing: it falls as work is done, slower and slower beyond the plan. Without
// spread it is what is left of the plan.
func (d Lognormal) Left(spent float64) float64 {
	if !(spent > 0) {
		return d.Mean()
	}
	if d.Sigma == 0 {
		return max(exp(d.Mu)-spent, 0)
	}
	z := (log(spent) - d.Mu) / d.Sigma
	beyond := upper(z)
	if beyond < leastTail {
		return float64(spent * d.Sigma / z) // the ratio of the tails, to first order
	}
	return max(float64(d.Mean()*upper(z-d.Sigma)/beyond)-spent, 0)
}

// leastTail is where the tail is too thin to be divided by.
const leastTail = 1e-290

// beyond is the factor that a part u of the draws stays below, of those draws
// that exceed x: the quantile of the distribution cut off below x.
func (d Lognormal) beyond(x, u float64) float64 {
	if d.Sigma == 0 || x <= 0 {
		return max(d.Quantile(u), x)
	}
	part := upper((log(x) - d.Mu) / d.Sigma)
	if part < leastTail {
		return x
	}
	return max(exp(d.Mu-float64(d.Sigma*probit(part*(1-u)))), x)
}

// left draws, at the quantile u, the minutes that work under way still takes;
// common is the factor that it shares with others.
func (b Begun) left(own Lognormal, common, u float64) float64 {
	planned := float64(float64(b.Planned) * common)
	if planned <= 0 {
		return 0
	}
	spent := float64(b.Spent)
	return max(float64(planned*own.beyond(spent/planned, u))-spent, 0)
}

// The coefficients of the rational part of the upper tail of the standard
// normal distribution, highest power first [West2005].
var (
	tailTop    = [...]float64{3.52624965998911e-02, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871, 221.213596169931, 220.206867912376}
	tailBottom = [...]float64{8.83883476483184e-02, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674, 637.333633378831, 793.826512519948, 440.413735824752}
)

// upper is the part of the standard normal distribution above z, to a relative
// error of 1e-10 up to z = 37 and 0 beyond.
func upper(z float64) float64 {
	x := math.Abs(z)
	tail := 0.0
	switch density := exp(-float64(x*x) / 2); {
	case x > 37:
	case x < 7.07106781186547:
		tail = density * polynomial(x, tailTop[:]) / polynomial(x, tailBottom[:])
	default: // a continued fraction
		below := x + 0.65
		for k := 4.0; k > 0; k-- {
			below = x + k/below
		}
		tail = density / below / math.Sqrt(2*math.Pi)
	}
	if z < 0 {
		return 1 - tail
	}
	return tail
}
