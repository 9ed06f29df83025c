package plan

import (
	"context"
	"testing"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

// gained works out what going well wins back on a Monday morning.
func gained(t *testing.T, b *build.Build) []Gain {
	t.Helper()
	list, err := Gains(context.Background(), b, rates.Default(), Options{Now: monday.At(8, 0), Runs: 2000, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestGains_OfTheUncertainTask: both tasks set the date in every build, but only
// the first is uncertain; 80 h of it, from the good end of the range to its 80 %
// point, are two working days and more.
func TestGains_OfTheUncertainTask(t *testing.T) {
	b := small()
	b.Tasks[0].Legs[0].Hours, b.Tasks[0].Risk = 80*h, "metal"
	b.Risk.Ranges = []build.RiskRange{{Kind: "metal", Factor: build.Span{Low: 0.8, Mode: 1, High: 1.5}}}
	list := gained(t, b)
	if len(list) != 1 || list[0].Task != "T1" || list[0].Critical != 1 {
		t.Fatalf("gains %+v, want that of T1, which is always critical", list)
	}
	g := list[0]
	own := schedule.Spread(b.Risk.Ranges[0].Factor).Lognormal()
	want := 80 * (own.Quantile(0.8) - own.Quantile(0.1)) / 8
	if float64(g.Won) < want-1 || float64(g.Won) > want+1 || g.Won != DaysBetween(b, g.After, g.Before) {
		t.Errorf("won %d working days, from %s to %s; want %.1f within one", g.Won, g.Before, g.After, want)
	}
	p, err := Make(context.Background(), b, rates.Default(), Options{Now: monday.At(8, 0), Runs: 2000, Seed: 1})
	if err != nil || g.Before != p.Dates.P80 {
		t.Errorf("before %s, %v; the plan says %s", g.Before, err, p.Dates.P80)
	}
	if g.Significance < 0.15 || g.Significance > 1 || g.Cruciality < 0.99 || g.Figure.Formula == "" || len(g.Figure.Inputs) != 4 {
		t.Errorf("%+v, want a task that is all of the uncertainty, with its working", g)
	}
}

// TestGains_NoneToWin: certain work, and a build that is over.
func TestGains_NoneToWin(t *testing.T) {
	if list := gained(t, small()); len(list) != 0 {
		t.Errorf("certain work wins %+v", list)
	}
	b := small()
	for i := range b.Tasks {
		b.Tasks[i].State, b.Tasks[i].Began, b.Tasks[i].Ended = build.Finished, monday-7, monday-3
	}
	if list := gained(t, b); len(list) != 0 {
		t.Errorf("a build that is over wins %+v", list)
	}
}

// TestGains_OnTheDemo: the tasks come in order of significance, none wins less
// than nothing, and metal is among them before it is begun.
func TestGains_OnTheDemo(t *testing.T) {
	for _, s := range stories(t) {
		if s.b.Name != "pedlar" || s.now.Date() != unit.Day(2026, 10, 7) {
			continue
		}
		list, err := Gains(context.Background(), &s.b, rates.Default(), Options{Now: s.now, Runs: 500, Seed: 1})
		if err != nil || len(list) != 3 {
			t.Fatalf("%d gains, %v; want 3", len(list), err)
		}
		metal := false
		for i, g := range list {
			metal = metal || s.b.Task(g.Task).Stage == "metal"
			if g.Won < 0 || i > 0 && g.Significance > list[i-1].Significance {
				t.Errorf("%s wins %d days with significance %v", g.Task, g.Won, g.Significance)
			}
		}
		if !metal || list[0].Won < 1 {
			t.Errorf("%+v; want metal among them, and a day to win", list)
		}
	}
}

func BenchmarkGains(b *testing.B) {
	for _, s := range stories(b) {
		if s.b.Name != "pedlar" || s.now.Date() != unit.Day(2026, 10, 7) {
			continue
		}
		for b.Loop() {
			if _, err := Gains(context.Background(), &s.b, rates.Default(), Options{Now: s.now, Seed: 1}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
