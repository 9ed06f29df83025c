package schedule

import (
	"context"
	"math"
	"testing"

	"fettle/fault"
)

func played(t *testing.T, p Problem, o OddsOptions) Outlook {
	t.Helper()
	out, err := Odds(context.Background(), p, nil, o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// always is one window for 60 days, so that minutes can be added up.
func always(activities ...Activity) Problem {
	p := shopOf(1, activities...)
	p.Calendars[0] = Calendar{{0, 60 * day}}
	return p
}

// One activity of 1,000 minutes with a lognormal factor: the quantiles, the mean
// and the deviation of the distribution are known.
func TestOdds_LognormalByHand(t *testing.T) {
	a := labour("a", 1000, 0)
	a.Range = Spread{0.8, 1, 1.6}
	d := a.Range.Lognormal()
	o := played(t, always(a), OddsOptions{Runs: 20_000, Workers: 2})
	mean, square := 0.0, 0.0
	for _, f := range o.Finishes {
		mean += float64(f) / 20_000
		square += float64(f) * float64(f) / 20_000
	}
	close64(t, "mean", mean, 1000*(0.8+1+1.6)/3, 4)
	close64(t, "deviation", math.Sqrt(square-mean*mean), 1000*math.Sqrt(0.52/18), 4)
	for _, q := range []float64{0.05, 0.25, 0.5, 0.9, 0.99} {
		close64(t, "quantile", float64(o.Quantile(q)), 1000*math.Exp(d.Mu+d.Sigma*math.Sqrt2*math.Erfinv(2*q-1)), 8+100*math.Abs(q-0.5)*math.Abs(q-0.5))
	}
	chance, stdErr := o.Chance(1000)
	close64(t, "chance of the plan", chance, 0.5*math.Erfc(d.Mu/d.Sigma/math.Sqrt2), 0.01)
	close64(t, "its error", stdErr, math.Sqrt(chance*(1-chance)/20_000), 1e-12)
}

// A reserve is triangular: it is stated in minutes and ends where it says.
func TestOdds_ReserveByHand(t *testing.T) {
	a := labour("a", 0, 0)
	a.Extra = Spread{800, 1000, 1600}
	o := played(t, always(a), OddsOptions{Runs: 20_000, Workers: 2})
	for _, c := range []struct{ q, want float64 }{
		{0.25, 800 + math.Sqrt(0.25*0.8*0.2)*1000},
		{0.5, 1600 - math.Sqrt(0.5*0.8*0.6)*1000},
		{0.9, 1600 - math.Sqrt(0.1*0.8*0.6)*1000},
	} {
		close64(t, "quantile", float64(o.Quantile(c.q)), c.want, 8)
	}
}

func TestOdds_ReserveLatePartAndFactor(t *testing.T) {
	a, b := labour("a", 100, 0), labour("b", 100, 0)
	a.Extra, b.Late, b.Release = Spread{50, 50, 50}, Spread{400, 400, 400}, 10
	a.Factors, b.Factors = []int{0}, []int{0}
	p := always(a, b)
	p.Factors = []Factor{{ID: "f", Range: Spread{2, 2, 2}}}
	if got := played(t, p, OddsOptions{Runs: 3}).Finishes; got[0] != 610 || got[2] != 610 {
		t.Errorf("finishes %v, want 410 + 200 each", got)
	}
}

// Absence of p a day lengthens n days of work by n p / (1-p) days on average.
func TestOdds_AbsenceByHand(t *testing.T) {
	p := shopOf(1, labour("a", 20*480, 0))
	p.Calendars[0] = weekdays(480, 200)
	for i := range p.Calendars[0] { // every day is a working day
		p.Calendars[0][i] = Window{Minute(i)*day + 480, Minute(i)*day + 960}
	}
	p.Absence = 0.1
	mean := 0.0
	finishes := played(t, p, OddsOptions{Runs: 20_000, Workers: 2}).Finishes
	for _, f := range finishes {
		mean += float64(f/day+1) / float64(len(finishes))
	}
	if want := 20 / 0.9; math.Abs(mean-want) > 0.05 {
		t.Errorf("%.3f days, want %.3f", mean, want)
	}
}

// A bought Saturday brings the finish from Monday to Saturday, unless its
// person stays away on it.
func TestOdds_BoughtHours(t *testing.T) {
	p := shopOf(1, labour("a", 480+240, 0))
	p.Calendars[0] = Calendar{{480, 960}, {3*day + 480, 3*day + 960}}
	p.Overtime = []Overtime{{Person: 0, Window: Window{day + 480, day + 720}}, {Person: 0, Window: Window{2*day + 480, 2*day + 720}}}
	if o := played(t, p, OddsOptions{Runs: 3}); o.Quantile(1) != 3*day+720 {
		t.Errorf("without: %s", moment(o.Quantile(1)))
	}
	if o := played(t, p, OddsOptions{Runs: 3, Bought: []int{0}}); o.Quantile(1) != day+720 {
		t.Errorf("with: %s", moment(o.Quantile(1)))
	}
	p.Absence = 0.3
	o := played(t, p, OddsOptions{Runs: 20_000, Bought: []int{1}, Workers: 2})
	got, err := o.Chance(2*day + 720)
	close64(t, "chance to be there on both days", got, 0.7*0.7, 4*err)
	if _, err := Odds(context.Background(), p, nil, OddsOptions{Bought: []int{2}}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("unknown hours: got %v, want invalid", err)
	}
}

// Adding an activity that takes nobody leaves every run as it was.
func TestOdds_CommonRandomNumbers(t *testing.T) {
	d := morning(t, true, true)
	first := playDemo(t, d, 200)
	d.Activities = append(d.Activities, Activity{ID: "extra wait", Kind: Passive, Work: 60, Calendar: -1, Range: Spread{0.5, 1, 2}})
	second := playDemo(t, d, 200)
	for i := range first.Finishes {
		if first.Finishes[i] != second.Finishes[i] {
			t.Fatalf("finish %d moved from %d to %d", i, first.Finishes[i], second.Finishes[i])
		}
	}
}

func TestOdds_StartsAndShares(t *testing.T) {
	a, b, c := labour("a", 100, 0), labour("b", 100, 1), labour("c", 10, 0)
	a.Range, b.Range = Spread{1, 1, 3}, Spread{1, 1, 3}
	p := always(a, b, c)
	p.People = append(p.People, Person{ID: "B"})
	p.Links = []Link{after(0, 2), after(1, 2)}
	o := played(t, p, OddsOptions{Runs: 4000, Starts: true})
	if got := o.Start(2, 0.5); got+10 != o.Quantile(0.5) {
		t.Errorf("c starts at %d, the finish is %d; want ten minutes between", got, o.Quantile(0.5))
	}
	if got := o.Groups; math.Abs(got[0].Part-0.5) > 0.03 || math.Abs(got[0].Part+got[1].Part-1) > 1e-9 || got[2].Part != 1 {
		t.Errorf("shares %v, want a and b half of the runs each, c all", got)
	}
	if got := played(t, p, OddsOptions{Runs: 3}).Start(2, 0.5); got != Never {
		t.Errorf("without Starts: %d, want Never", got)
	}
}

func TestOdds_OutOfHours(t *testing.T) {
	o := played(t, shopOf(1, labour("a", 11*480, 0)), OddsOptions{Runs: 5})
	if chance, _ := o.Chance(limit); chance != 0 || o.Quantile(0.1) != Never {
		t.Errorf("chance %v, quantile %d; want 0, Never", chance, o.Quantile(0.1))
	}
}

func TestOdds_Interrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Odds(ctx, shopOf(1, labour("a", 1, 0)), nil, OddsOptions{}); fault.KindOf(err) != fault.Interrupted {
		t.Errorf("got %v, want interrupted", err)
	}
}

// A hand plays without allocation.
func TestOdds_NoAllocationInARun(t *testing.T) {
	n, err := compile(morning(t, true, true).Problem)
	if err != nil {
		t.Fatal(err)
	}
	g := newGame(n, natural(len(n.Activities)), OddsOptions{Runs: 50, Starts: true})
	h := newHand(g, make([]int, len(g.names)))
	if got := testing.AllocsPerRun(20, func() { h.play(7) }); got != 0 {
		t.Errorf("%v allocations a run, want 0", got)
	}
}
