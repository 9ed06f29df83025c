package lags

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"fettle/fault"
)

// coats is a small booth: three coats that must follow each other within a
// window, and two other jobs that need the same booth.
func coats() Problem {
	return Problem{
		Duration: []int{2, 2, 2, 3, 4},
		Demand:   [][]int{{1}, {1}, {1}, {1}, {1}},
		Capacity: []int{1},
		Lags:     []Lag{{0, 1, 5}, {1, 0, -6}, {1, 2, 5}, {2, 1, -6}},
	}
}

func TestSolve_Verdicts(t *testing.T) {
	tight := coats()
	tight.Lags[1].Min = -4 // the second coat at most 4 after the first, at least 5
	both := Problem{Duration: []int{3, 3}, Demand: [][]int{{1}, {1}}, Capacity: []int{1}, Lags: []Lag{{0, 1, -2}, {1, 0, -2}}}
	greedy := Problem{Duration: []int{1}, Demand: [][]int{{3}}, Capacity: []int{2}}
	// three in four slots, each of three, two at once at most: only search sees it
	three := Problem{Duration: []int{3, 3, 3}, Demand: [][]int{{1}, {1}, {1}}, Capacity: []int{2}}
	for i := range 3 {
		for j := range 3 {
			three.Lags = append(three.Lags, Lag{i, j, -2 * min(1, max(i-j, j-i))})
		}
	}
	cases := []struct {
		name   string
		p      Problem
		status Status
		span   int
		why    Why
	}{
		{"nothing to do", Problem{}, ProvedBest, 0, Why{}},
		{"a milestone needs no room", Problem{Duration: []int{0}, Demand: [][]int{{9}}, Capacity: []int{1}}, ProvedBest, 0, Why{}},
		{"the jobs fit around the coats", coats(), ProvedBest, 13, Why{}},
		{"least above most", tight, Infeasible, 0, Why{Proof: Cycle, Cycle: []int{0, 1}}},
		{"neither order", both, Infeasible, 0, Why{Proof: Clash, Pair: [2]int{0, 1}}},
		{"more than there is", greedy, Infeasible, 0, Why{Proof: Overload, Pair: [2]int{0, 0}}},
		{"three at once", three, Infeasible, 0, Why{Proof: Exhausted}},
	}
	for _, c := range cases {
		r, err := Solve(context.Background(), c.p, Options{Steps: 10000})
		if err != nil {
			t.Fatal(c.name, err)
		}
		slices.Sort(r.Why.Cycle)
		if r.Status != c.status || r.Makespan != c.span || !reflect.DeepEqual(r.Why, c.why) {
			t.Errorf("%s: status %d, makespan %d, why %v; want %d, %d, %v", c.name, r.Status, r.Makespan, r.Why, c.status, c.span, c.why)
		}
	}
}

func TestSolve_NoStepsNoVerdict(t *testing.T) {
	r, err := Solve(context.Background(), coats(), Options{})
	if err != nil || r.Status != Unknown || r.LowerBound != 12 || r.Starts != nil {
		t.Errorf("status %d, bound %d, starts %v, error %v; want %d, 12, none, none", r.Status, r.LowerBound, r.Starts, err, Unknown)
	}
}

func TestSolve_KeepsTheScheduleGiven(t *testing.T) {
	late := []int{0, 6, 12, 20, 30}
	for steps, want := range map[int]Status{0: Feasible, 10000: ProvedBest} {
		r, err := Solve(context.Background(), coats(), Options{Starts: late, Steps: steps})
		if err != nil || r.Status != want {
			t.Errorf("%d steps: status %d, error %v; want %d", steps, r.Status, err, want)
		}
		if steps == 0 && !slices.Equal(r.Starts, late) {
			t.Errorf("starts %v, want those given", r.Starts)
		}
	}
	if r, _ := Solve(context.Background(), coats(), Options{Starts: []int{9, 0, 0, 0, 0}, Steps: 10000}); r.Makespan != 13 {
		t.Errorf("begun from what is no schedule: makespan %d, want 13", r.Makespan)
	}
}

func TestSolve_StopsWithTheContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r, err := Solve(ctx, coats(), Options{Steps: 10000})
	if err != nil || !r.Interrupted || r.Status != Unknown {
		t.Errorf("interrupted %t, status %d, error %v; want true, %d, none", r.Interrupted, r.Status, err, Unknown)
	}
}

func TestSolve_TellsOfEveryBetterSchedule(t *testing.T) {
	var spans []int
	r, _ := Solve(context.Background(), coats(), Options{Steps: 10000, Progress: func(p Progress) { spans = append(spans, p.Makespan) }})
	if len(spans) != r.Stats.Improved || spans[len(spans)-1] != r.Makespan {
		t.Errorf("told of %v; found %d, the best of %d", spans, r.Stats.Improved, r.Makespan)
	}
}

func TestSolve_BadInput(t *testing.T) {
	with := func(change func(*Problem)) Problem {
		p := coats()
		change(&p)
		return p
	}
	cases := []struct {
		name string
		p    Problem
		o    Options
	}{
		{"rows", with(func(p *Problem) { p.Demand = p.Demand[:2] }), Options{}},
		{"columns", with(func(p *Problem) { p.Demand[1] = nil }), Options{}},
		{"capacity", with(func(p *Problem) { p.Capacity[0] = -1 }), Options{}},
		{"duration", with(func(p *Problem) { p.Duration[0] = -1 }), Options{}},
		{"demand", with(func(p *Problem) { p.Demand[0][0] = largest + 1 }), Options{}},
		{"no such activity", with(func(p *Problem) { p.Lags[0].To = 5 }), Options{}},
		{"lag", with(func(p *Problem) { p.Lags[0].Min = largest + 1 }), Options{}},
		{"too long", with(func(p *Problem) {
			p.Duration, p.Demand = slices.Repeat([]int{largest}, 16), slices.Repeat([][]int{{1}}, 16)
		}), Options{}},
		{"steps", coats(), Options{Steps: -1}},
		{"starts", coats(), Options{Starts: []int{1}}},
	}
	for _, c := range cases {
		if _, err := Solve(context.Background(), c.p, c.o); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%s: error %v, want an invalid problem", c.name, err)
		}
	}
}

func TestCheck_RejectsSpoiledSchedules(t *testing.T) {
	p := coats()
	r, err := Solve(context.Background(), p, Options{Steps: 10000})
	if err != nil || Check(p, r.Starts) != nil {
		t.Fatal(err, Check(p, r.Starts))
	}
	spoil := func(i, t int) []int { s := slices.Clone(r.Starts); s[i] = t; return s }
	cases := map[string][]int{
		"too few":        r.Starts[:4],
		"before 0":       spoil(3, -1),
		"booth taken":    spoil(3, r.Starts[4]+1),
		"coat too early": {0, 4, 9, 20, 30},
		"coat too late":  {0, 7, 12, 20, 30},
		"during a coat":  {0, 5, 10, 11, 30},
	}
	for name, starts := range cases {
		if err := Check(p, starts); fault.KindOf(err) != fault.Conflict || err == nil {
			t.Errorf("%s: error %v, want a conflict", name, err)
		}
	}
}

func TestLuby(t *testing.T) {
	var got []int
	for k := range 15 {
		got = append(got, luby(k+1))
	}
	if want := []int{1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
