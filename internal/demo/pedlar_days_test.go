package demo_test

import (
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/scenario"
	"fettle/unit"
)

func TestPedlar_ReplaysToEveryDay(t *testing.T) {
	f := pedlar(t)
	last := f.Days[len(f.Days)-1].At.Date()
	for day := arrival; day <= last+1; day += 7 {
		b := on(t, f, day)
		if err := b.Validate(); err != nil {
			t.Errorf("on %v: %v", day, err)
		}
	}
	b := f.Build.Clone()
	for i, d := range f.Days {
		next, err := build.ApplyAll(b, d.Changes)
		if err != nil {
			t.Fatalf("day %d: %v", i+1, err)
		}
		if b = next; b.Validate() != nil {
			t.Fatalf("after %v: %v", d.At, b.Validate())
		}
	}
}

func TestPedlar_BeginsOnTheMorningOfArrival(t *testing.T) {
	f := pedlar(t)
	if got := len(scenario.Until(f, arrival)); got != 0 {
		t.Errorf("days before %v = %d, want none", arrival, got)
	}
	b := f.Build
	if len(b.Findings) != 0 || len(b.Hours) != 0 || len(b.Spent) != 0 {
		t.Errorf("findings, hours, payments at the start = %d %d %d, want none", len(b.Findings), len(b.Hours), len(b.Spent))
	}
	for _, p := range b.Parts {
		if p.State != build.Wanted || p.ID == "Q11" || p.ID == "Q12" || p.ID == "Q13" {
			t.Errorf("part %s is %s at the start", p.ID, p.State)
		}
	}
}

// TestPedlar_RunsToThePlainPlan holds the ends of tasks to the key dates of
// the plain plan after the blast.
func TestPedlar_RunsToThePlainPlan(t *testing.T) {
	b := on(t, pedlar(t), 0)
	for task, want := range map[build.TaskID]unit.Date{
		"T03": unit.Day(2026, time.September, 22), "T02": unit.Day(2026, time.October, 2), "T05": unit.Day(2026, time.October, 5),
		"T11": unit.Day(2026, time.November, 13), "T12": unit.Day(2026, time.November, 19), "T18": unit.Day(2027, time.January, 12),
		"T23": unit.Day(2027, time.January, 21), "T30": unit.Day(2027, time.February, 1), "T31": unit.Day(2027, time.February, 4),
		"T33": unit.Day(2027, time.February, 5), "O2": unit.Day(2026, time.December, 21),
	} {
		if got := b.Task(task).Ended; got != want {
			t.Errorf("%s ended %v, want %v", task, got, want)
		}
	}
	for _, task := range b.Tasks {
		if task.State != build.Finished {
			t.Errorf("%s is %s at the end", task.ID, task.State)
		}
	}
	for _, p := range b.Panels {
		if p.State != build.Fitted {
			t.Errorf("panel %s is %s at the end", p.ID, p.State)
		}
	}
}

func TestPedlar_HoursMeetThePlan(t *testing.T) {
	b := on(t, pedlar(t), 0)
	people, tasks := map[build.TradeID]unit.Effort{}, map[build.TaskID]unit.Effort{}
	for _, h := range b.Hours {
		if b.Person(h.Person).Helps {
			continue
		}
		people[build.TradeID(h.Person)] += h.Worked
		tasks[h.Task] += h.Worked
	}
	h := unit.Hour
	sameHours(t, "recorded", people, map[build.TradeID]unit.Effort{"LD": 172 * h, "MW": 406 * h, "PT": 274 * h, "WA": 354 * h, "TR": 142 * h})
	for _, task := range b.Tasks {
		if got, want := tasks[task.ID], build.Total(planned(b, task)); got != want {
			t.Errorf("%s: %v recorded, %v planned", task.ID, got, want)
		}
	}
}

// TestPedlar_HoursFitThePeople expects nobody in two places, nor beyond a day.
func TestPedlar_HoursFitThePeople(t *testing.T) {
	b := on(t, pedlar(t), 0)
	for i, x := range b.Hours {
		for _, y := range b.Hours[:i] {
			if x.Person == y.Person && x.Start < y.Stop && y.Start < x.Stop {
				t.Errorf("%s is on %s and %s at %v", x.Person, y.Task, x.Task, x.Start)
			}
		}
	}
	sum := map[string]unit.Effort{}
	for _, h := range b.Hours {
		key := string(h.Person) + h.Start.Date().String()
		if sum[key] += h.Worked; sum[key] > 8*unit.Hour {
			t.Errorf("%s works %v on %v", h.Person, sum[key], h.Start.Date())
		}
	}
}

func TestPedlar_TheBlastBringsThreeParts(t *testing.T) {
	f := pedlar(t)
	morning, next := on(t, f, blast), on(t, f, after)
	var cost unit.Money
	for id, want := range map[build.PartID]build.TaskID{"Q11": "T09", "Q12": "T09", "Q13": "T08"} {
		if morning.Part(id) != nil {
			t.Errorf("%s is wanted before the blast", id)
		}
		p := next.Part(id)
		if p == nil || p.Task != want || p.Ordered != blast {
			t.Fatalf("%s after the blast = %+v, want one for %s ordered %v", id, p, want, blast)
		}
		cost += p.Cost()
	}
	if want := unit.Money(214_00); cost != want {
		t.Errorf("parts of the blast = %v, want %v", cost, want)
	}
}

// TestPedlar_OrdersInTime expects every part in the shop when its task begins,
// but one that only the last of the task needs, or a finding of it, at its end.
func TestPedlar_OrdersInTime(t *testing.T) {
	b := on(t, pedlar(t), 0)
	for _, p := range b.Parts {
		need := b.Task(p.Task).Began
		if p.AtEnd || len(p.Because) > 0 {
			need = b.Task(p.Task).Ended
		}
		if p.Arrived == 0 || p.Arrived > need {
			t.Errorf("%s came in %v, needed %v", p.ID, p.Arrived, need)
		}
	}
	if got, most := b.Part("Q04").Ordered, unit.Day(2026, time.September, 24); got > most {
		t.Errorf("Q04 ordered %v, want by %v", got, most)
	}
}

func TestPedlar_PlatingComesBackShort(t *testing.T) {
	f := pedlar(t)
	b := on(t, f, unit.Day(2026, time.December, 22))
	o := b.Load("O2")
	if o.State != build.Claimed || o.Pieces != 23 || o.Counted != 22 || o.Likely != 45 {
		t.Errorf("O2 = %s, %d of %d, likely %d days; want claimed, 22 of 23, 45", o.State, o.Counted, o.Pieces, o.Likely)
	}
	if got := b.Bag("G04-11").State; got != build.BagShort {
		t.Errorf("bag G04-11 is %s, want short", got)
	}
	end := on(t, f, 0)
	if got := end.Bag("G04-11").State; got != build.OnShelf {
		t.Errorf("bag G04-11 at the end is %s, want on shelf", got)
	}
}

func TestPedlar_SnagsAtSignOff(t *testing.T) {
	f := pedlar(t)
	if got := len(on(t, f, unit.Day(2027, time.February, 5)).Snags); got != 11 {
		t.Errorf("snags after the road test = %d, want 11", got)
	}
	open := 0
	for _, s := range on(t, f, unit.Day(2027, time.February, 20)).Snags {
		if s.Done != 0 {
			continue
		}
		if open++; s.Due == 0 {
			t.Errorf("snag %s is left without a date", s.ID)
		}
	}
	if open != 3 {
		t.Errorf("snags left at sign-off = %d, want 3", open)
	}
}
