package schedule

import (
	"context"
	"slices"
	"testing"
)

func TestPrefer_IsWaitedFor(t *testing.T) {
	two := labour("two", 60, 0, 1, 2)
	two.Heads = 2
	crewed := labour("weld", 60, 0, 1, 2)
	crewed.Crew = "welders"
	first := crewed
	first.ID = "tack"
	cases := []struct {
		name   string
		a      []Activity
		prefer []Preference
		j      int
		people []int
		at     Minute
	}{
		{"whoever is free first", []Activity{labour("busy", 120, 1), labour("job", 60, 0, 1)}, nil, 1, []int{0}, clockTime(0, 8, 0)},
		{"or the one who is wanted", []Activity{labour("busy", 120, 1), labour("job", 60, 0, 1)}, []Preference{{1, 1}}, 1, []int{1}, clockTime(0, 10, 0)},
		{"one wanted and one who is free", []Activity{labour("busy", 120, 2), two}, []Preference{{1, 2}}, 1, []int{2, 0}, clockTime(0, 10, 0)},
		{"both wanted", []Activity{labour("busy", 120, 2), two}, []Preference{{1, 1}, {1, 2}}, 1, []int{1, 2}, clockTime(0, 10, 0)},
		{"a crew that has begun stays", []Activity{first, crewed}, []Preference{{0, 2}, {1, 1}}, 1, []int{2}, clockTime(0, 9, 0)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, serial := range []bool{false, true} {
				got := solved(t, shopOf(3, c.a...), Options{Serial: serial, Prefer: c.prefer}).Times[c.j]
				if !slices.Equal(got.People, c.people) || got.Start != c.at {
					t.Errorf("serial %v: %v at %s", serial, got.People, moment(got.Start))
				}
			}
		})
	}
}

func TestPrefer_HoldsABlock(t *testing.T) {
	p := coats(labour("other", 60, 1))
	p.Activities[1].Who, p.Activities[3].Who = []int{0, 1}, []int{0, 1}
	for _, serial := range []bool{false, true} {
		got := solved(t, p, Options{Serial: serial, Prefer: []Preference{{3, 1}}}).Times
		if !slices.Equal(got[3].People, []int{1}) || got[1].Start != clockTime(0, 9, 0) || !slices.Equal(got[1].People, []int{0}) {
			t.Errorf("serial %v: %v at %s, then %v", serial, got[1].People, moment(got[1].Start), got[3].People)
		}
	}
}

func TestPrefer_IsRefused(t *testing.T) {
	p := shopOf(3, labour("job", 60, 0, 1))
	for _, list := range [][]Preference{{{0, 2}}, {{0, 3}}, {{1, 0}}, {{0, 0}, {0, 1}}} {
		if _, err := Solve(context.Background(), p, Options{Prefer: list}); err == nil {
			t.Errorf("Solve takes %v", list)
		}
		if _, err := Odds(context.Background(), p, nil, OddsOptions{Runs: 1, Prefer: list}); err == nil {
			t.Errorf("Odds takes %v", list)
		}
	}
}

// slowest is a job that goes to a half-day hand who is free first, and would be
// over sooner by waiting for the other.
func slowest() Problem {
	p := shopOf(2, labour("busy", 60, 1), labour("job", 360, 0, 1))
	mornings := Calendar{}
	for _, w := range p.Calendars[0] {
		mornings = append(mornings, Window{From: w.From, To: w.From + 120})
	}
	p.Calendars, p.People[0].Calendar = append(p.Calendars, mornings), 1
	return p
}

func TestPrefer_TheSearchWaitsForWhoIsDoneFirst(t *testing.T) {
	p := slowest()
	if got := solved(t, p, Options{}).Makespan; got != clockTime(2, 10, 0) {
		t.Fatalf("the plain plan ends %s", moment(got))
	}
	res := solved(t, p, Options{Schedules: 200})
	if res.Makespan != clockTime(0, 15, 0) || !slices.Equal(res.Prefer, []Preference{{1, 1}}) {
		t.Errorf("done %s, waiting for %v", moment(res.Makespan), res.Prefer)
	}
	if got := solved(t, p, Options{Schedules: 200, Foreman: true}); got.Prefer != nil || got.Makespan != clockTime(2, 10, 0) {
		t.Errorf("a foreman is done %s, waiting for %v", moment(got.Makespan), got.Prefer)
	}
	for _, c := range []struct {
		prefer []Preference
		done   Minute
	}{{nil, clockTime(2, 10, 0)}, {res.Prefer, clockTime(0, 15, 0)}} {
		odds, err := Odds(context.Background(), p, res.Order, OddsOptions{Runs: 10, Prefer: c.prefer})
		if err != nil || odds.Quantile(1) != c.done {
			t.Errorf("waiting for %v the odds end %s, %v", c.prefer, moment(odds.Quantile(1)), err)
		}
	}
}
