package schedule

import (
	"math"
	"strconv"
	"testing"
)

func TestBacktest_ByHand(t *testing.T) {
	r := Backtest([]Forecast{
		{Build: "coupe", P50: 100, P80: 120, P90: 130, Goal: 125, Chance: 0.85, Came: 110},
		{Build: "coupe", P50: 112, P80: 118, P90: 122, Came: 110},
		{Build: "van", P50: 200, P80: 210, P90: 220, Goal: 205, Chance: 0.7, Came: 230},
	})
	if r.Builds != 2 || r.Enough || r.Promised != 2 {
		t.Errorf("%d builds, enough %v, %d promised; want 2, false, 2", r.Builds, r.Enough, r.Promised)
	}
	close64(t, "held P50", r.Held[0].Part, 0.25, 1e-12) // half of the coupe's, none of the van's
	close64(t, "held P80", r.Held[1].Part, 0.5, 1e-12)
	close64(t, "loss P50", r.Held[0].Loss, ((5+1)/2.+15)/2, 1e-12)
	close64(t, "loss P90", r.Held[2].Loss, ((2+1.2)/2+9)/2, 1e-12)
	close64(t, "Brier", r.Brier, (0.15*0.15+0.7*0.7)/2, 1e-12)
	// Wilson's interval of one in two
	close64(t, "low", r.Held[1].Low, 0.0945, 1e-4)
	close64(t, "high", r.Held[1].High, 0.9055, 1e-4)
	if none := Backtest(nil); none.Enough || none.Held[0].Low != 0 || none.Held[0].High != 1 || none.Brier != 0 {
		t.Errorf("without forecasts: %+v", none)
	}
}

// A forecaster who says the true quantiles loses less than one who is two days
// too early and one who is twice as unsure, and ten builds are enough.
func TestBacktest_TheHonestForecastLosesLeast(t *testing.T) {
	d := Lognormal{0, 0.3}
	said := func(shift, stretch float64) Record {
		var list []Forecast
		for i := range 4000 {
			q := func(u float64) Minute {
				return rounded(10_000*(1+stretch*(d.Quantile(u)-1)) + shift)
			}
			list = append(list, Forecast{
				Build: strconv.Itoa(i), P50: q(0.5), P80: q(0.8), P90: q(0.9),
				Came: rounded(10_000 * came(d, luckOf(2, i))),
			})
		}
		return Backtest(list)
	}
	honest, early, unsure := said(0, 1), said(-2880, 1), said(0, 2)
	if !honest.Enough {
		t.Error("4,000 builds are not enough")
	}
	for i, h := range honest.Held {
		close64(t, "held", h.Part, h.Quantile, 0.03)
		if h.Low > h.Quantile || h.High < h.Quantile {
			t.Errorf("%v: interval from %.3f to %.3f", h.Quantile, h.Low, h.High)
		}
		if h.Loss >= early.Held[i].Loss || i > 0 && h.Loss >= unsure.Held[i].Loss {
			t.Errorf("%v: losses %.0f, too early %.0f, too unsure %.0f", h.Quantile, h.Loss, early.Held[i].Loss, unsure.Held[i].Loss)
		}
	}
}

// came draws a factor.
func came(d Lognormal, l luck) float64 {
	return math.Exp(d.log(l.uniform(keyOf("came", forWork))))
}
