package plan_test

import (
	"context"
	"strings"
	"testing"

	"fettle/build"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

func whyNot(t testing.TB, b *build.Build, o plan.Options, by unit.Date) *plan.WhyNot {
	t.Helper()
	x, err := plan.Why(context.Background(), b, rates.Learn(*b), made(t, b, o), o, by)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The findings of the blast rule out a day that could be kept the day before.
func TestWhy_BeforeAndAfterTheBlast(t *testing.T) {
	before, o := morning(t, blastDay)
	after := blasted(t, before)
	day := unit.Day(2027, 1, 27)
	x, y := whyNot(t, &before, o, day), whyNot(t, &after, o, day)
	if x.Verdict != plan.DayMet || x.Days <= 0 || x.Odds.Ready <= y.Odds.Ready {
		t.Errorf("before: %s, odds %.4f, after %.4f", x.Says, x.Odds.Ready, y.Odds.Ready)
	}
	if y.Verdict != plan.DayRuled || y.Facts < 30 || len(y.Clash) > 10 {
		t.Fatalf("after: %s, %d facts in %d lines", y.Says, y.Facts, len(y.Clash))
	}
	if l := y.Clash[1]; l.Head != "Metal, in order" || l.Hours < 200*unit.Hour || l.Done == 0 || len(l.Steps) != 4 {
		t.Errorf("the metal is told as %+v", l)
	}
	if y.Helps[0].Won == 0 || y.Helps[0].Pair || !strings.Contains(y.Says, "no plan ends before Thu 28 Jan 2027") {
		t.Errorf("%s: %+v", y.Says, y.Helps[0])
	}
	if len(y.Waits) == 0 {
		t.Error("no wait is on the way to the date")
	}
}

// What is neither kept by the list nor ruled out is looked for by a search.
func TestWhy_AnotherOrder(t *testing.T) {
	b, o := morning(t, november)
	bound := made(t, &b, o).Bound
	if x := whyNot(t, &b, o, bound); x.Verdict != plan.DayUnknown || x.Best <= bound || x.Schedules == 0 {
		t.Errorf("by the bound: %s", x.Says)
	}
	x := whyNot(t, &b, o, bound+1)
	if x.Verdict != plan.DayOther || x.Best > bound+1 || x.Plain <= bound+1 {
		t.Errorf("a day later: %s", x.Says)
	}
}

// BenchmarkWhy asks about the day before the bound, and about the promised day.
func BenchmarkWhy(b *testing.B) {
	facts, o := morning(b, blastDay)
	after := blasted(b, facts)
	p := made(b, &after, o)
	for _, c := range []struct {
		name string
		by   unit.Date
	}{{"ruled-out", p.Bound - 1}, {"promised", after.Promise.Ready}} {
		b.Run(c.name, func(b *testing.B) {
			var x *plan.WhyNot
			for b.Loop() {
				var err error
				if x, err = plan.Why(context.Background(), &after, rates.Learn(after), p, o, c.by); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/op")
			b.ReportMetric(float64(len(x.Clash)), "lines")
			b.ReportMetric(float64(len(x.Helps)+x.Idle), "tried")
		})
	}
}
