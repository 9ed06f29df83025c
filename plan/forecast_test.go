package plan

import (
	"context"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/unit"
)

// TestForecasts_SayWhatThePlanSays: same luck, same days, on every story.
func TestForecasts_SayWhatThePlanSays(t *testing.T) {
	for _, s := range stories(t) {
		o := Options{Now: s.now, Runs: 60, Seed: 1}
		p := made(t, &s.b, s.now)
		out, ok, err := Forecasts(context.Background(), &s.b, rates.Default(), o)
		if err != nil {
			t.Fatal(err)
		}
		open := 0
		for _, task := range s.b.Tasks {
			if task.State != build.Finished {
				open++
			}
		}
		if ok != (open > 0) || len(out.Tasks) != open {
			t.Errorf("%s: outlook %v with %d tasks, want those of %d open ones", s.name, ok, len(out.Tasks), open)
		}
		if want := (Forecast{P50: p.Dates.P50, P80: p.Dates.P80, P90: p.Dates.P90}); ok && (out.Whole != want || round4(out.Ready) != p.Odds.Ready) {
			t.Errorf("%s: forecast %+v and %v, want %+v and %v", s.name, out.Whole, out.Ready, want, p.Odds.Ready)
		}
		for _, f := range out.Tasks {
			if f.P50 > f.P80 || f.P80 > f.P90 || f.P50 > out.Whole.P50 || f.P90 > out.Whole.P90 {
				t.Errorf("%s: %+v, want days in order and none after the whole build's %+v", s.name, f, out.Whole)
			}
		}
	}
}

// TestForecasts_CountTheWait: a task is finished when its wait is over. Two days
// of metal from Monday the 2nd, three days of waiting, a day of assembly.
func TestForecasts_CountTheWait(t *testing.T) {
	b := small()
	b.Tasks[0].Wait = 3
	out, ok, err := Forecasts(context.Background(), b, rates.Default(), Options{Now: monday.At(8, 0), Runs: 20, Seed: 1})
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	day := func(d unit.Date) Forecast { return Forecast{"", d, d, d} }
	sides, fit := day(monday+4), day(monday+7)
	sides.Task, fit.Task = "T1", "T2"
	if out.Tasks[0] != sides || out.Tasks[1] != fit || out.Whole != day(monday+7) {
		t.Errorf("forecasts %+v, whole %+v; want %+v, %+v", out.Tasks, out.Whole, sides, fit)
	}
	if out.Said != [3]float64{1, 1, 1} {
		t.Errorf("chances of days that are certain = %v", out.Said)
	}
}
