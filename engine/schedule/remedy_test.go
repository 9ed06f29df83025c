package schedule

import (
	"context"
	"slices"
	"testing"
)

// primed is one painter who primes for an hour, then has the base coat to put
// on within a day: at 08:00 and at 09:00 of day 0. A job of other earlier in
// the list takes the painter at 09:00. Scuffing takes half an hour.
func primed(other Minute) Problem {
	p := shopOf(1, labour("prime", 60, 0), labour("other", other, 0), labour("base", 60, 0), labour("scuff", 30, 0))
	p.Links = []Link{after(0, 1), after(0, 2), {From: 0, To: 2, Lag: day, Calendar: -1, Max: true}}
	p.Remedies = []Remedy{{Link: 2, Activity: 3}}
	return p
}

func TestRemedy_OfAMissedWindow(t *testing.T) {
	cases := []struct {
		name         string
		other        Minute
		scuff, base  Minute // starts
		done         bool
		cause, after Cause // of scuff and base
	}{
		// primed at 09:00 of day 0, so the base coat may start until 09:00 of day 1.
		{"kept, on the last minute", 480, 0, clockTime(1, 9, 0), false, ByNow, ByPerson},
		// other is over at 09:01 of day 1, one minute too late: scuff until 09:31.
		{"missed by a minute", 481, clockTime(1, 9, 1), clockTime(1, 9, 31), true, ByPerson, ByRemedy},
		// other is over at 12:00 of day 1.
		{"missed by hours", 660, clockTime(1, 12, 0), clockTime(1, 12, 30), true, ByPerson, ByRemedy},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, serial := range []bool{false, true} {
				res := generated(t, primed(c.other), nil, serial)
				if res.Times[3].Skipped == c.done || res.Times[2].Start != c.base || c.done && res.Times[3].Start != c.scuff {
					t.Errorf("serial %v: scuff %+v, base %+v", serial, res.Times[3], res.Times[2])
				}
				if res.Times[3].Binding.Cause != c.cause || res.Times[2].Binding.Cause != c.after {
					t.Errorf("serial %v: causes %+v, %+v", serial, res.Times[3].Binding, res.Times[2].Binding)
				}
				if slices.Equal(res.Remedies, []int{0}) != c.done || len(res.Overruns) > 0 {
					t.Errorf("serial %v: remedies %v, overruns %v", serial, res.Remedies, res.Overruns)
				}
			}
		})
	}
}

// The window closes at 09:00 of day 1 while the base coat waits for a part.
// The scuffing then binds to the window, and the chain leads through it.
func TestRemedy_WaitsForTheWindowToClose(t *testing.T) {
	p := primed(60)
	p.Activities[2].Release = clockTime(1, 9, 1)
	res := generated(t, p, nil, false)
	b := res.Times[3].Binding
	if res.Times[3].Start != clockTime(1, 9, 0) || b.Cause != ByWindow || b.Link != 2 || b.Activity != 0 || b.At != clockTime(1, 9, 0) {
		t.Errorf("scuff at %s by %+v", moment(res.Times[3].Start), b)
	}
	steps := Chain(p, res)
	var chain []int
	for _, s := range steps {
		chain = append(chain, s.Activity)
	}
	if !slices.Equal(chain, []int{2, 3, 0}) || steps[1].Lag != day {
		t.Errorf("chain %v, lag %d", chain, steps[1].Lag)
	}
}

// Solve primes a day later and keeps the window, at no loss.
func TestRemedy_IsNotNeededWhereWaitingIsFree(t *testing.T) {
	p := primed(60)
	p.Activities[2].Release = clockTime(1, 9, 1)
	res := solved(t, p, Options{})
	if len(res.Remedies) > 0 || !res.Times[3].Skipped || res.Makespan != clockTime(1, 10, 1) {
		t.Errorf("remedies %v, finish %s", res.Remedies, moment(res.Makespan))
	}
}

// A base coat that is a wait without people starts by itself when it is ready:
// if that is too late the remedy comes first all the same.
func TestRemedy_BeforeWhatNeedsNobody(t *testing.T) {
	p := primed(60)
	p.Activities[2] = Activity{ID: "flash", Kind: Passive, Work: 30, Calendar: -1, Release: clockTime(2, 9, 0)}
	for _, serial := range []bool{false, true} {
		res := generated(t, p, nil, serial)
		if res.Times[3].Skipped || res.Times[2].Start != clockTime(2, 9, 0) {
			t.Errorf("serial %v: %+v, %+v", serial, res.Times[3], res.Times[2])
		}
	}
}

// In odds runs a window is missed only when the prime takes long: then the
// base coat is on a day later, half an hour after the scuffing began.
func TestRemedy_InOddsRuns(t *testing.T) {
	p := primed(420) // until 16:00 as planned, 60 + 420 minutes: the base coat at 08:00 of day 1
	p.Activities[1].Range = Spread{1, 1, 1.5}
	odds, err := Odds(context.Background(), p, nil, OddsOptions{Runs: 400, Seed: 1, Starts: true})
	if err != nil {
		t.Fatal(err)
	}
	missed := 0
	for _, f := range odds.Finishes {
		if f > clockTime(1, 10, 0) {
			missed++
		}
	}
	none := p
	none.Remedies, none.Activities = nil, slices.Clone(p.Activities[:3])
	plain, _ := Odds(context.Background(), none, nil, OddsOptions{Runs: 400, Seed: 1})
	late := 0
	for i, f := range plain.Finishes {
		if f > clockTime(1, 10, 0) {
			late++
			if odds.Finishes[i] != f+30 {
				t.Fatalf("finish %s, without scuffing %s", moment(odds.Finishes[i]), moment(f))
			}
		} else if odds.Finishes[i] != f {
			t.Fatalf("window kept, but finish %s, without scuffing %s", moment(odds.Finishes[i]), moment(f))
		}
	}
	if missed != late || missed < 40 || missed > 360 {
		t.Errorf("%d of 400 runs missed the window, %d without remedy", missed, late)
	}
}
