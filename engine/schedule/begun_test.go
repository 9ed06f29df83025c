package schedule

import (
	"math"
	"testing"
)

func TestUpper_WithinItsError(t *testing.T) {
	for z := -36.0; z < 36; z += 0.0173 {
		want := math.Erfc(z/math.Sqrt2) / 2
		if got := upper(z); math.Abs(got/want-1) > 1e-8 {
			t.Fatalf("above %v lie %v, want %v", z, got, want)
		}
	}
	if upper(38) != 0 || upper(-38) != 1 {
		t.Error("far out it does not end")
	}
}

// TestLeft_IsTheMeanOfWhatIsBeyond compares the closed form with the mean over
// fine steps of the distribution cut off, and with what is plain.
func TestLeft_IsTheMeanOfWhatIsBeyond(t *testing.T) {
	d := Spread{0.85, 1, 1.6}.Lognormal()
	for _, spent := range []float64{0.2, 0.9, 1, 1.3, 2} {
		const steps = 200_000
		sum := 0.0
		for i := range steps {
			sum += d.beyond(spent, (float64(i)+0.5)/steps) - spent
		}
		close64(t, "what is left", d.Left(spent), sum/steps, 2e-5)
	}
	close64(t, "left of what is not begun", d.Left(0), d.Mean(), 1e-9)
	close64(t, "left of what has no spread", Lognormal{}.Left(0.75), 0.25, 1e-9)
	if got := (Lognormal{}).Left(1.5); got != 0 {
		t.Errorf("without spread %v is left beyond the plan, want nothing", got)
	}
	if got := d.Left(1e6); !(got > 0) || math.IsInf(got, 0) {
		t.Errorf("beyond all bounds %v is left", got)
	}
}

// TestOdds_WorkThatHasRunOver: nothing is left by the plan, and the mean of the
// finishes is what the distribution says of work not over by then.
func TestOdds_WorkThatHasRunOver(t *testing.T) {
	a := labour("under way", 0, 0)
	a.Range, a.Begun = Spread{0.8, 1, 1.5}, Begun{Planned: 1000, Spent: 1100}
	p := always(a)
	sum, runs := 0.0, 20_000
	for _, f := range played(t, p, OddsOptions{Runs: runs, Workers: 2}).Finishes {
		sum += float64(f)
	}
	want := 1000 * a.Range.Lognormal().Left(1.1)
	close64(t, "mean minutes left", sum/float64(runs), want, 0.03*want)
	p.Activities[0].Begun.Spent = -1
	if _, err := Odds(t.Context(), p, nil, OddsOptions{Runs: 1}); err == nil {
		t.Error("less than nothing was spent, and the problem is taken")
	}
}
