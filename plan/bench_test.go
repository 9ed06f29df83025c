package plan_test

import (
	"context"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// morning is the demo build when the shop opens on a day.
func morning(b testing.TB, day unit.Date) (build.Build, plan.Options) {
	b.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		b.Fatal(err)
	}
	facts, err := scenario.Replay(f, day)
	if err != nil {
		b.Fatal(err)
	}
	return facts, plan.Options{Now: day.At(8, 0), Runs: 2000, Seed: 1}
}

// blasted is the same with the fourteen findings of the blast.
func blasted(b testing.TB, facts build.Build) build.Build {
	b.Helper()
	sheet, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		b.Fatal(err)
	}
	after, err := build.ApplyAll(facts, sheet)
	if err != nil {
		b.Fatal(err)
	}
	return after
}

func made(b testing.TB, facts *build.Build, o plan.Options) *plan.Plan {
	b.Helper()
	p, err := plan.Make(context.Background(), facts, rates.Learn(*facts), o)
	if err != nil {
		b.Fatal(err)
	}
	return p
}

// perCall reports the time of one call in ms, and the outlook that it bought.
func perCall(b *testing.B, p *plan.Plan) {
	b.ReportMetric(float64(b.Elapsed().Microseconds())/1000/float64(b.N), "ms/op")
	b.ReportMetric(100*p.Odds.Ready, "%odds")
	b.ReportMetric(float64(p.Dates.P50-p.Promise.Ready), "P50-days-past-promise")
}

var blastDay = unit.Day(2026, time.October, 6)

// BenchmarkPlan makes the whole plan with 2,000 played builds; at most 300 ms
// on two processors.
func BenchmarkPlan(b *testing.B) {
	facts, o := morning(b, blastDay)
	after := blasted(b, facts)
	for _, c := range []struct {
		name  string
		facts *build.Build
	}{{"before", &facts}, {"blast", &after}} {
		b.Run(c.name, func(b *testing.B) {
			var p *plan.Plan
			for b.Loop() {
				p = made(b, c.facts, o)
			}
			perCall(b, p)
		})
	}
}

// BenchmarkKnockOn makes two plans and compares them, as a touch on the drawn
// vehicle does; at most a second on two processors.
func BenchmarkKnockOn(b *testing.B) {
	facts, o := morning(b, blastDay)
	var after *plan.Plan
	rows := 0
	for b.Loop() {
		changed := blasted(b, facts)
		before := made(b, &facts, o)
		after = made(b, &changed, o)
		rows = len(plan.Compare(&facts, before, after).Rows)
	}
	perCall(b, after)
	b.ReportMetric(float64(rows), "rows")
}

// BenchmarkWaysOut tries every lever after the blast, alone and in pairs.
func BenchmarkWaysOut(b *testing.B) {
	facts, o := morning(b, blastDay)
	after := blasted(b, facts)
	base := made(b, &after, o)
	var ways []plan.Way
	for b.Loop() {
		var err error
		if ways, err = plan.WaysOut(context.Background(), &after, rates.Learn(after), base, o); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/1000/float64(b.N), "ms/op")
	b.ReportMetric(float64(len(ways)), "ways")
	b.ReportMetric(100*ways[0].Ready, "%odds-of-the-best")
}

// BenchmarkBetter makes the plan and looks for a better order of its list, as
// the wall does; at most 300 ms on two processors.
func BenchmarkBetter(b *testing.B) {
	for _, c := range []struct {
		name  string
		day   unit.Date
		blast bool
	}{{"before", blastDay, false}, {"blast", blastDay, true}, {"november", november, false}} {
		facts, o := morning(b, c.day)
		if c.blast {
			facts = blasted(b, facts)
		}
		b.Run(c.name, func(b *testing.B) {
			var p *plan.Plan
			var better *plan.BetterOrder
			for b.Loop() {
				p, better = searched(b, &facts, o)
			}
			perCall(b, p)
			b.ReportMetric(float64(better.Won), "days-won")
			b.ReportMetric(100*better.After.Ready, "%odds-then")
		})
	}
}

// BenchmarkReplay applies the demo's whole journal, from the day the vehicle
// came in to the day the account was given.
func BenchmarkReplay(b *testing.B) {
	f, err := demo.Pedlar()
	if err != nil {
		b.Fatal(err)
	}
	changes := 0
	for _, d := range f.Days {
		changes += len(d.Changes)
	}
	for b.Loop() {
		if _, err := scenario.Replay(f, 0); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/1000/float64(b.N), "ms/op")
	b.ReportMetric(float64(changes), "changes")
}
