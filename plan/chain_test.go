package plan

import (
	"slices"
	"testing"

	"fettle/build"
)

// TestChain_EndsAtTheLastFinish: the chain runs forward in time without a
// gap that is not explained, from now or a fact to the plain date.
func TestChain_EndsAtTheLastFinish(t *testing.T) {
	for _, s := range stories(t) {
		p := made(t, &s.b, s.now)
		if len(p.Chain) == 0 {
			if !slices.ContainsFunc(p.Tasks, func(x Task) bool { return x.State != build.Finished }) {
				continue
			}
			t.Errorf("%s: no chain", s.name)
			continue
		}
		last := p.Chain[len(p.Chain)-1]
		if end := last.Finish - 1; end.Date() != p.Dates.Plain {
			t.Errorf("%s: the chain ends with %s on %s, the plan on %s", s.name, last.Task, end.Date(), p.Dates.Plain)
		}
		for i, step := range p.Chain {
			if step.Why == "" || step.What == "" || step.Name != s.b.Task(step.Task).Name || step.Finish < step.Start {
				t.Errorf("%s: step %d = %+v", s.name, i+1, step)
			}
			if i == 0 {
				if step.Start > s.now && step.Why != "first working hour" && step.Why != "nothing holds it: begins now" && step.Why[:5] != "waits" {
					t.Errorf("%s: the chain begins at %s with %q", s.name, step.Start, step.Why)
				}
				continue
			}
			if before := p.Chain[i-1]; step.Start < before.Start {
				t.Errorf("%s: %s at %s follows %s at %s", s.name, step.Task, step.Start, before.Task, before.Start)
			}
		}
	}
}

// TestChain_Why: each reason for a start in turn.
func TestChain_Why(t *testing.T) {
	tests := []struct {
		what string
		do   func(*build.Build)
		want []string // what and why of each step
	}{
		{"one after the other", func(*build.Build) {}, []string{"T1 Mo, 16 h: nothing holds it: begins now", "T2 Wyn, 8 h: after T1 sides"}},
		{"a wait", func(b *build.Build) { b.Task("T1").Wait = 2 }, []string{"T1 Mo, 16 h: nothing holds it: begins now",
			"T1 2 working days of waiting: after T1 sides", "T2 Wyn, 8 h: after T1 sides"}},
		{"a part", func(b *build.Build) {
			b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Lead: 5, Task: "T2", State: build.Wanted}}
		}, []string{"T2 Wyn, 8 h: waits for parts, or is held until 9 Mar 2026"}},
		{"a person", func(b *build.Build) { b.Task("T2").After, b.Task("T2").Legs[0].Trade = nil, "MW" }, []string{
			"T1 Mo, 16 h: nothing holds it: begins now", "T2 Mo, 8 h: Mo was on T1 sides"}},
		{"a bay", func(b *build.Build) {
			b.Task("T2").After, b.Task("T1").Bay, b.Task("T2").Bay = nil, "bay", "bay"
			b.Task("T1").Legs[0].Hours = 4 * h
		}, []string{"T1 Mo, 4 h: nothing holds it: begins now", "T2 Wyn, 8 h: Bay was full with T1 sides"}},
		{"off hours first", func(b *build.Build) {
			b.Absences = []build.Absence{{Person: "mo", First: monday, Last: monday}}
		}, []string{"T1 Mo, 16 h: first working hour", "T2 Wyn, 8 h: after T1 sides"}},
		{"a part only the end needs", func(b *build.Build) {
			b.Parts = []build.Part{{ID: "Q1", Name: "hinge", Quantity: 1, Lead: 5, Task: "T2", AtEnd: true, State: build.Wanted}}
		}, []string{"T2 ready: waits for parts, or is held until 9 Mar 2026"}},
	}
	for _, tt := range tests {
		b := small()
		tt.do(b)
		var got []string
		for _, s := range made(t, b, monday.At(8, 0)).Chain {
			got = append(got, string(s.Task)+" "+s.What+": "+s.Why)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.what, got, tt.want)
		}
	}
}

func TestMovers(t *testing.T) {
	b := tight()
	b.Tasks = append(b.Tasks, build.Task{ID: "T3", Name: "sweep", Stage: "book", Legs: []build.Leg{{Trade: "WA", Hours: h}}, State: build.NotBegun})
	p := made(t, b, monday.At(8, 0))
	if len(p.Movers) != 1 || p.Movers[0].Task != "T1" {
		t.Fatalf("movers = %+v, want the metal alone: the rest cannot run over", p.Movers)
	}
	// 120 h are 15 days of Mo's; at the high end, 1.2, they run 3 days over.
	if got, want := p.Movers[0].Says, "sets the date in 100 of 100 builds; may run its hours over by up to 3 days"; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
	for _, s := range stories(t) {
		p := made(t, &s.b, s.now)
		if len(p.Movers) > 3 {
			t.Errorf("%s: %d movers, want at most 3", s.name, len(p.Movers))
		}
		for _, m := range p.Movers {
			if m.Part <= 0 || m.Part > 1 || s.b.Task(m.Task).State == build.Finished {
				t.Errorf("%s: mover %+v", s.name, m)
			}
		}
	}
}
