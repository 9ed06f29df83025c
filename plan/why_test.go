package plan

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"fettle/build"
	"fettle/rates"
	"fettle/unit"
)

func whyNot(t testing.TB, b *build.Build, now unit.Moment, by unit.Date) *WhyNot {
	t.Helper()
	o := Options{Now: now, Runs: 60, Seed: 1}
	p, err := Make(context.Background(), b, rates.Learn(*b), o)
	if err != nil {
		t.Fatal(err)
	}
	x, err := Why(context.Background(), b, rates.Learn(*b), p, o, by)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// said writes the lines of a clash, with the hours and the day of each order.
func said(x *WhyNot) string {
	var list []string
	for _, l := range x.Clash {
		text := l.Kind + ": " + l.Head + ". " + l.Says
		if l.Kind == "order" {
			text += fmt.Sprintf("%v %s, %d days, over +%d", l.Steps, l.Hours, l.Waits, l.Done-monday)
		}
		list = append(list, text)
	}
	return strings.Join(list, "\n")
}

func TestWhy_Small(t *testing.T) {
	waits, late, begun, fewer, done := small(), small(), small(), small(), small()
	waits.Task("T1").Wait = 12
	late.Task("T1").NoEarly = monday + 7
	begun.Task("T1").State, begun.Task("T1").Began = build.Begun, monday-3
	fewer.Tasks = fewer.Tasks[:1]
	fewer.Tasks[0].Legs[0].Hours = 100 * h
	fewer.Absences = []build.Absence{{Person: "mo", First: monday + 2, Last: monday + 4, Why: "a wedding"}}
	for i := range done.Tasks {
		done.Tasks[i].State, done.Tasks[i].Began, done.Tasks[i].Ended = build.Finished, monday-3, monday-2
	}
	for _, c := range []struct {
		name    string
		b       *build.Build
		by      unit.Date
		verdict Verdict
		days    int
		clash   string
	}{
		{"promised", small(), monday + 11, DayMet, 7, ""},
		{"the day itself", small(), monday + 2, DayMet, 0, ""},
		{"a day sooner", small(), monday + 1, DayRuled, -1, "order: Metal. [[T1]] 16 h, 0 days, over +1\norder: Assembly. [[T2]] 8 h, 0 days, over +2\n" +
			"hours: Nobody works more than their own hours. Mo 40 h a week; Wyn 40 h a week"},
		{"gone by", small(), monday - 1, DayPast, -3, ""},
		{"a wait", waits, monday + 7, DayRuled, -9, "work: Too long by itself. T1 sides waits 12 working days\nhabit: How the shop works. Waits count working days only"},
		{"a hold", late, monday + 6, DayRuled, -3, "parts: Parts and holds. T1 sides not before Mon 9 Mar 2026, as it is held"},
		{"away", fewer, monday + 11, DayRuled, -6, "work: Too long by itself. T1 sides needs 100 h of Mo\nhours: Nobody works more than their own hours. Mo 40 h a week\n" +
			"away: Days without work. Mo is away Wed 4 Mar to Fri 6 Mar 2026 (a wedding)"},
		{"nothing left", done, monday, DayOver, 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			x := whyNot(t, c.b, monday.At(8, 0), c.by)
			if x.Verdict != c.verdict || x.Days != c.days || said(x) != c.clash {
				t.Errorf("%s, %d days\n%s\n%s\nwant %s, %d days\n%s", x.Verdict, x.Days, x.Says, said(x), c.verdict, c.days, c.clash)
			}
			if x.Says == "" || x.By != c.by || c.verdict != DayOver && (x.Margin.With == "" || len(x.Helps)+x.Idle == 0) {
				t.Errorf("%+v", x)
			}
		})
	}
}

// What is offered stands with its price among what nobody has offered.
func TestWhy_HelpsOfTight(t *testing.T) {
	b := tight()
	x := whyNot(t, b, monday.At(8, 0), b.Promise.Ready)
	got := map[string]Help{}
	for _, h := range x.Helps {
		got[h.Name] = h
	}
	longer, offered := got["Mo: an hour longer every day"], got["Sublet 20 h of doors"]
	if longer.Won != 1 || longer.Offered || longer.Most < 1 || !strings.Contains(fmt.Sprint(longer.Figure.Inputs), "£45") {
		t.Errorf("an hour longer: %+v", longer)
	}
	if !offered.Offered || offered.Price != 400_00 || offered.Won == 0 || !strings.Contains(fmt.Sprint(offered.Figure.Inputs), "£400") {
		t.Errorf("the offer: %+v", offered)
	}
}

// An answer holds together on any day of both demo builds, and is the same again.
func TestWhy_AnyStory(t *testing.T) {
	for _, s := range stories(t) {
		t.Run(s.name, func(t *testing.T) {
			p := made(t, &s.b, s.now)
			for _, by := range []unit.Date{p.Bound - 1, p.Dates.Plain, s.b.Promise.Ready} {
				x := whyNot(t, &s.b, s.now, by)
				if met := x.Plain <= by && x.Verdict != DayOver; met != (x.Verdict == DayMet) {
					t.Errorf("by %s: %s, and the plan ends on %s", by, x.Verdict, x.Plain)
				}
				x.holds(t)
				if again := whyNot(t, &s.b, s.now, by); !reflect.DeepEqual(again, x) {
					t.Errorf("by %s: two answers to one question", by)
				}
			}
		})
	}
}

// holds checks what every answer has to keep.
func (x *WhyNot) holds(t *testing.T) {
	t.Helper()
	if x.Verdict == DayRuled && (x.Best <= x.By || len(x.Clash) == 0) {
		t.Errorf("by %s: ruled out, and a plan ends on %s; %d lines", x.By, x.Best, len(x.Clash))
	}
	facts, over := 1, unit.Date(0) // the day itself is a fact
	for _, l := range x.Clash {
		facts += l.Facts
		over = max(over, l.Done)
		if l.Hours+unit.Effort(l.Waits) > 0 && (l.Figure.With == "" || len(l.Figure.Inputs) == 0) {
			t.Errorf("%s has no working", l.Head)
		}
	}
	if x.Facts > 0 && facts != x.Facts || len(x.Clash) > 10 {
		t.Errorf("by %s: %d facts in %d lines, want %d in ten at most", x.By, facts, len(x.Clash), x.Facts)
	}
	if over != 0 && over <= x.By {
		t.Errorf("by %s: what clashes is over on %s when planned alone", x.By, over)
	}
	for _, h := range x.Helps {
		if h.Won < 0 || h.Most < h.Won || h.Ready < 0 || h.Ready > 1 || h.Figure.With == "" || h.Price != 0 && !h.Offered {
			t.Errorf("by %s: %+v", x.By, h)
		}
	}
}
