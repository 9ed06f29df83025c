package schedule

import (
	"context"
	"testing"
)

// bounds are the longest path, the bound of every plan, and the one a search
// may still raise below high.
func bounds(t testing.TB, p Problem, high Minute, steps int) (path, low, deep Minute) {
	t.Helper()
	n, err := compile(p)
	if err != nil {
		t.Fatal(err)
	}
	f := newFrame(n)
	f.steps = limitless
	f.reset()
	low = lowerBound(newRun(n))
	return f.path(), low, raised(n, low, high, steps)
}

// No bound lies above the earliest finish of any plan.
func TestBound_NeverAboveTheBestPlan(t *testing.T) {
	met, alone, better, deeper, tried := 0, 0, 0, 0, 0
	for seed := range uint64(3000) {
		p := smallProblem(seed, 4)
		if _, err := compile(p); err != nil {
			continue // somebody without hours, a session without a window
		}
		best := exactFinish(p)
		if best >= Never {
			continue // not over within the grid
		}
		path, low, deep := bounds(t, p, best+1, limitless)
		if low > best || deep > best || path > low || low > deep {
			t.Fatalf("seed %d: path %d, bound %d, raised %d, best plan %d", seed, path, low, deep, best)
		}
		tried++
		met += one(deep == best)
		alone += one(path == best)
		better += one(low > path)
		deeper += one(deep > low)
		for steps := 1; steps < 2000; steps *= 3 {
			if _, _, cut := bounds(t, p, best, steps); cut > best {
				t.Fatalf("seed %d: %d steps give %d, best plan %d", seed, steps, cut, best)
			}
		}
	}
	t.Logf("%d problems: the bound met the best plan in %d, the path alone in %d; work weighed against hours raised it in %d, narrowed windows in %d", tried, met, alone, better, deeper)
	if tried < 1500 || better < tried/10 || deeper < tried/20 {
		t.Errorf("%d tried, %d and %d raised: the problems do not ask for these bounds", tried, better, deeper)
	}
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func TestBound_NeverAboveAnyPlan(t *testing.T) {
	gap, was, tried := 0.0, 0.0, 0
	for seed := range uint64(300) {
		p := smallProblem(seed, 14)
		if _, err := compile(p); err != nil {
			continue
		}
		res := solved(t, p, Options{Schedules: 20, Seed: seed})
		path, low, deep := bounds(t, p, res.Makespan, limitless)
		if res.Makespan < Never {
			length := float64(max(1, res.Makespan-p.Now))
			gap, was, tried = gap+100*float64(res.Makespan-deep)/length, was+100*float64(res.Makespan-path)/length, tried+1
		}
		if low > res.Makespan || deep > res.Makespan || res.LowerBound > res.Makespan || res.Gap() < 0 {
			t.Fatalf("seed %d: bounds %d, %d and %d, plan %d", seed, low, deep, res.LowerBound, res.Makespan)
		}
	}
	t.Logf("%d problems of up to 15 activities: the plan is %.1f %% above the raised bound, %.1f %% above the path", tried, gap/float64(tried), was/float64(tried))
}

// Bounds that can be worked out on paper.
func TestBound_ByHand(t *testing.T) {
	noon := clockTime(0, 12, 0)
	cases := []struct {
		name       string
		problem    Problem
		path, want Minute
	}{
		{"one person has it all to do", shopOf(1, labour("a", 480, 0), labour("b", 480, 0), labour("c", 60, 0)),
			clockTime(0, 16, 0), clockTime(2, 9, 0)},
		{"two people share three days of work", shopOf(2, labour("a", 480, 0, 1), labour("b", 480, 0, 1), labour("c", 480, 1, 0)),
			clockTime(0, 16, 0), clockTime(1, 12, 0)},
		{"one person's work, then a cure", func() Problem {
			p := shopOf(1, labour("a", 240, 0), labour("b", 240, 0), Activity{ID: "cure", Kind: Passive, Work: day, Calendar: -1})
			p.Links = []Link{after(0, 2), after(1, 2)}
			return p
		}(), clockTime(1, 12, 0), clockTime(1, 16, 0)},
		{"a booth holds one at a time", func() Problem {
			p := shopOf(2, labour("a", 240, 0), labour("b", 240, 1))
			p.Places = []Place{{ID: "booth", Units: 1}}
			p.Activities[0].Uses, p.Activities[1].Uses = []Use{{0, 1}}, []Use{{0, 1}}
			return p
		}(), noon, clockTime(0, 16, 0)},
		{"a Saturday that may be bought counts", func() Problem {
			p := shopOf(1, labour("a", 5*480+60, 0))
			p.Overtime = []Overtime{{Window: Window{clockTime(5, 8, 0), clockTime(5, 12, 0)}}}
			return p
		}(), clockTime(5, 9, 0), clockTime(5, 9, 0)},
		{"the rest of what is begun counts, what only a risk calls for does not", func() Problem {
			p := shopOf(1, labour("begun", 60, 0), labour("a", 60, 0), labour("rust", 480, 0))
			p.Now = clockTime(0, 10, 0)
			p.Activities[0].State, p.Activities[0].Start = Started, clockTime(0, 8, 0)
			p.Risks = []Risk{{ID: "rust", Chance: 0.5, Activities: []int{2}}}
			return p
		}(), clockTime(0, 11, 0), noon},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			path, low, _ := bounds(t, c.problem, Never, 0)
			if path != c.path || low != c.want {
				t.Errorf("path %s, bound %s; want %s, %s", moment(path), moment(low), moment(c.path), moment(c.want))
			}
		})
	}
}

// An hour's priming has to be in early for its cure, and a day's work does not
// fit before it: no count of hours shows it, the order of the two does.
func TestBound_WhatComesFirst(t *testing.T) {
	p := shopOf(1, labour("long", 480, 0), labour("prime", 60, 0), Activity{ID: "cure", Kind: Passive, Work: 20 * hour, Calendar: -1})
	p.Activities[1].Release = clockTime(0, 9, 0)
	p.Links = []Link{after(1, 2)}
	if _, low, deep := bounds(t, p, clockTime(1, 16, 0), limitless); low != clockTime(1, 9, 0) || deep != clockTime(1, 10, 0) {
		t.Errorf("bound %s, raised %s; want the next day at nine, at ten", moment(low), moment(deep))
	}
}

func TestBound_SameStepsSameBound(t *testing.T) {
	d := newDemo(t, shop{after: true})
	high := solved(t, d.Problem, Options{}).Makespan
	for _, steps := range []int{0, 1000, 100_000} {
		_, _, a := bounds(t, d.Problem, high, steps)
		if _, _, b := bounds(t, d.Problem, high, steps); a != b {
			t.Errorf("%d steps: %d and %d", steps, a, b)
		}
	}
}

// The bounds of the demo, beside its plans.
func TestBound_Demo(t *testing.T) {
	for _, s := range []shop{{}, {after: true}} {
		d := newDemo(t, s)
		res := solved(t, d.Problem, Options{Schedules: 2000})
		path, low, deep := bounds(t, d.Problem, res.Makespan, limitless)
		t.Logf("after the findings %v: path %s, work against hours %s, narrowed windows %s, plan %s", s.after, moment(path), moment(low), moment(deep), moment(res.Makespan))
		if path > low || low > deep || deep > res.Makespan {
			t.Errorf("bounds out of order")
		}
	}
}

// Against the best known lengths of a public set, as a shop with places only.
func TestBound_BelowBestKnown(t *testing.T) {
	for _, set := range []string{"j30", "j60"} {
		names, problems := library(t, set, 12)
		best := known(t, set)
		path, cheap, deep, met, proved := 0.0, 0.0, 0.0, 0, 0
		for _, name := range names {
			ub := best[name][0]
			p, low, high := bounds(t, problems[name], ub, 30_000_000)
			if high > ub || low > high || p != best[name][1] {
				t.Errorf("%s: path %d, bound %d, raised %d; best known %d", name, p, low, high, ub)
			}
			path, cheap, deep = path+100*float64(ub-p)/float64(ub), cheap+100*float64(ub-low)/float64(ub), deep+100*float64(ub-high)/float64(ub)
			met += one(p == ub)
			proved += one(high == ub)
		}
		n := float64(len(names))
		t.Logf("%s, %d instances, below best known: path %.2f %%, work against hours %.2f %%, narrowed windows %.2f %%; met by the path %d, by the raised bound %d",
			set, len(names), path/n, cheap/n, deep/n, met, proved)
		if proved <= met {
			t.Errorf("%s: the raised bound meets no more than the path", set)
		}
	}
}

func BenchmarkLowerBound_Demo(b *testing.B) {
	n, err := compile(newDemo(b, shop{after: true}).Problem)
	if err != nil {
		b.Fatal(err)
	}
	r := newRun(n)
	for b.Loop() {
		lowerBound(r)
	}
}

func BenchmarkRaised_Demo(b *testing.B) {
	p := newDemo(b, shop{after: true}).Problem
	n, err := compile(p)
	if err != nil {
		b.Fatal(err)
	}
	res, err := Solve(context.Background(), p, Options{})
	if err != nil {
		b.Fatal(err)
	}
	low := lowerBound(newRun(n))
	for b.Loop() {
		raised(n, low, res.Makespan, boundSteps(n, 2000))
	}
}
