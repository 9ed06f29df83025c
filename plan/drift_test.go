package plan_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// friday is the demo build after the blast with 186 h of metal signed off:
// floors, quarters and doors ran 1.05 times over, pillars and gutters 1.22 times, all of it the
// metalworker's.
func friday(t *testing.T) *build.Build {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, unit.Day(2026, time.October, 7))
	if err != nil {
		t.Fatal(err)
	}
	var kept []build.Hours
	for _, h := range b.Hours {
		if task := b.Task(h.Task); !task.Findings {
			kept = append(kept, h)
		}
	}
	b.Hours = kept
	start := unit.Day(2026, time.October, 9).At(8, 0)
	rest := pick(b.Findings, 13*unit.Hour)
	for i := range b.Findings {
		f := &b.Findings[i]
		factor := map[build.TaskID]float64{"T08": 1.05, "T09": 60.0 / 49, "T10": 1.05, "T11": 1.05}[f.Task]
		if factor == 0 || f.Task != "T08" && f.Task != "T09" && !slices.Contains(rest, f.ID) {
			continue
		}
		f.State = build.Closed
		book := func(key any, who build.TradeID, h unit.Effort) {
			b.Hours = append(b.Hours, build.Hours{ID: fmt.Sprint(f.ID, key), Person: build.PersonID(who), Task: f.Task, Finding: f.ID,
				Start: start, Stop: start + 1, Worked: h})
		}
		for k, l := range f.Work {
			book(k, l.Trade, l.Hours)
		}
		book("over", "MW", unit.Hours(f.Hours().H()*(factor-1)))
	}
	return &b
}

// pick returns findings of quarters and doors that come to so many hours.
func pick(list []build.Finding, sum unit.Effort) []build.FindingID {
	for i, f := range list {
		if f.Task != "T10" && f.Task != "T11" || f.Hours() > sum || f.Hours() == 0 {
			continue
		}
		if f.Hours() == sum {
			return []build.FindingID{f.ID}
		}
		if more := pick(list[i+1:], sum-f.Hours()); more != nil {
			return append(more, f.ID)
		}
	}
	return nil
}

func TestDrifts_NamesTheTaskAndTheMoney(t *testing.T) {
	b := friday(t)
	p, err := plan.Make(context.Background(), b, rates.Learn(*b), plan.Options{Now: unit.Day(2026, time.November, 6).At(16, 30), Runs: 100, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	list := plan.Drifts(b, p)
	if len(list) != 1 {
		t.Fatalf("drifts = %d, want one, of metal", len(list))
	}
	d := list[0]
	near := func(what string, got, want, most float64) {
		t.Helper()
		if math.Abs(got-want) > most {
			t.Errorf("%s = %.1f, want %.1f ± %.1f", what, got, want, most)
		}
	}
	near("hours signed off", d.Signed.H(), 186, 0.1)
	near("hours booked", d.Booked.H(), 204, 1)
	near("metal ends at", d.Ends.H(), 340, 2)
	near("hours over", d.Over.H(), 30, 2)
	near("cost", float64(d.Cost)/100, 1000, 120)
	near("net", float64(d.Net)/100, 40_750, 150)
	if d.Net+d.Cost != d.Without {
		t.Errorf("net %v + cost %v is not the net without, %v", d.Net, d.Cost, d.Without)
	}
	near("net without", float64(d.Without)/100, 41_760, 1)
	if d.Cause != "T09" || math.Abs(d.Factor-1.22) > 0.01 {
		t.Errorf("cause = %s at %.2f, want T09 at 1.22", d.Cause, d.Factor)
	}
}

func TestDrifts_NoneWhereNothingIsSignedOff(t *testing.T) {
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, unit.Day(2026, time.October, 6))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), &b, rates.Learn(b), plan.Options{Now: unit.Day(2026, time.October, 6).At(8, 0), Runs: 50})
	if err != nil {
		t.Fatal(err)
	}
	if got := plan.Drifts(&b, p); len(got) != 0 {
		t.Errorf("drifts = %+v, want none", got)
	}
}
