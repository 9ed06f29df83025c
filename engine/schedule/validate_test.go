package schedule

import (
	"context"
	"math"
	"strings"
	"testing"

	"fettle/fault"
)

func TestSolve_NamesTheRule(t *testing.T) {
	cases := []struct {
		name  string
		spoil func(*Problem)
		want  string
	}{
		{"empty window", func(p *Problem) { p.Calendars[0][0].To = p.Calendars[0][0].From }, "calendar 0: schedule rule 1"},
		{"windows out of order", func(p *Problem) { p.Calendars[0][1] = p.Calendars[0][0] }, "calendar 0: schedule rule 1"},
		{"same ID twice", func(p *Problem) { p.Activities[1].ID = "T1" }, "activity 1: schedule rule 2"},
		{"no calendar", func(p *Problem) { p.People[0].Calendar = 9 }, "person A: schedule rule 3"},
		{"unknown person", func(p *Problem) { p.Activities[0].Who = []int{-1} }, "activity T1, who: schedule rule 3"},
		{"unknown factor", func(p *Problem) { p.Activities[0].Factors = []int{0} }, "activity T1, factors: schedule rule 3"},
		{"link to nowhere", func(p *Problem) { p.Links[0].To = 7 }, "link 0: schedule rule 3"},
		{"unknown kind", func(p *Problem) { p.Activities[0].Kind = 9 }, "activity T1, kind or state: schedule rule 3"},
		{"unknown place", func(p *Problem) { p.Activities[0].Uses = []Use{{Place: 3, Units: 1}} }, "activity T1, uses: schedule rule 3"},
		{"lag calendar", func(p *Problem) { p.Links[0].Calendar = 4 }, "link 0 from T1 to T2: schedule rule 3"},
		{"cure calendar", func(p *Problem) { p.Activities[2].Calendar = 4 }, "activity T3, calendar: schedule rule 3"},
		{"negative work", func(p *Problem) { p.Activities[0].Work = -1 }, "activity T1, work or release: schedule rule 4"},
		{"negative lag", func(p *Problem) { p.Links[0].Lag = -5 }, "link 0 from T1 to T2: schedule rule 4"},
		{"now too far", func(p *Problem) { p.Now = limit + 1 }, "now or goal: schedule rule 4"},
		{"nobody", func(p *Problem) { p.Activities[1].Who = nil }, "activity T2, who: schedule rule 5"},
		{"one person twice", func(p *Problem) { p.Activities[1].Who = []int{1, 1} }, "activity T2, who: schedule rule 5"},
		{"no hours", func(p *Problem) { p.Calendars = append(p.Calendars, nil); p.People[1].Calendar = 1 }, "activity T2: schedule rule 6: B"},
		{"no hours left", func(p *Problem) { p.Now = 30 * day }, "activity T1: schedule rule 6: A"},
		{"never together", func(p *Problem) {
			p.Calendars = append(p.Calendars, Calendar{{0, 100}})
			p.People[1].Calendar, p.Activities[0].Who, p.Activities[0].Heads = 1, []int{0, 1}, 2
		}, "activity T1: schedule rule 6: A, B"},
		{"session too long", func(p *Problem) { p.Activities[0].Kind, p.Activities[0].Work = Session, 481 }, "activity T1: schedule rule 7"},
		{"a milestone with work", func(p *Problem) { p.Activities[0].Kind, p.Activities[0].Who = Milestone, nil }, "activity T1, milestone: schedule rule 8"},
		{"a wait with people", func(p *Problem) { p.Activities[2].Who = []int{0} }, "activity T3, who: schedule rule 8"},
		{"too many units", func(p *Problem) {
			p.Places = []Place{{ID: "booth", Units: 1}}
			p.Activities[0].Uses = []Use{{Place: 0, Units: 2}}
		}, "activity T1, uses: schedule rule 9"},
		{"a place twice", func(p *Problem) {
			p.Places = []Place{{ID: "booth", Units: 9}}
			p.Activities[0].Uses = []Use{{0, 1}, {0, 1}}
		}, "activity T1, uses: schedule rule 9"},
		{"a place without units", func(p *Problem) { p.Places = []Place{{ID: "booth"}} }, "place booth: schedule rule 9"},
		{"done in the future", func(p *Problem) { p.Activities[0].State, p.Activities[0].Finish = Done, 1 }, "activity T1, fact: schedule rule 10"},
		{"range upside down", func(p *Problem) { p.Activities[0].Range = Spread{2, 1, 3} }, "activity T1, range: schedule rule 11"},
		{"range not a number", func(p *Problem) { p.Activities[0].Extra = Spread{0, 0, math.NaN()} }, "activity T1, range: schedule rule 11"},
		{"factor range", func(p *Problem) { p.Factors = []Factor{{ID: "f", Range: Spread{-1, 0, 0}}} }, "factor f: schedule rule 11"},
		{"loop", func(p *Problem) { p.Links = append(p.Links, after(1, 2), after(2, 0)) }, "activity T1: schedule rule 12: it waits for itself: T1 > T2 > T3 > T1"},
		{"loop of one", func(p *Problem) { p.Links = append(p.Links, after(1, 1)) }, "activity T2: schedule rule 12: it waits for itself: T2 > T2"},
		{"chance of absence", func(p *Problem) { p.Absence = 1 }, "absence: schedule rule 14"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := shopOf(2, labour("T1", 60, 0), labour("T2", 60, 1), Activity{ID: "T3", Kind: Passive, Work: 10})
			p.Links = []Link{after(0, 1)}
			c.spoil(&p)
			_, err := Solve(context.Background(), p, Options{})
			if fault.KindOf(err) != fault.Invalid || err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
			if _, err := Odds(context.Background(), p, nil, OddsOptions{Runs: 1}); fault.KindOf(err) != fault.Invalid {
				t.Errorf("odds: got %v, want the same fault", err)
			}
		})
	}
}

func TestSolve_BadOrder(t *testing.T) {
	for _, order := range [][]int{{0}, {0, 0}, {0, 2}, {}} {
		p := shopOf(1, labour("a", 1, 0), labour("b", 1, 0))
		_, err := Solve(context.Background(), p, Options{Order: order})
		if err == nil || !strings.Contains(err.Error(), "rule 13") {
			t.Errorf("order %v: got %v, want rule 13", order, err)
		}
	}
}

// Every kind of lie in a result is caught.
func TestCheck_CatchesLies(t *testing.T) {
	cases := []struct {
		name string
		lie  func(*Result)
		want string
	}{
		{"a date too few", func(r *Result) { r.Times = r.Times[:1] }, "1 dates"},
		{"before a link", func(r *Result) { r.Times[1].move(-60) }, "after a it may at"},
		{"in the night", func(r *Result) { r.Times[3].move(-600) }, "before now"},
		{"outside hours", func(r *Result) { r.Times[3].move(600) }, "is off at its start"},
		{"work cut short", func(r *Result) { r.Times[1].Finish-- }, "its work ends"},
		{"somebody else", func(r *Result) { r.Times[1].People = []int{1} }, "may not do it"},
		{"nobody", func(r *Result) { r.Times[1].People = nil }, "0 people for 1 heads"},
		{"two things at once", func(r *Result) { r.Times[3].move(-60) }, "A is still at"},
		{"an overfull place", func(r *Result) { r.Times[2].move(-30) }, "booth holds 2 of 1"},
		{"before its release", func(r *Result) { r.Times[2].move(-90) }, "released at"},
		{"another end", func(r *Result) { r.Makespan++ }, "the makespan is"},
		{"a fact changed", func(r *Result) { r.Times[4].Finish-- }, "it ran from"},
		{"a start changed", func(r *Result) { r.Times[5].Start++ }, "it started at"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := lieProblem()
			res := solved(t, p, Options{})
			c.lie(&res)
			if err := Check(p, res); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

func (t *Timing) move(by Minute) { t.Start, t.Resume, t.Finish = t.Start+by, t.Resume+by, t.Finish+by }

func lieProblem() Problem {
	p := shopOf(2, labour("a", 120, 0), labour("b", 120, 0), Activity{ID: "booth time", Kind: Session, Work: 60, Who: []int{1}},
		labour("c", 60, 0), labour("done", 60, 0), labour("begun", 30, 1))
	p.Places = []Place{{ID: "booth", Units: 1}}
	p.Now = clockTime(0, 8, 0)
	p.Activities[1].Uses, p.Activities[2].Uses = []Use{{0, 1}}, []Use{{0, 1}}
	p.Activities[2].Release = clockTime(0, 11, 0)
	p.Links = []Link{after(0, 1)}
	p.Activities[4].State, p.Activities[4].Finish = Done, 100
	p.Activities[5].State, p.Activities[5].Start = Started, 50
	return p
}
