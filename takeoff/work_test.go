package takeoff_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"fettle/build"
	"fettle/takeoff"
	"fettle/unit"
)

const h = unit.Hour

var day = unit.Day(2026, time.March, 2)

func leg(trade build.TradeID, hours unit.Effort) build.Leg {
	return build.Leg{Trade: trade, Hours: hours}
}

// shop is a build with a sweep, a metal task whose hours are those of its
// findings, guessed at MW 10 and WA 2, and a task of fixed hours.
func shop() *build.Build {
	return &build.Build{
		Currency: unit.Currency{Code: "GBP", Symbol: "£"},
		People: []build.Person{
			{ID: "mo", Trades: []build.TradeID{"MW"}}, {ID: "wyn", Trades: []build.TradeID{"WA", "MW"}}, {ID: "lee", Helps: true},
		},
		Tasks: []build.Task{
			{ID: "T1", Name: "sweep", Stage: "metal", State: build.NotBegun},
			{ID: "T2", Name: "sides", Stage: "metal", Findings: true, Guess: "T1", Legs: []build.Leg{leg("MW", 10*h), leg("WA", 2*h)}, Caution: []string{"brace first"}},
			{ID: "T3", Name: "fit", Stage: "assembly", Legs: []build.Leg{leg("WA", 10*h)}},
		},
		Findings: []build.Finding{
			{ID: "F1", What: "lace", Task: "T2", State: build.Settled, Work: []build.Leg{leg("MW", 6*h)}},
			{ID: "F2", What: "rot", Task: "T2", State: build.Settled, Work: []build.Leg{leg("MW", 14*h), leg("LD", h)}},
			{ID: "F3", What: "dent", Task: "T3", State: build.Seen},
		},
	}
}

func hours(person build.PersonID, task build.TaskID, f build.FindingID, worked unit.Effort) build.Hours {
	return build.Hours{ID: fmt.Sprint(person, task, f, worked), Person: person, Task: task, Finding: f, Start: day.At(8, 0), Worked: worked}
}

// planned and left write the lines of a task, such as "MW 10 h, WA 2 h".
func planned(b *build.Build, id build.TaskID) string {
	return lines(b, id, func(w takeoff.Work) unit.Effort { return w.Planned })
}

func left(b *build.Build, id build.TaskID) string {
	return lines(b, id, func(w takeoff.Work) unit.Effort { return w.Left })
}

func lines(b *build.Build, id build.TaskID, of func(takeoff.Work) unit.Effort) string {
	text := ""
	for _, w := range takeoff.Of(b, b.Task(id).Stage).Work {
		if w.Task == id {
			text += fmt.Sprintf("%s %s, ", w.Trade, of(w))
		}
	}
	return text[:max(len(text)-2, 0)]
}

func TestPlanned(t *testing.T) {
	sublet := func(legs ...build.Leg) func(*build.Build) {
		return func(b *build.Build) { b.Sublets = append(b.Sublets, build.Sublet{Task: "T3", Legs: legs}) }
	}
	move := func(hours unit.Effort) func(*build.Build) {
		return func(b *build.Build) {
			b.Moves = append(b.Moves, build.Move{Task: "T3", From: "WA", To: "MW", Hours: hours}, build.Move{Task: "T1", From: "WA", To: "MW", Hours: h})
		}
	}
	tests := []struct {
		what string
		task build.TaskID
		do   func(*build.Build)
		want string
	}{
		{"no trade below the guess while it stands", "T2", func(*build.Build) {}, "MW 20 h, WA 2 h, LD 1 h"},
		{"the guess alone without findings", "T2", func(b *build.Build) { b.Findings = nil }, "MW 10 h, WA 2 h"},
		{"the findings alone once the sweep is finished", "T2", func(b *build.Build) { b.Task("T1").State = build.Finished }, "MW 20 h, WA 0 h, LD 1 h"},
		{"a guess that no task ends stands for good", "T2", func(b *build.Build) { b.Task("T2").Guess = "" }, "MW 20 h, WA 2 h, LD 1 h"},
		{"own hours, whatever is found", "T3", func(*build.Build) {}, "WA 10 h"},
		{"hours moved to another trade", "T3", move(4 * h), "WA 6 h, MW 4 h"},
		{"no more is moved than there is", "T3", move(40 * h), "WA 0 h, MW 10 h"},
		{"less what is sublet", "T3", sublet(leg("WA", 3*h)), "WA 7 h"},
		{"no more is sublet than there is", "T3", sublet(leg("WA", 30*h), leg("LD", h)), "WA 0 h, LD 0 h"},
		{"with paint done again", "T3", func(b *build.Build) {
			b.Redos = []build.Redo{{Task: "T3", Work: []build.Leg{leg("WA", 2*h), leg("WA", h), leg("MW", h)}}, {Task: "T1", Work: []build.Leg{leg("WA", h)}}}
		}, "WA 13 h, MW 1 h"},
		{"first moved, then sublet", "T3", func(b *build.Build) { move(4 * h)(b); sublet(leg("MW", h), leg("WA", h))(b) }, "WA 5 h, MW 3 h"},
		{"a trade nobody planned but somebody needs", "T3", func(b *build.Build) {
			b.Task("T3").LeftSaid, b.Task("T3").Left = true, []build.Leg{leg("MW", 2*h)}
		}, "WA 10 h, MW 0 h"},
	}
	for _, tt := range tests {
		b := shop()
		tt.do(b)
		if got := planned(b, tt.task); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.what, got, tt.want)
		}
	}
}

func TestPlanned_LeavesTheBuildAsItWas(t *testing.T) {
	b := shop()
	b.Moves = []build.Move{{Task: "T3", From: "WA", To: "MW", Hours: 4 * h}}
	first := planned(b, "T3")
	if again := planned(b, "T3"); again != first || b.Task("T3").Legs[0].Hours != 10*h {
		t.Errorf("asked twice: %s, then %s; the task now has %v", first, again, b.Task("T3").Legs)
	}
}

func TestLeft(t *testing.T) {
	found := func(b *build.Build) { b.Task("T1").State = build.Finished }
	book := func(list ...build.Hours) func(*build.Build) {
		return func(b *build.Build) { b.Hours = append(b.Hours, list...) }
	}
	shut := func(id build.FindingID) func(*build.Build) {
		return func(b *build.Build) { b.Finding(id).State = build.Closed }
	}
	tests := []struct {
		what string
		task build.TaskID
		do   []func(*build.Build)
		want string
	}{
		{"nothing booked", "T3", nil, "WA 10 h"},
		{"less what is booked", "T3", []func(*build.Build){book(hours("wyn", "T3", "", 4*h))}, "WA 6 h"},
		{"never below nothing", "T3", []func(*build.Build){book(hours("wyn", "T3", "", 14*h))}, "WA 0 h"},
		{"booked by another trade", "T3", []func(*build.Build){book(hours("mo", "T3", "", 4*h))}, "WA 10 h"},
		{"booked by a helper of no trade", "T3", []func(*build.Build){book(hours("lee", "T3", "", 4*h))}, "WA 10 h"},
		{"booked on another task", "T3", []func(*build.Build){book(hours("wyn", "T2", "", 4*h))}, "WA 10 h"},
		{"finished", "T3", []func(*build.Build){func(b *build.Build) { b.Task("T3").State = build.Finished }}, "WA 0 h"},
		{"as somebody said", "T3", []func(*build.Build){book(hours("wyn", "T3", "", 4*h)), func(b *build.Build) {
			b.Task("T3").LeftSaid, b.Task("T3").Left = true, []build.Leg{leg("WA", 9*h), leg("MW", h)}
		}}, "WA 9 h, MW 1 h"},
		{"said to be nothing", "T3", []func(*build.Build){func(b *build.Build) { b.Task("T3").LeftSaid = true }}, "WA 0 h"},
		{"findings, nothing booked", "T2", []func(*build.Build){found}, "MW 20 h, WA 0 h, LD 1 h"},
		{"findings, booked before anything is closed", "T2", []func(*build.Build){found, book(hours("mo", "T2", "F1", 2*h), hours("mo", "T2", "", h))}, "MW 17 h, WA 0 h, LD 1 h"},
		{"a closed finding is done, however long it took", "T2", []func(*build.Build){found, shut("F1"), book(hours("mo", "T2", "F1", 9*h))}, "MW 14 h, WA 0 h, LD 1 h"},
		{"hours in open findings count beside closed ones", "T2", []func(*build.Build){found, shut("F1"), book(hours("mo", "T2", "F1", 9*h), hours("mo", "T2", "F2", 5*h))}, "MW 9 h, WA 0 h, LD 1 h"},
		{"all closed", "T2", []func(*build.Build){found, shut("F1"), shut("F2")}, "MW 0 h, WA 0 h, LD 0 h"},
		{"at the pace shown so far", "T2", []func(*build.Build){found, shut("F1"), func(b *build.Build) { b.Finding("F1").Work[0].Hours = 16 * h }, book(hours("mo", "T2", "F1", 20*h))}, "MW 17.5 h, WA 0 h, LD 1.25 h"},
	}
	for _, tt := range tests {
		b := shop()
		for _, do := range tt.do {
			do(b)
		}
		if got := left(b, tt.task); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.what, got, tt.want)
		}
	}
}

// TestPaceOf_SpeaksOnceEnoughIsSignedOff: two days' work and a fifth of all.
func TestPaceOf_SpeaksOnceEnoughIsSignedOff(t *testing.T) {
	tests := []struct {
		what                 string
		signed, open, booked unit.Effort
		inOpen               unit.Effort
		want                 float64
	}{
		{"nothing signed off", 0, 40 * h, 0, 9 * h, 1},
		{"under two days", 15*h + 59, 16 * h, 20 * h, 0, 1},
		{"two days and a fifth", 16 * h, 64 * h, 20 * h, 0, 1.25},
		{"two days but under a fifth", 16 * h, 64*h + 1, 20 * h, 0, 1},
		{"faster than planned", 40 * h, 0, 30 * h, 0, 0.75},
		{"hours in open findings say nothing", 20 * h, 20 * h, 20 * h, 15 * h, 1},
	}
	for _, tt := range tests {
		b := shop()
		b.Task("T2").Legs, b.Task("T2").Guess = nil, ""
		b.Findings = []build.Finding{
			{ID: "F1", Task: "T2", State: build.Closed, Work: []build.Leg{leg("MW", tt.signed)}},
			{ID: "F2", Task: "T2", State: build.CutOut, Work: []build.Leg{leg("MW", tt.open)}},
		}
		b.Hours = []build.Hours{hours("mo", "T2", "F1", tt.booked), hours("mo", "T2", "F2", tt.inOpen)}
		got := takeoff.PaceOf(b, "metal")
		if got.Factor != tt.want || got.Signed != tt.signed || got.Booked != tt.booked || got.Total != tt.signed+tt.open {
			t.Errorf("%s: pace %+v, want × %.2f", tt.what, got, tt.want)
		}
		if one := takeoff.Paces(b, "metal"); len(one) != 1 || one[0].Task != "T2" || one[0].Factor != tt.want {
			t.Errorf("%s: pace by task %+v, want one of T2, × %.2f", tt.what, one, tt.want)
		}
	}
}

func TestWork_SaysWhereItComesFrom(t *testing.T) {
	b := shop()
	list := takeoff.Of(b, "metal")
	w := list.Work[0]
	if !w.FromFindings || !slices.Equal(w.Because, []string{"finding/F1", "finding/F2"}) || !slices.Equal(w.Cautions, []string{"brace first"}) || w.Pace != 1 {
		t.Errorf("line = %+v, want it to name its findings and the caution", w)
	}
	if want := "20 h planned, 0 h booked, 20 h left"; w.Figure.With != want || w.Figure.Text != "20 h" || w.Figure.Caution != "brace first" {
		t.Errorf("working = %q, %q, want %q", w.Figure.With, w.Figure.Text, want)
	}
	var from []string
	for _, in := range w.Figure.Inputs {
		from = append(from, in.Name+" "+in.Value)
	}
	if want := []string{"pace 1.00", "F1 lace 6 h", "F2 rot 14 h"}; !slices.Equal(from, want) {
		t.Errorf("inputs = %q, want %q", from, want)
	}
	b.Task("T3").LeftSaid = true
	if got := takeoff.Of(b, "assembly").Work[0].Figure.Formula; got != "hours left as said by whoever does the work" {
		t.Errorf("formula of hours said = %q", got)
	}
}
