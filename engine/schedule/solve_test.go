package schedule

import (
	"context"
	"slices"
	"testing"
)

// week is five eight-hour days, twice, from 08:00 on day 0.
func week() Calendar { return weekdays(480, 14) }

// shopOf is a problem with one working week and so many people in it.
func shopOf(people int, activities ...Activity) Problem {
	p := Problem{Calendars: []Calendar{week()}, Activities: activities}
	for i := range people {
		p.People = append(p.People, Person{ID: string(rune('A' + i))})
	}
	return p
}

func labour(id string, work Minute, who ...int) Activity {
	return Activity{ID: id, Group: id, Kind: Labour, Work: work, Who: who}
}

func after(from, to int) Link { return Link{From: from, To: to, Calendar: -1} }

// clockTime is day d at h:m.
func clockTime(d, h, m Minute) Minute { return d*day + h*60 + m }

func solved(t *testing.T, p Problem, o Options) Result {
	t.Helper()
	res, err := Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// Closed forms: each can be worked out on paper.
func TestSolve_ByHand(t *testing.T) {
	noon := clockTime(0, 12, 0)
	cases := []struct {
		name    string
		problem Problem
		finish  []Minute
	}{
		{"work spans a night", shopOf(1, labour("a", 600, 0)), []Minute{clockTime(1, 10, 0)}},
		{"work spans the days off", shopOf(1, labour("a", 5*480+60, 0)), []Minute{clockTime(7, 9, 0)}},
		{"earlier in the list wins a person", shopOf(1, labour("a", 240, 0), labour("b", 240, 0)),
			[]Minute{noon, clockTime(0, 16, 0)}},
		{"two people share the work", shopOf(2, labour("a", 240, 0, 1), labour("b", 240, 0, 1)), []Minute{noon, noon}},
		{"two heads begin together", func() Problem {
			p := shopOf(2, labour("a", 120, 0), Activity{ID: "b", Kind: Labour, Work: 60, Who: []int{0, 1}, Heads: 2})
			return p
		}(), []Minute{clockTime(0, 10, 0), clockTime(0, 11, 0)}},
		{"a cure counts nights, working days do not", func() Problem {
			p := shopOf(1, labour("a", 480, 0), Activity{ID: "cure", Kind: Passive, Work: day, Calendar: -1},
				Activity{ID: "away", Kind: Passive, Work: 480, Calendar: 0})
			p.Links = []Link{after(0, 1), {From: 0, To: 2, Lag: 480, Calendar: 0}}
			return p
		}(), []Minute{clockTime(0, 16, 0), clockTime(1, 16, 0), clockTime(2, 16, 0)}},
		{"a lag from the start", func() Problem {
			p := shopOf(2, labour("a", 480, 0), labour("b", 60, 1))
			p.Links = []Link{{From: 0, To: 1, Lag: 60, Calendar: -1, FromStart: true}}
			return p
		}(), []Minute{clockTime(0, 16, 0), clockTime(0, 10, 0)}},
		{"a session waits for a day that holds it", shopOf(1, labour("a", 300, 0),
			Activity{ID: "s", Kind: Session, Work: 240, Who: []int{0}}),
			[]Minute{clockTime(0, 13, 0), clockTime(1, 12, 0)}},
		{"a place holds one at a time, nights too", func() Problem {
			p := shopOf(2, labour("a", 600, 0), labour("b", 60, 1))
			p.Places = []Place{{ID: "booth", Units: 1}}
			p.Activities[0].Uses, p.Activities[1].Uses = []Use{{0, 1}}, []Use{{0, 1}}
			return p
		}(), []Minute{clockTime(1, 10, 0), clockTime(1, 11, 0)}},
		{"a late part", func() Problem {
			p := shopOf(1, labour("a", 60, 0))
			p.Activities[0].Release = clockTime(2, 9, 0)
			return p
		}(), []Minute{clockTime(2, 10, 0)}},
		{"a pin keeps its person free", func() Problem {
			p := shopOf(1, labour("long", 300, 0), labour("pinned", 60, 0), labour("short", 120, 0))
			p.Activities[1].Pinned, p.Activities[1].Release = true, clockTime(0, 10, 0)
			return p
		}(), []Minute{clockTime(0, 16, 0), clockTime(0, 11, 0), clockTime(0, 10, 0)}},
		{"facts stay", func() Problem {
			p := shopOf(1, labour("done", 60, 0), labour("begun", 60, 0), labour("open", 60, 0))
			p.Now = clockTime(0, 14, 0)
			p.Activities[0].State, p.Activities[0].Start, p.Activities[0].Finish = Done, clockTime(0, 8, 0), clockTime(0, 13, 0)
			p.Activities[1].State, p.Activities[1].Start = Started, clockTime(0, 9, 0)
			p.Links = []Link{after(2, 1)}
			return p
		}(), []Minute{clockTime(0, 13, 0), clockTime(0, 15, 0), clockTime(0, 16, 0)}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			res := solved(t, c.problem, Options{})
			for j, want := range c.finish {
				if got := res.Times[j].Finish; got != want {
					t.Errorf("%s finishes %s, want %s", c.problem.Activities[j].ID, moment(got), moment(want))
				}
			}
		})
	}
}

// The list order is a trap here: the short chain first leaves the long one late.
func trap() Problem {
	p := shopOf(2, labour("filler", 480, 0), labour("long", 480, 0), labour("tail", 960, 1))
	p.Links = []Link{after(1, 2)}
	return p
}

func TestSolve_ImprovesOnlyWhenAsked(t *testing.T) {
	plain, better := solved(t, trap(), Options{}), solved(t, trap(), Options{Schedules: 50})
	if want := clockTime(3, 16, 0); plain.Makespan != want || plain.Stats.Schedules != 1 {
		t.Errorf("plain: %s in %d schedules, want %s in 1", moment(plain.Makespan), plain.Stats.Schedules, moment(want))
	}
	if want := clockTime(2, 16, 0); better.Makespan != want || better.Status != ProvedBest {
		t.Errorf("improved: %s, status %d; want %s, proved", moment(better.Makespan), better.Status, moment(want))
	}
	again := solved(t, trap(), Options{Order: better.Order})
	if again.Makespan != better.Makespan {
		t.Errorf("its list gives %s, want %s", moment(again.Makespan), moment(better.Makespan))
	}
}

func TestSolve_Goal(t *testing.T) {
	p := trap()
	p.Goal = clockTime(2, 12, 0)
	if got := solved(t, p, Options{}).Lateness; got != day+240 {
		t.Errorf("lateness %d, want a day and four hours", got)
	}
}

// A recoat window of one hour: primed at nine, the painter is away until one.
func TestSolve_RecoatWindow(t *testing.T) {
	p := shopOf(2, labour("prime", 60, 0), labour("other", 300, 1), labour("coat", 60, 1))
	p.Links = []Link{after(0, 2), {From: 0, To: 2, Lag: 60, Calendar: -1, Max: true}}
	res := solved(t, p, Options{})
	if len(res.Overruns) != 0 {
		t.Errorf("overruns %v, want the priming moved", res.Overruns)
	}
	if b := res.Times[0].Binding; b.Cause != ByHold {
		t.Errorf("priming: cause %d, want kept back", b.Cause)
	}
	p.Activities[0].State, p.Activities[0].Start, p.Activities[0].Finish, p.Now = Done, clockTime(0, 7, 0), clockTime(0, 8, 0), clockTime(0, 8, 0)
	res = solved(t, p, Options{})
	if want := (Overrun{Link: 1, By: 240}); len(res.Overruns) != 1 || res.Overruns[0] != want {
		t.Errorf("overruns %v, want %v", res.Overruns, want)
	}
}

func TestSolve_OutOfHours(t *testing.T) {
	p := shopOf(1, labour("a", 11*480, 0), labour("b", 60, 0))
	res := solved(t, p, Options{Schedules: 20})
	if res.Status != OutOfHours || res.Times[0].Finish != Never {
		t.Errorf("status %d, finish %d; want out of hours", res.Status, res.Times[0].Finish)
	}
}

func TestSolve_Interrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	d := newDemo(t, shop{})
	o := Options{Schedules: 1_000_000, Progress: func(done, budget int) {
		if done > 100 {
			cancel()
		}
	}}
	res, err := Solve(ctx, d.Problem, o)
	if err != nil || res.Status != Interrupted {
		t.Errorf("status %d, error %v; want interrupted with a plan", res.Status, err)
	}
}

func TestChain_SaysWhy(t *testing.T) {
	p := shopOf(1, labour("a", 300, 0), labour("b", 240, 0), Activity{ID: "cure", Kind: Passive, Work: 0, Calendar: -1}, labour("c", 60, 0))
	p.Links = []Link{{From: 1, To: 2, Lag: 60, Calendar: -1}, after(2, 3)}
	steps := Chain(p, solved(t, p, Options{}))
	var who []int
	var causes []Cause
	for _, s := range steps {
		who, causes = append(who, s.Activity), append(causes, s.Binding.Cause)
	}
	if want := []int{3, 2, 1, 0}; !slices.Equal(who, want) {
		t.Fatalf("chain %v, want %v", who, want)
	}
	if want := []Cause{ByLink, ByLink, ByPerson, ByCalendar}; !slices.Equal(causes, want) {
		t.Errorf("causes %v, want %v", causes, want)
	}
	if steps[1].Lag != 60 || steps[3].Closed != 480 {
		t.Errorf("lag %d, closed %d; want 60, 480", steps[1].Lag, steps[3].Closed)
	}
}

func TestChain_NamesThePlace(t *testing.T) {
	p := shopOf(2, labour("a", 120, 0), labour("b", 60, 1))
	p.Places = []Place{{ID: "booth", Units: 2}}
	p.Activities[0].Uses, p.Activities[1].Uses = []Use{{0, 2}}, []Use{{0, 1}}
	b := solved(t, p, Options{}).Times[1].Binding
	if want := (Binding{Cause: ByPlace, Activity: 0, Link: -1, Person: -1, Place: 0, At: clockTime(0, 10, 0)}); b != want {
		t.Errorf("binding %+v, want %+v", b, want)
	}
}

// Plain dates of the demo, against the figures it was drawn up with: within
// three working days, in list order.
func TestSolve_DemoDates(t *testing.T) {
	before, d := newDemo(t, shop{}), newDemo(t, shop{after: true})
	was, is := solved(t, before.Problem, Options{}), solved(t, d.Problem, Options{})
	metal := Minute(0)
	for _, task := range []string{"T08", "T09", "T10", "T11"} {
		metal = max(metal, d.over(is, task))
	}
	for _, c := range []struct {
		what string
		got  Minute
		want string
	}{
		{"done, before", was.Makespan, "2027-01-26"}, {"done, after", is.Makespan, "2027-02-05"},
		{"blast back", d.over(is, "T05"), "2026-10-05"}, {"metal done", metal, "2026-11-13"},
		{"trial build", d.over(is, "T12"), "2026-11-19"}, {"body colour", d.over(is, "T18"), "2027-01-12"},
		{"loom powered", d.over(is, "T23"), "2027-01-21"}, {"trim in", d.over(is, "T30"), "2027-02-01"},
		{"sorted", d.over(is, "T31"), "2027-02-04"},
	} {
		off := apart(d, c.got, at(t, c.want+" 12:00"))
		t.Logf("%-13s %s, %d working days from %s", c.what, moment(c.got), off, c.want)
		if off > 3 {
			t.Errorf("%s is %d working days off", c.what, off)
		}
	}
	improved := solved(t, d.Problem, Options{Schedules: 2000})
	t.Logf("with 2,000 schedules: %s; no plan before %s", moment(improved.Makespan), moment(improved.LowerBound))
}
