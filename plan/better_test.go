package plan_test

import (
	"context"
	"encoding/json"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"
	"time"

	"fettle/build"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// november is a morning on which the demo's list has a better order.
var november = unit.Day(2026, time.November, 6)

// searched plans a build and looks for a better order.
func searched(t testing.TB, b *build.Build, o plan.Options) (*plan.Plan, *plan.BetterOrder) {
	t.Helper()
	p, err := plan.Make(context.Background(), b, rates.Learn(*b), o)
	if err != nil {
		t.Fatal(err)
	}
	better, err := plan.Better(context.Background(), b, rates.Learn(*b), p, o, 0)
	if err != nil {
		t.Fatal(err)
	}
	return p, better
}

// kept plans a build anew with what was proposed.
func kept(t testing.TB, b *build.Build, better *plan.BetterOrder, o plan.Options) *plan.Plan {
	t.Helper()
	after, err := build.ApplyAll(*b, better.Changes)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), &after, rates.Learn(after), o)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestBetter_TheDoorsBeforeTheSides(t *testing.T) {
	b, o := morning(t, november)
	b.Promise.Ready = unit.Day(2027, time.February, 15) // as promised, a smaller move is enough
	p, better := searched(t, &b, o)
	if !better.Found || len(better.Changes) != 1 || len(better.Listed) != 1 || better.Price != 0 {
		t.Fatalf("%+v", better)
	}
	if got := better.Changes[0].Say(&b); got != "On the list: T11 Metal D: doors, wings, front before T10 Metal C: sides, quarters, valance" {
		t.Errorf("it says %q", got)
	}
	after := kept(t, &b, better, o)
	if better.After.Plain != after.Dates.Plain || better.After.P80 != after.Dates.P80 || better.After.Ready != after.Odds.Ready {
		t.Errorf("promised %+v, kept %+v and odds %v", better.After, after.Dates, after.Odds.Ready)
	}
	if better.Won != plan.DaysBetween(&b, after.Dates.Plain, p.Dates.Plain) || better.Won < 2 {
		t.Errorf("%d days won, from %s to %s", better.Won, p.Dates.Plain, after.Dates.Plain)
	}
	for _, s := range better.Shifts {
		i := slices.IndexFunc(after.Tasks, func(x plan.Task) bool { return x.ID == s.Task })
		if got := after.Tasks[i].Start.Date(); got != s.After.First || s.Why == "" {
			t.Errorf("%s starts on %s, the shift says %+v", s.Task, got, s)
		}
	}
	if n := len(better.Shifts); n < 5 {
		t.Errorf("%d tasks move, want all that follow", n)
	}
}

func TestBetter_SameBytesOnAnyMachine(t *testing.T) {
	b, o := morning(t, november)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	_, one := searched(t, &b, o)
	runtime.GOMAXPROCS(4)
	_, four := searched(t, &b, o)
	if x, y := inJSON(t, one), inJSON(t, four); x != y {
		t.Errorf("one processor:\n%s\nfour:\n%s", x, y)
	}
}

func inJSON(t testing.TB, v any) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// TestBetter_NeverWorse shuffles the open tasks of the demo's list. What is
// proposed holds when it is kept, and no shuffled list stays later than the
// shop's own.
func TestBetter_NeverWorse(t *testing.T) {
	facts, o := morning(t, blastDay)
	facts = blasted(t, facts)
	o.Runs = 300
	rng := rand.New(rand.NewPCG(7, 7))
	own := kept(t, &facts, &plan.BetterOrder{}, o).Dates.Plain
	found := 0
	for i := range 12 {
		b := shuffled(t, facts, rng)
		p, better := searched(t, &b, o)
		if better.After.Plain > own {
			t.Errorf("shuffle %d: %s, finished by %s; the shop's own list by %s", i, better.Says, better.After.Plain, own)
		}
		if !better.Found {
			if len(better.Changes) > 0 || better.After != better.Before {
				t.Errorf("shuffle %d: nothing found, and yet %+v", i, better)
			}
			continue
		}
		found++
		after := kept(t, &b, better, o)
		if after.Dates.Plain > p.Dates.Plain || after.Dates.P50 > p.Dates.P50 || after.Dates.P80 > p.Dates.P80 || after.Odds.Ready < p.Odds.Ready {
			t.Errorf("shuffle %d: %s\nfrom %+v %v\nto   %+v %v", i, better.Says, p.Dates, p.Odds.Ready, after.Dates, after.Odds.Ready)
		}
		if after.Dates.Plain < after.Bound {
			t.Errorf("shuffle %d: %s lies before the bound %s", i, after.Dates.Plain, after.Bound)
		}
		if got := after.Money.Cash - p.Money.Cash; got != better.Cash || better.Saturdays == 0 && (got != 0 || better.Price != 0) {
			t.Errorf("shuffle %d: cash %d, promised %d with %d Saturdays for %d", i, got, better.Cash, better.Saturdays, better.Price)
		}
	}
	if found == 0 {
		t.Error("every shuffled list is as good as the shop's own: the test says nothing")
	}
}

// shuffled puts the open tasks into any order.
func shuffled(t testing.TB, b build.Build, rng *rand.Rand) build.Build {
	t.Helper()
	c := &build.ArrangeTasks{}
	for _, task := range b.Tasks {
		if task.State != build.Finished {
			c.Tasks = append(c.Tasks, task.ID)
		}
	}
	rng.Shuffle(len(c.Tasks), func(i, j int) { c.Tasks[i], c.Tasks[j] = c.Tasks[j], c.Tasks[i] })
	after, err := build.ApplyAll(b, []build.Change{c})
	if err != nil {
		t.Fatal(err)
	}
	return after
}

// TestBetter_InTimeLeavesTheNearDaysAlone promises the demo a month later.
func TestBetter_InTimeLeavesTheNearDaysAlone(t *testing.T) {
	b, o := morning(t, november)
	b.Promise.Ready += 30
	_, better := searched(t, &b, o)
	if better.Near != 0 || better.Saturdays != 0 {
		t.Errorf("in time, and yet %d near starts move and %d Saturdays are bought: %s", better.Near, better.Saturdays, better.Says)
	}
}

func TestBetter_NothingToBetter(t *testing.T) {
	o := plan.Options{Runs: 50, Seed: 1}
	f, _ := morning(t, blastDay)
	end, _ := morning(t, unit.Day(2027, time.March, 13))
	empty, one, late := f.Clone(), f.Clone(), f.Clone()
	empty.Tasks = nil
	one.Tasks = []build.Task{{ID: "A", Name: "sweep", Stage: "metal", State: build.NotBegun, Legs: []build.Leg{{Trade: f.Trades[0].ID, Hours: 9 * unit.Hour}}}}
	away := f.Clone()
	away.Tasks = slices.Clone(one.Tasks)
	for _, who := range away.People {
		away.Absences = append(away.Absences, build.Absence{Person: who.ID, First: blastDay, Last: blastDay + 5000})
	}
	for _, c := range []struct {
		name   string
		b      build.Build
		now    unit.Date
		status string
		says   string
	}{
		{"finished", end, unit.Day(2027, time.March, 13), "proved best", "There is no order to better: nothing is left to do"},
		{"empty", empty, blastDay, "proved best", "There is no order to better: nothing is left to do"},
		{"one task", one, blastDay, "proved best", "No other order finishes earlier: the list as it stands is proved best"},
		{"nobody there", away, blastDay, "does not fit the calendars", "There is no order to better: the build does not fit the calendars"},
	} {
		o.Now = c.now.At(8, 0)
		if _, got := searched(t, &c.b, o); got.Found || got.Status != c.status || got.Says != c.says || got.Bound == 0 && c.name != "nobody there" {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
	o.Now = (late.Promise.Ready + 20).At(8, 0)
	p, got := searched(t, &late, o)
	if p.Odds.Ready != 0 || got.Found && got.After.Plain > got.Before.Plain {
		t.Errorf("after the promised day: odds %v, %+v", p.Odds.Ready, got)
	}
}
