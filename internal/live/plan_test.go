package live_test

import (
	"context"
	"testing"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

func (d *desk) plan(t testing.TB) *plan.Plan {
	t.Helper()
	p, _, err := d.Plan(context.Background(), "bjelke")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestTry_KeepsNothing(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		length, facts, before := len(entriesOf(t, d)), asJSON(t, d.view(t).Build), d.plan(t)
		away := []build.Change{&build.AddAbsence{Absence: build.Absence{Person: "RU", First: day, Last: day + 20}}}
		trial, err := d.Try(d.ctx(), "bjelke", away)
		if err != nil {
			t.Fatal(err)
		}
		if len(trial.KnockOn.Rows) == 0 || trial.Before != before || trial.After.Dates.Plain <= before.Dates.Plain {
			t.Errorf("three weeks away: %d rows, plain %s after %s, want a later date", len(trial.KnockOn.Rows), trial.After.Dates.Plain, before.Dates.Plain)
		}
		again, err := d.Try(d.ctx(), "bjelke", away)
		if err != nil || again.After != trial.After {
			t.Errorf("tried again it is worked out again, %v", err)
		}
		if _, err := d.Try(d.ctx(), "bjelke", []build.Change{said("")}); fault.KindOf(err) != fault.Invalid {
			t.Errorf("a broken change: %v, want invalid", err)
		}
		if len(entriesOf(t, d)) != length || asJSON(t, d.view(t).Build) != facts || d.plan(t) != before {
			t.Error("trying left something behind")
		}
	})
}

// TestPlan_HeldWhileItHolds: one plan a journal number and quarter hour, and
// always the one that the facts give.
func TestPlan_HeldWhileItHolds(t *testing.T) {
	d := small(t, memory.New())
	fresh := func() string {
		v := d.view(t)
		p, err := plan.Make(context.Background(), &v.Build, rates.Learn(v.Build), plan.Options{Now: v.Now, Runs: 20, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		return asJSON(t, p)
	}
	first := d.plan(t)
	steps := []struct {
		what string
		do   func()
		same bool
	}{
		{"nothing", func() {}, true},
		{"five minutes", func() { d.now = d.now.Add(5 * time.Minute) }, true},
		{"a trial", func() { _, _ = d.Try(context.Background(), "bjelke", []build.Change{said("x")}) }, true},
		{"a quarter of an hour", func() { d.now = d.now.Add(15 * time.Minute) }, false},
		{"a change", func() { d.keep(t, said("x")) }, false},
		{"a change at another door", func() { d.again().keep(t, said("y")) }, false},
		{"many trials", func() {
			for i := range 20 {
				_, _ = d.Try(context.Background(), "bjelke", []build.Change{&build.HoldTask{Task: "B11", Day: day + unit.Date(i)}})
			}
		}, false},
	}
	for _, s := range steps {
		s.do()
		p := d.plan(t)
		if (p == first) != s.same {
			t.Errorf("after %s the plan is the same one: %v, want %v", s.what, p == first, s.same)
		}
		if asJSON(t, p) != fresh() {
			t.Errorf("after %s the plan is not what the facts give", s.what)
		}
		first = p
	}
}

func TestPast(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		before := asJSON(t, d.view(t).Build)
		one := d.keep(t, said("one"))
		d.now = d.now.AddDate(0, 0, 1)
		if _, err := d.undo(one.ID); err != nil {
			t.Fatal(err)
		}
		d.keep(t, said("two"))
		for _, tt := range []struct {
			day   unit.Date
			notes []string
		}{{day, nil}, {day + 1, []string{"one"}}, {day + 2, []string{"two"}}} {
			b, err := d.Past(d.ctx(), "bjelke", tt.day)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, n := range b.Notes[1:] {
				got = append(got, n.Text)
			}
			if asJSON(t, got) != asJSON(t, tt.notes) {
				t.Errorf("when %s began: notes %v, want %v", tt.day, got, tt.notes)
			}
			if tt.day == day && asJSON(t, b) != before {
				t.Error("the morning is not what it was")
			}
		}
		if _, err := d.Past(d.ctx(), "bjelke", day-1000); fault.KindOf(err) != fault.NotFound {
			t.Errorf("years before: %v, want not found", err)
		}
		if _, err := d.Past(d.ctx(), "wagon", day); fault.KindOf(err) != fault.NotFound {
			t.Errorf("no such build: %v, want not found", err)
		}
	})
}

func TestSlip_StaysUntilCleared(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		put := []build.Change{said("one"), &build.HoldTask{Task: "B11", Day: day}}
		look := func(d *desk, who string, want int) {
			t.Helper()
			s, err := d.Slip(d.ctx(), "bjelke", who)
			if err != nil || len(s.Changes) != want {
				t.Errorf("slip of %s = %d changes, %v, want %d", who, len(s.Changes), err, want)
			}
			if want > 0 && asJSON(t, s.Changes) != asJSON(t, put) {
				t.Errorf("slip of %s = %s, want %s", who, asJSON(t, s.Changes), asJSON(t, put))
			}
		}
		look(d, "RU", 0)
		if err := d.SaveSlip(d.ctx(), "bjelke", "RU", live.Slip{Changes: put}); err != nil {
			t.Fatal(err)
		}
		look(d, "RU", 2)
		look(d.again(), "RU", 2)
		look(d, "OD", 0)
		d.keep(t, said("kept"))
		look(d, "RU", 2)
		if err := d.SaveSlip(d.ctx(), "bjelke", "RU", live.Slip{}); err != nil {
			t.Fatal(err)
		}
		look(d, "RU", 0)
		look(d.again(), "RU", 0)
	})
}

func TestWatch_TellsUntilStopped(t *testing.T) {
	d := small(t, memory.New())
	var one, two []live.Event
	stop := d.Watch(func(e live.Event) { one = append(one, e) })
	d.Watch(func(e live.Event) { two = append(two, e) })
	first := d.keep(t, said("x"))
	stop()
	if _, err := d.undo(first.ID); err != nil {
		t.Fatal(err)
	}
	_, _ = d.Record(d.ctx(), "bjelke", -1, rune1, []live.Draft{{Change: said("")}})
	want := []live.Event{{Build: "bjelke", Seq: first.Seq}, {Build: "bjelke", Seq: first.Seq + 1}}
	if asJSON(t, one) != asJSON(t, want[:1]) || asJSON(t, two) != asJSON(t, want) {
		t.Errorf("told %v and %v, want %v and %v", one, two, want[:1], want)
	}
}

func TestFollow_TellsWhatAnotherDoorKept(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		defer cancel()
		told := make(chan live.Event, 100)
		d.Watch(func(e live.Event) { told <- e })
		done := make(chan struct{})
		go func() { d.Follow(ctx, 5*time.Millisecond); close(done) }()
		other := d.again()
		for {
			e := other.keep(t, said("x")) // again, for the first may come before the first look
			select {
			case got := <-told:
				if got.Build != "bjelke" || got.Seq > e.Seq || got.Seq <= e.Seq-20 {
					t.Errorf("told %+v, the other door is at %d", got, e.Seq)
				}
				cancel()
				<-done
				return
			case <-time.After(50 * time.Millisecond):
			case <-ctx.Done():
				t.Fatal("nothing was told")
			}
		}
	})
}

func TestWaysOut_AndRates(t *testing.T) {
	d := small(t, memory.New())
	ways, err := d.WaysOut(d.ctx(), "bjelke")
	if err != nil {
		t.Fatal(err)
	}
	base := d.plan(t)
	for _, w := range ways {
		if trial, err := d.Try(d.ctx(), "bjelke", w.Changes); err != nil || trial.After.Odds.Ready != w.Ready || trial.Before != base {
			t.Errorf("%q promises %.2f, tried it is %.2f, %v", w.Name, w.Ready, trial.After.Odds.Ready, err)
		}
	}
	if got, want := asJSON(t, d.Rates(d.view(t))), asJSON(t, rates.Learn(d.view(t).Build)); got != want {
		t.Errorf("rates = %s, want %s", got, want)
	}
	if list, err := d.Builds(d.ctx()); err != nil || len(list) != 1 || list[0].ID != "bjelke" {
		t.Errorf("builds = %v, %v, want the one", list, err)
	}
}
