package schedule

import (
	"math"
	"math/rand/v2"
	"testing"
)

func close64(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g within %g", what, got, want, within)
	}
}

// A range of 0.8, 1, 1.6 has the mean 3.4/3 and the variance 0.52/18.
func TestSpread_LognormalKeepsMeanAndDeviation(t *testing.T) {
	d := Spread{0.8, 1, 1.6}.Lognormal()
	close64(t, "mean", d.Mean(), 3.4/3, 1e-10)
	mean, variance := d.Mean(), 0.0
	if variance = mean * mean * (math.Exp(d.Sigma*d.Sigma) - 1); true {
		close64(t, "deviation", math.Sqrt(variance), math.Sqrt(0.52/18), 1e-10)
	}
	close64(t, "median", d.Quantile(0.5), math.Exp(d.Mu), 1e-10)
	close64(t, "80 %", d.Quantile(0.8), math.Exp(d.Mu+0.8416212335729143*d.Sigma), 1e-6)
	if got := (Spread{}).Lognormal(); got != (Lognormal{}) {
		t.Errorf("the zero range gives %v, want a factor of 1", got)
	}
	close64(t, "a certain factor", Spread{2, 2, 2}.Lognormal().Quantile(0.99), 2, 1e-10)
}

// With logarithms 0.2 and 0.4 on a prior of mean 0 and deviation 0.3: the mean
// is 2/12 of 0.3; squares are 10·0.09 + 0.02 + 20/12·0.09, over 12.
func TestLearn_ByHand(t *testing.T) {
	prior := Lognormal{0, 0.3}
	got := prior.Learn([]float64{math.Exp(0.2), math.Exp(0.4)})
	close64(t, "mean", got.Mu, 0.05, 1e-12)
	close64(t, "deviation", got.Sigma, math.Sqrt((0.9+0.02+0.15)/12), 1e-12)
	for _, none := range [][]float64{nil, {0, -1, math.NaN(), math.Inf(1)}} {
		if got := prior.Learn(none); got != prior {
			t.Errorf("without records %v, want the prior", got)
		}
	}
}

// Records that agree narrow step by step; many records win.
func TestLearn_NarrowsToTheRecords(t *testing.T) {
	prior, last := Lognormal{0.1, 0.4}, 0.4
	var same []float64
	for range 200 {
		same = append(same, math.Exp(0.1))
		got := prior.Learn(same)
		if got.Sigma >= last || math.Abs(got.Mu-0.1) > 1e-12 {
			t.Fatalf("%d records: %v, want the same mean and less than %v", len(same), got, last)
		}
		last = got.Sigma
	}
	r := rand.New(rand.NewPCG(1, 2))
	var many []float64
	for range 50_000 {
		many = append(many, math.Exp(0.5+0.2*r.NormFloat64()))
	}
	got := prior.Learn(many)
	close64(t, "mean of many", got.Mu, 0.5, 0.004)
	close64(t, "deviation of many", got.Sigma, 0.2, 0.004)
	if wide := prior.Learn([]float64{math.Exp(1.8)}); wide.Sigma <= prior.Sigma {
		t.Errorf("a record far off narrows to %v", wide)
	}
}

// Builds drawn with an own deviation of 0.25 and a common one of 0.15 are told
// apart again; one pot would see √(0.25² + 0.15²) twice.
func TestLearnBuilds_TellsOwnFromCommon(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	var builds [][]float64
	for range 4000 {
		common := 0.1 + 0.15*r.NormFloat64()
		var ratios []float64
		for range 2 + r.IntN(4) {
			ratios = append(ratios, math.Exp(-0.03+common+0.25*r.NormFloat64()))
		}
		builds = append(builds, ratios)
	}
	own, common := LearnBuilds(Lognormal{-0.03, 0.4}, Lognormal{0, 0.4}, builds)
	close64(t, "own mean", own.Mu, -0.03, 0)
	close64(t, "own deviation", own.Sigma, 0.25, 0.006)
	close64(t, "common mean", common.Mu, 0.1, 0.01)
	close64(t, "common deviation", common.Sigma, 0.15, 0.01)
	one, prior := Lognormal{0, 0.3}, Lognormal{0, 0.2}
	if a, b := LearnBuilds(one, prior, nil); a != one || b != prior {
		t.Errorf("without builds %v and %v, want the priors", a, b)
	}
	if a, _ := LearnBuilds(one, prior, [][]float64{{1.2}, {0.9}}); a != one {
		t.Errorf("one record a build says nothing of what differs inside one: %v", a)
	}
}

// Prior variance 0.04, noise 0.09, three logarithms of mean 0.31 about a noise
// mean of 0.01: the weight is 0.12/0.21, the rest 0.04·0.09/0.21.
func TestUpdate_ByHand(t *testing.T) {
	prior, own := Lognormal{0.05, 0.2}, Lognormal{0.01, 0.3}
	seen := []float64{math.Exp(0.21), math.Exp(0.31), math.Exp(0.41)}
	got := prior.Update(seen, own)
	close64(t, "mean", got.Mu, 0.05+0.12/0.21*0.25, 1e-12)
	close64(t, "deviation", got.Sigma, math.Sqrt(0.04*0.09/0.21), 1e-12)
	if got := prior.Update(nil, own); got != prior {
		t.Errorf("without finished work %v", got)
	}
	close64(t, "exact work", prior.Update(seen[:1], Lognormal{}).Sigma, 0, 0)
}

// The odds take finished work in by the range that it has itself: the factor
// of the worked example moves an activity that is certain but for it.
func TestOdds_FinishedWorkMovesTheFactor(t *testing.T) {
	a, b := labour("a", 10_000, 0), labour("b", 0, 0)
	a.Factors, b.Factors = []int{0}, []int{0}
	a.Learned, b.Learned = Lognormal{0, 0.3}, Lognormal{0, 0.3}
	p := always(a, b)
	p.Factors = []Factor{{ID: "f", Learned: Lognormal{0.05, 0.2}, Seen: []float64{math.Exp(0.2), math.Exp(0.3), math.Exp(0.4)}}}
	o := played(t, p, OddsOptions{Runs: 20_000, Workers: 2})
	d := Lognormal{0.05 + 0.12/0.21*0.25, math.Sqrt(0.04*0.09/0.21 + 0.09)}
	for _, q := range []float64{0.2, 0.5, 0.8} {
		close64(t, "quantile", float64(o.Quantile(q))/10_000, d.Quantile(q), 0.015)
	}
}
