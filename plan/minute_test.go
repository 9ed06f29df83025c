package plan

import (
	"context"
	"flag"
	"testing"
	"time"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/rates"
	"fettle/unit"
)

var minute = flag.Bool("minute", false, "compare the budget of a page with a minute's search; takes some minutes")

// stand is a demo build on a morning.
type stand struct {
	name  string
	read  func() (scenario.File, error)
	day   unit.Date // 0 is the day it came in
	blast bool
}

func stands() []stand {
	return []stand{
		{"pedlar, 14 Sep", demo.Pedlar, unit.Day(2026, time.September, 14), false},
		{"pedlar, 6 Oct", demo.Pedlar, unit.Day(2026, time.October, 6), false},
		{"pedlar, 6 Oct, blast", demo.Pedlar, unit.Day(2026, time.October, 6), true},
		{"pedlar, 6 Nov", demo.Pedlar, unit.Day(2026, time.November, 6), false},
		{"bjelke, first day", demo.Second, 0, false},
	}
}

func (s stand) facts(t *testing.T) (build.Build, Options) {
	t.Helper()
	f, err := s.read()
	if err != nil {
		t.Fatal(err)
	}
	b, err := scenario.Replay(f, s.day)
	if err != nil {
		t.Fatal(err)
	}
	if s.blast {
		sheet, err := build.DecodeList(demo.BlastSheet())
		if err != nil {
			t.Fatal(err)
		}
		if b, err = build.ApplyAll(b, sheet); err != nil {
			t.Fatal(err)
		}
	}
	day := s.day
	if day == 0 {
		day = b.Promise.In
	}
	return b, Options{Now: day.At(8, 0), Seed: 1}
}

// TestMinute sets the order that a page finds beside the best that the engine
// finds in a minute, in the same hours: as a foreman would work it, and with
// work kept back on purpose, which no list can say.
func TestMinute(t *testing.T) {
	if !*minute {
		t.Skip("skipped: run go test ./plan -run Minute -minute -v to search for a minute")
	}
	t.Log("| build | now | list | page | foreman, 60 s | any plan, 60 s | bound | page above 60 s, of the time to the finish |")
	for _, s := range stands() {
		b, o := s.facts(t)
		base, err := Make(context.Background(), &b, rates.Learn(b), o)
		if err != nil {
			t.Fatal(err)
		}
		h, err := newHunt(context.Background(), &b, rates.Learn(b), base, o)
		if err != nil {
			t.Fatal(err)
		}
		h.problem.Overtime, h.saturdays, h.problem.Published = nil, nil, nil // the finish alone
		page, foreman, any := h.atOnce(t), h.longest(t, true), h.longest(t, false)
		above := 100 * float64(page.Makespan-foreman.Makespan) / float64(foreman.Makespan-h.problem.Now)
		t.Logf("| %s | %s | %s | %s | %s | %s | %s | %.2f %% |", s.name, o.Now.Date().Short(), base.Dates.Plain.Short(), h.day(page.Makespan).Short(),
			h.day(foreman.Makespan).Short(), h.day(any.Makespan).Short(), h.day(h.stands.LowerBound).Short(), above)
		if above > 1 {
			t.Errorf("%s: a page finds %s, a minute %s: %.2f %% of the time to the finish, want at most 1", s.name, h.day(page.Makespan), h.day(foreman.Makespan), above)
		}
	}
}

// atOnce is the plan of the best list that a page finds.
func (h *hunt) atOnce(t *testing.T) schedule.Result {
	t.Helper()
	found, err := h.search(context.Background(), BetterSchedules)
	if err != nil {
		t.Fatal(err)
	}
	if len(found) == 0 {
		return h.stands
	}
	return found[0].result
}

// longest is the best plan of a minute's search. The budget is measured out by
// the clock, in searches with one seed after the other.
func (h *hunt) longest(t *testing.T, foreman bool) schedule.Result {
	t.Helper()
	best := h.stands
	until := time.Now().Add(time.Minute)
	for seed := uint64(1); time.Now().Before(until) && best.Status != schedule.ProvedBest; seed++ {
		res, err := schedule.Solve(context.Background(), h.problem, schedule.Options{
			Schedules: 50_000, Seed: seed, Workers: islands, Foreman: foreman, Bound: h.stands.LowerBound})
		if err != nil {
			t.Fatal(err)
		}
		h.learn(res.LowerBound)
		if res.Makespan < best.Makespan {
			best = res
		}
	}
	return best
}
