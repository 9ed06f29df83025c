package chart

import (
	"strings"
	"testing"

	"fettle/unit"
)

var day = unit.Day(2027, 2, 15)

var odds = Odds{
	Title: "Ready", Promised: day + 2,
	Points: []Chance{{day, 0.1}, {day + 1, 0.5}, {day + 2, 0.62}, {day + 5, 0.8}, {day + 9, 0.95}},
}

func TestOdds_Reading(t *testing.T) {
	for share, want := range map[float64]unit.Date{0.5: day + 1, 0.8: day + 5, 0.9: day + 9, 0.99: 0} {
		if got := odds.day(share); got != want {
			t.Errorf("day of %.2f: got %v, want %v", share, got, want)
		}
	}
	for d, want := range map[unit.Date]float64{day - 1: 0, day: 0.1, day + 4: 0.62, day + 30: 0.95} {
		if got := odds.at(d); got != want {
			t.Errorf("chance of %v: got %v, want %v", d, got, want)
		}
	}
	want := "Even chance by 16 Feb 2027, 8 in 10 by 20 Feb 2027, 9 in 10 by 24 Feb 2027. The promised day, 17 Feb 2027, is kept with 62 %."
	if got := odds.says(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestOdds_NeverSure(t *testing.T) {
	o := Odds{Points: []Chance{{day, 0.1}, {day + 1, 0.2}}}
	if got, want := o.says(), "No even chance within these days."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestOdds_Awkward draws what a place may hand over on a bad day.
func TestOdds_Awkward(t *testing.T) {
	cases := map[string]Odds{
		"no points": {}, "one point": {Points: []Chance{{day, 1}}}, "all on one day": {Points: []Chance{{day, 0.4}, {day, 1}}},
		"promised long ago": {Points: odds.Points, Promised: day - 400}, "never sure": {Points: []Chance{{day, 0.1}, {day + 1, 0.2}}},
	}
	for name, o := range cases {
		var b strings.Builder
		if err := DrawOdds(o).Render(t.Context(), &b); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if strings.Contains(b.String(), "NaN") || strings.Contains(b.String(), "Inf") {
			t.Errorf("%s: a number that is none", name)
		}
	}
}

func TestBars(t *testing.T) {
	b := Bars{All: []Bar{{Label: "wk 1", Value: 10, Text: "10"}, {Label: "wk 2", Value: 0}, {Label: "wk 3", Value: -4}}, Line: 20}
	for i, want := range []float64{(high - top - foot) / 2, 0, 0} {
		if got := b.barH(b.All[i].Value); got != want {
			t.Errorf("bar %d: %v high, want %v", i, got, want)
		}
	}
	for name, bars := range map[string]Bars{"none": {}, "all nought": {All: []Bar{{}, {}}}, "sixty": {All: make([]Bar, 60)}} {
		var s strings.Builder
		if err := DrawBars(bars).Render(t.Context(), &s); err != nil || strings.Contains(s.String(), "NaN") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
