package live_test

import (
	"context"
	"testing"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/demo"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// van opens the demo build as it ended, in a store of its own.
func van(t *testing.T) *live.Shop {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	entries, err := scenario.Entries(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	shop := live.Open(memory.New(), live.Options{Seed: 1, Runs: 60})
	if err := shop.Create(context.Background(), entries); err != nil {
		t.Fatal(err)
	}
	return shop
}

// TestBacktest_ForecastsAsTheyWereMade holds every forecast of the van to the
// plan of that morning: the facts of then under the clock of then.
func TestBacktest_ForecastsAsTheyWereMade(t *testing.T) {
	shop, ctx := van(t), context.Background()
	got, err := shop.Backtest(ctx, "pedlar", true)
	if err != nil {
		t.Fatal(err)
	}
	if want := unit.Day(2027, 2, 5); got.Finished != want || got.Open != 0 || len(got.Whole) != 20 {
		t.Errorf("finished %s, %d open, %d forecasts; want %s, none and 20 Mondays", got.Finished, got.Open, len(got.Whole), want)
	}
	for i, m := range got.Whole {
		if want := unit.Day(2026, 9, 21) + unit.Date(7*i); m.Day != want {
			t.Fatalf("forecast %d was made on %s, want %s", i+1, m.Day, want)
		}
		b, err := shop.Past(ctx, "pedlar", m.Day)
		if err != nil {
			t.Fatal(err)
		}
		p, err := plan.Make(ctx, &b, rates.Learn(b), plan.Options{Now: m.Day.At(8, 0), Runs: 60, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		if m.P50 != p.Dates.P50 || m.P80 != p.Dates.P80 || m.P90 != p.Dates.P90 || m.Ready != p.Odds.Ready || m.Promised != b.Promise.Ready {
			t.Errorf("%s: forecast %+v, the plan of that morning says %+v, %v", m.Day, m, p.Dates, p.Odds.Ready)
		}
		if m.Held != (m.Finished <= m.P80) || m.Said < 0.8 {
			t.Errorf("%s: P80 %s held %v, said %v; finished %s", m.Day, m.P80, m.Held, m.Said, m.Finished)
		}
	}
	for _, k := range got.Hours {
		if k.Kind == "metal" && (k.Tasks != 4 || k.First != 224*unit.Hour || k.Last != 310*unit.Hour || k.Booked != 310*unit.Hour) {
			t.Errorf("metal = %+v, want 4 tasks of 224 h, then 310 h planned, 310 h booked", k)
		}
	}
}

// TestBacktest_OfTasks: a build under way has forecasts of its finished tasks
// only, made while each was open.
func TestBacktest_OfTasks(t *testing.T) {
	d := small(t, memory.New())
	got, err := d.Backtest(d.ctx(), "bjelke", false)
	if err != nil {
		t.Fatal(err)
	}
	if got.Finished != 0 || got.Open != 9 || len(got.Whole) != 0 || len(got.Tasks) == 0 {
		t.Fatalf("finished %q, %d open, %d and %d forecasts; want a build under way with forecasts of tasks", got.Finished, got.Open, len(got.Whole), len(got.Tasks))
	}
	seen := map[build.TaskID]int{}
	b := d.view(t).Build
	for _, m := range got.Tasks {
		seen[m.Task]++
		if task := b.Task(m.Task); task.State != build.Finished || m.Finished != task.Ended || m.Day > task.Ended || m.Day.Weekday() == 1 || m.Day.Weekday() == 0 {
			t.Errorf("forecast of %s, %s, made on a %s, finished %s", m.Task, task.State, m.Day.Long(), m.Finished)
		}
	}
	if seen["B03"] != 10 || len(seen) != 5 { // B03 ended on 26 January: each working day from the 13th on
		t.Errorf("forecasts by task %v, want five tasks and ten mornings for B03", seen)
	}
}

func TestBacktest_RefusesWhatHasNotEnded(t *testing.T) {
	f, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	entries, err := scenario.Entries(f, f.Build.Promise.In)
	if err != nil {
		t.Fatal(err)
	}
	shop := live.Open(memory.New(), live.Options{Seed: 1, Runs: 20})
	if err := shop.Create(context.Background(), entries); err != nil {
		t.Fatal(err)
	}
	if _, err := shop.Backtest(context.Background(), "bjelke", true); fault.KindOf(err) != fault.NotFound || fault.HintOf(err) == "" {
		t.Errorf("a build on which nothing is finished: %v, want not found, with a hint", err)
	}
	if _, err := shop.Backtest(context.Background(), "nobody", true); fault.KindOf(err) != fault.NotFound {
		t.Errorf("a build that is not there: %v, want not found", err)
	}
}
