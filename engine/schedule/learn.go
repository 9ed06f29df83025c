package schedule

import "math"

// priorRecords is how many records a prior counts for: with n records of its
// own a kind of work goes n/(n+10) of the way to what they say.
const priorRecords = 10

// Learn is the distribution of a factor after records of it, actual ÷ planned:
// the normal-inverse-gamma update of mean and variance of the logarithm with a
// prior worth ten records, its estimates put in [Gelman2013]. Without records
// it is d exactly; with many it has their own mean and standard deviation. In
// between it is narrower than d where they agree with it, and wider where they
// contradict it. Ratios that are not positive and finite count for nothing.
func (d Lognormal) Learn(ratios []float64) Lognormal {
	s := summary(ratios)
	return d.learn(s.n, s.mean, s.squares)
}

// learn is Learn from the count, the mean and the sum of squares about it.
func (d Lognormal) learn(n, mean, squares float64) Lognormal {
	if n == 0 {
		return d
	}
	apart := mean - d.Mu
	sum := float64(priorRecords*float64(d.Sigma*d.Sigma)) + squares + float64(priorRecords*n/(priorRecords+n)*float64(apart*apart))
	return Lognormal{Mu: d.Mu + float64(n/(priorRecords+n)*apart), Sigma: math.Sqrt(sum / (priorRecords + n))}
}

// LearnBuilds learns from records by build, actual ÷ planned, what a kind of
// work varies by from job to job (own) and what all of it shares on one build
// (common). What differs inside a build is own; what the means of builds differ
// by beyond that is common, and so is the whole shift of the mean: records
// cannot tell the two means apart. Learning both from the same ratios by Learn
// would count the spread twice. Own is worth the records less one a build,
// common as many as there are builds (analysis of variance, one way
// [SearleCasellaMcCulloch1992]).
func LearnBuilds(own, common Lognormal, builds [][]float64) (learnedOwn, learnedCommon Lognormal) {
	var means []stats
	inside := stats{}
	for _, ratios := range builds {
		if s := summary(ratios); s.n > 0 {
			means = append(means, s)
			inside.n += s.n - 1
			inside.squares += s.squares
		}
	}
	own = own.learn(inside.n, own.Mu, inside.squares)
	between := stats{}
	for _, s := range means {
		between.add(s.mean - own.Mu)
	}
	for _, s := range means { // the means differ by chance too
		between.squares -= float64(own.Sigma*own.Sigma) / s.n * (1 - 1/between.n)
	}
	return own, common.learn(between.n, between.mean, max(0, between.squares))
}

// Update is a factor that all work of a kind shares on one vehicle after
// finished work of it came to the ratios, actual ÷ planned: normal prior d,
// normal observations about the factor with the mean and the variance of own
// [Gelman2013]. Without finished work it is d exactly. Ratios that are not
// positive and finite count for nothing.
func (d Lognormal) Update(ratios []float64, own Lognormal) Lognormal {
	s := summary(ratios)
	prior, noise := d.Sigma*d.Sigma, own.Sigma*own.Sigma
	if s.n == 0 || prior == 0 {
		return d
	}
	weight := s.n * prior / (float64(s.n*prior) + float64(noise))
	return Lognormal{
		Mu:    d.Mu + float64(weight*(s.mean-own.Mu-d.Mu)),
		Sigma: math.Sqrt(prior * (1 - weight)),
	}
}

// stats are count, mean, and sum of squares about the mean of logarithms.
type stats struct{ n, mean, squares float64 }

func summary(ratios []float64) stats {
	s := stats{}
	for _, r := range ratios {
		if r > 0 && !math.IsInf(r, 1) {
			s.add(log(r))
		}
	}
	return s
}

// add takes one more in by Welford's recurrence.
func (s *stats) add(x float64) {
	s.n++
	apart := x - s.mean
	s.mean += apart / s.n
	s.squares += float64(apart * (x - s.mean))
}
