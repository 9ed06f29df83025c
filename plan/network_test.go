package plan

import (
	"strings"
	"testing"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

func TestStages_AreThoseABuildMayName(t *testing.T) {
	var got []string
	for _, s := range stages() {
		got = append(got, s.Name())
	}
	if want := strings.Join(build.Stages(), " "); strings.Join(got, " ") != want {
		t.Errorf("stages %v, want %s", got, want)
	}
}

// TestStages_TakeOffTheirOwn: every task, part and load of a build is in the
// take-off of exactly one stage, which is the task's.
func TestStages_TakeOffTheirOwn(t *testing.T) {
	for _, s := range stories(t) {
		wants, loads := 0, 0
		for _, list := range takeOffs(&s.b, rates.Default()) {
			for _, w := range list.Work {
				if got := s.b.Task(w.Task).Stage; got != list.Stage {
					t.Errorf("%s: %s of %s is in the take-off of %s", s.name, w.Task, got, list.Stage)
				}
			}
			wants, loads = wants+len(list.Wants), loads+len(list.Loads)
		}
		if wants != len(s.b.Parts) || loads != len(s.b.Outwork) {
			t.Errorf("%s: %d wants and %d loads, want %d and %d", s.name, wants, loads, len(s.b.Parts), len(s.b.Outwork))
		}
	}
}

// TestNetwork_EveryOpenLegOnce: what is left of every trade in every open task
// is one labour activity, and nothing else but reserves, what has used its hours
// up and what may happen is labour.
func TestNetwork_EveryOpenLegOnce(t *testing.T) {
	for _, s := range stories(t) {
		lists := takeOffs(&s.b, rates.Default())
		n := network(&s.b, lists, nil, s.now)
		got := map[string]schedule.Minute{}
		for i, a := range n.problem.Activities {
			if a.Kind != schedule.Labour || n.onlyIf(i) || strings.HasSuffix(a.ID, "/reserve") || a.Work == 0 && a.Begun.Spent >= a.Begun.Planned && a.Begun.Spent > 0 {
				continue
			}
			if _, twice := got[a.ID]; twice {
				t.Errorf("%s: %s stands twice", s.name, a.ID)
			}
			got[a.ID] = a.Work
		}
		for _, list := range lists {
			for _, w := range list.Work {
				id := string(w.Task) + "/" + string(w.Trade)
				if s.b.Task(w.Task).State != build.Finished && w.Left > 0 && got[id] != schedule.Minute(w.Left) {
					t.Errorf("%s: %s = %d min, want %d", s.name, id, got[id], w.Left)
				}
				if s.b.Task(w.Task).State != build.Finished && w.Left > 0 {
					delete(got, id)
				}
			}
		}
		if len(got) > 0 {
			t.Errorf("%s: labour nobody asked for: %v", s.name, got)
		}
	}
}

// TestPlan_FollowersWait: no task starts before what it comes after is over.
func TestPlan_FollowersWait(t *testing.T) {
	for _, s := range stories(t) {
		p := made(t, &s.b, s.now)
		finish := map[build.TaskID]unit.Moment{}
		for _, x := range p.Tasks {
			finish[x.ID] = x.Finish
		}
		for _, x := range p.Tasks {
			if x.State != build.Finished && x.Finish < x.Start {
				t.Errorf("%s: %s runs from %s to %s", s.name, x.ID, x.Start, x.Finish)
			}
			for _, before := range x.After {
				if x.State == build.NotBegun && x.Start < finish[before] && s.b.Task(before).State != build.Finished {
					t.Errorf("%s: %s starts %s, before %s is over at %s", s.name, x.ID, x.Start, before, finish[before])
				}
			}
		}
	}
}

// TestPlan_Dates changes one fact of the small build at a time.
func TestPlan_Dates(t *testing.T) {
	part := func(f func(*build.Part)) func(*build.Build) {
		return func(b *build.Build) {
			p := build.Part{ID: "Q1", Name: "hinge", Quantity: 1, Lead: 5, Task: "T2", State: build.Wanted}
			f(&p)
			b.Parts = append(b.Parts, p)
		}
	}
	task := func(id build.TaskID, f func(*build.Task)) func(*build.Build) {
		return func(b *build.Build) { f(b.Task(id)) }
	}
	tests := []struct {
		what string
		do   func(*build.Build)
		want string
	}{
		{"as it is", func(*build.Build) {}, "T1 2/08:00 to 3/16:00, T2 4/08:00 to 4/16:00"},
		{"a wait of two working days", task("T1", func(t *build.Task) { t.Wait = 2 }), "T1 2/08:00 to 5/16:00, T2 6/08:00 to 6/16:00"},
		{"a wait over the weekend", task("T1", func(t *build.Task) { t.Wait = 4 }), "T1 2/08:00 to 9/16:00, T2 10/08:00 to 10/16:00"},
		{"handed on within the day", task("T1", func(t *build.Task) { t.Legs[0].Hours = 10 * h }), "T1 2/08:00 to 3/10:00, T2 3/10:00 to 4/10:00"},
		{"handed on, taken up the morning after", func(b *build.Build) { b.Task("T1").Legs[0].Hours, b.Shop.NextMorning = 10*h, true }, "T1 2/08:00 to 4/00:00, T2 4/08:00 to 5/00:00"},
		{"the shop is shut", func(b *build.Build) { b.Closures = []build.Closure{{First: monday + 1, Last: monday + 2}} }, "T1 2/08:00 to 5/16:00, T2 6/08:00 to 6/16:00"},
		{"Mo is away", func(b *build.Build) { b.Absences = []build.Absence{{Person: "mo", First: monday, Last: monday + 1}} }, "T1 4/08:00 to 5/16:00, T2 6/08:00 to 6/16:00"},
		{"Mo stays longer on Monday", func(b *build.Build) { b.Overtime = []build.Overtime{{Person: "mo", Day: monday, Hours: 4 * h}} }, "T1 2/08:00 to 3/12:00, T2 3/12:00 to 4/12:00"},
		{"Mo comes on Saturday", func(b *build.Build) {
			b.Task("T1").Legs[0].Hours, b.Overtime = 44*h, []build.Overtime{{Person: "mo", Day: monday + 5, Hours: 6 * h}}
		}, "T1 2/08:00 to 7/12:00, T2 9/08:00 to 9/16:00"},
		{"a part is wanted", part(func(*build.Part) {}), "T1 2/08:00 to 3/16:00, T2 9/08:00 to 9/16:00"},
		{"a part is ordered", part(func(p *build.Part) { p.State, p.Ordered = build.Ordered, monday-3 }), "T1 2/08:00 to 3/16:00, T2 6/08:00 to 6/16:00"},
		{"a part is promised", part(func(p *build.Part) { p.State, p.Ordered, p.Promised = build.Promised, monday, monday+3 }), "T1 2/08:00 to 3/16:00, T2 5/08:00 to 5/16:00"},
		{"a promise has passed", part(func(p *build.Part) { p.State, p.Ordered, p.Promised = build.Late, monday-9, monday-2 }), "T1 2/08:00 to 3/16:00, T2 4/08:00 to 4/16:00"},
		{"a part is in", part(func(p *build.Part) { p.State = build.In }), "T1 2/08:00 to 3/16:00, T2 4/08:00 to 4/16:00"},
		{"a part only the end needs", part(func(p *build.Part) { p.AtEnd = true }), "T1 2/08:00 to 3/16:00, T2 4/08:00 to 9/08:00"},
		{"a part for a finding", part(func(p *build.Part) { p.Because = []build.FindingID{"F1"} }), "T1 2/08:00 to 3/16:00, T2 4/08:00 to 9/08:00"},
		{"held", task("T2", func(t *build.Task) { t.NoEarly = monday + 7 }), "T1 2/08:00 to 3/16:00, T2 9/08:00 to 9/16:00"},
		{"held without hours", task("T2", func(t *build.Task) { t.NoEarly, t.Legs, t.Wait = monday+7, nil, 2 }), "T1 2/08:00 to 3/16:00, T2 9/08:00 to 10/16:00"},
		{"a part, and no hours", func(b *build.Build) { part(func(*build.Part) {})(b); b.Task("T2").Legs = nil }, "T1 2/08:00 to 3/16:00, T2 9/08:00 to 9/08:00"},
		{"sublet for four days", func(b *build.Build) { b.Sublets = []build.Sublet{{Task: "T1", Days: 4}} }, "T1 2/08:00 to 5/16:00, T2 6/08:00 to 6/16:00"},
		{"side by side", task("T2", func(t *build.Task) { t.After = nil }), "T1 2/08:00 to 3/16:00, T2 2/08:00 to 2/16:00"},
		{"a bay holds one", func(b *build.Build) { b.Task("T2").After, b.Task("T1").Bay, b.Task("T2").Bay = nil, "bay", "bay" }, "T1 2/08:00 to 3/16:00, T2 4/08:00 to 4/16:00"},
		{"a bay holds two", func(b *build.Build) {
			b.Task("T2").After, b.Task("T1").Bay, b.Task("T2").Bay, b.Bays[0].Units = nil, "bay", "bay", 2
		}, "T1 2/08:00 to 3/16:00, T2 2/08:00 to 2/16:00"},
		{"the bay is held by the trade with most to do", func(b *build.Build) {
			b.Task("T2").After, b.Task("T1").Bay, b.Task("T2").Bay = nil, "bay", "bay"
			b.Task("T1").Legs = append(b.Task("T1").Legs, build.Leg{Trade: "WA", Hours: 4 * h})
		}, "T1 2/08:00 to 3/16:00, T2 4/08:00 to 4/16:00"},
		{"work goes to whoever knows the trade", func(b *build.Build) { b.People[0].Trades = nil }, "T1 2/08:00 to 3/16:00, T2 4/08:00 to 4/16:00"},
		{"hours lent", func(b *build.Build) {
			b.Moves = []build.Move{{Task: "T1", From: "MW", To: "WA", Hours: 8 * h}}
		}, "T1 2/08:00 to 2/16:00, T2 3/08:00 to 3/16:00"},
		{"a reserve is in the odds, not in the plain plan", func(b *build.Build) {
			b.Task("T1").Legs[0].Hours = 15 * h
			b.Risk.Reserve = []build.Reserve{{Task: "T1", Trade: "MW", Hours: build.Span{Low: 10, Mode: 20, High: 30}}}
		}, "T1 2/08:00 to 3/15:00, T2 3/15:00 to 4/15:00"},
	}
	for _, tt := range tests {
		b := small()
		tt.do(b)
		if got := days(made(t, b, monday.At(8, 0))); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.what, got, tt.want)
		}
	}
}

// TestPlan_UnderWay looks at waits, turn-rounds and sublets that have begun, on
// Wednesday 4 March at noon.
func TestPlan_UnderWay(t *testing.T) {
	begun := func(b *build.Build, day unit.Date, days int) *build.Task {
		x := b.Task("T1")
		x.State, x.Began, x.Legs, x.Wait = build.Begun, day, nil, days
		return x
	}
	load := func(b *build.Build, o build.Outwork) *build.Task {
		x := begun(b, o.Sent, 5)
		o.ID, o.Task = "O1", "T1"
		b.Outwork, x.Outwork, x.Stage = []build.Outwork{o}, "O1", "away"
		return x
	}
	tests := []struct {
		what string
		do   func(*build.Build)
		want string // the moment at which T1 is over
	}{
		{"a wait since Monday's hours", func(b *build.Build) { begun(b, monday, 4) }, "2026-03-06T16:00"},
		{"a wait that began today", func(b *build.Build) { begun(b, monday+2, 1) }, "2026-03-05T12:00"},
		{"a wait since the last hours booked", func(b *build.Build) {
			begun(b, monday-4, 2).Legs = []build.Leg{{Trade: "MW", Hours: 2 * h}}
			b.Hours = []build.Hours{{ID: "1", Person: "mo", Task: "T1", Start: monday.At(9, 0), Worked: 2 * h}}
		}, "2026-03-04T16:00"},
		{"a wait that is over", func(b *build.Build) { begun(b, monday-7, 2) }, "2026-03-04T12:00"},
		{"a wait after hours still to do", func(b *build.Build) { begun(b, monday, 1).Legs = []build.Leg{{Trade: "MW", Hours: 4 * h}} }, "2026-03-05T16:00"},
		{"sent first thing on Monday", func(b *build.Build) { load(b, build.Outwork{State: build.Away, Sent: monday}) }, "2026-03-06T16:00"},
		{"driven out on Monday", func(b *build.Build) {
			load(b, build.Outwork{State: build.Away, Sent: monday}).Legs = []build.Leg{{Trade: "MW", Hours: h}}
			b.Hours = []build.Hours{{ID: "1", Person: "mo", Task: "T1", Start: monday.At(9, 0), Worked: h}}
		}, "2026-03-09T16:00"},
		{"driven out on Monday, with an hour that nobody booked", func(b *build.Build) {
			load(b, build.Outwork{State: build.Away, Sent: monday}).Legs = []build.Leg{{Trade: "MW", Hours: h}}
		}, "2026-03-10T09:00"},
		{"likely longer, as last heard", func(b *build.Build) { load(b, build.Outwork{State: build.Chased, Sent: monday, Likely: 8}) }, "2026-03-11T16:00"},
		{"back, though nobody has ended the task", func(b *build.Build) {
			load(b, build.Outwork{State: build.Back, Sent: monday, Returned: monday + 1})
		}, "2026-03-04T12:00"},
		{"sublet on Monday for four days", func(b *build.Build) {
			begun(b, monday, 0)
			b.Sublets = []build.Sublet{{Task: "T1", Days: 4}}
		}, "2026-03-06T16:00"},
		{"sublet long ago", func(b *build.Build) {
			begun(b, monday-14, 0)
			b.Sublets = []build.Sublet{{Task: "T1", Days: 4}}
		}, "2026-03-04T12:00"},
	}
	for _, tt := range tests {
		b := small()
		tt.do(b)
		if got := made(t, b, (monday+2).At(12, 0)).Tasks[0].Finish.String(); got != tt.want {
			t.Errorf("%s: over at %s, want %s", tt.what, got, tt.want)
		}
	}
}

func TestPlan_ReserveMovesTheOdds(t *testing.T) {
	b := small()
	plain := made(t, b, monday.At(8, 0)).Dates.P50
	reserve := func(since string, low float64) build.Reserve {
		return build.Reserve{Task: "T1", Trade: "MW", Since: since, Hours: build.Span{Low: low, Mode: low + 2, High: low + 4}}
	}
	b.Risk.Reserve = []build.Reserve{reserve("", 60), reserve("blast", 12)}
	before := made(t, b, monday.At(8, 0)).Dates.P50
	b.Tasks[0].Findings = true
	b.Findings = []build.Finding{{ID: "F1", Found: "blast", Task: "T1", Work: []build.Leg{{Trade: "MW", Hours: 62 * h}}}}
	b.Tasks[0].Legs[0].Hours = 78 * h
	after := network(b, takeOffs(b, rates.Default()), nil, monday.At(8, 0))
	if before <= plain+7 {
		t.Errorf("half by %s without a reserve, by %s with 60 h and more, want more than a week between", plain, before)
	}
	r, ok := after.reserve("T1")
	if !ok || r.Hours.Mode != 14 {
		t.Errorf("reserve after as many hours were found as the first one kept = %+v, want the second", r)
	}
}
