package lags

import (
	"context"
	"testing"

	"pgregory.net/rapid"
)

// brute is the least makespan by trying every start in every slot; -1 if there
// is no schedule within the horizon.
func brute(p Problem) int {
	for span := range horizon(&p) + 1 {
		if placed(p, nil, span) {
			return span
		}
	}
	return -1
}

// placed says whether the activities after those in starts can all be placed.
func placed(p Problem, starts []int, span int) bool {
	i := len(starts)
	if i == len(p.Duration) {
		return Check(p, starts) == nil
	}
	for t := range span - p.Duration[i] + 1 {
		if next := append(starts[:i:i], t); lagsKept(p, next) && placed(p, next, span) {
			return true
		}
	}
	return false
}

func lagsKept(p Problem, starts []int) bool {
	for _, l := range p.Lags {
		if max(l.From, l.To) < len(starts) && starts[l.To]-starts[l.From] < l.Min {
			return false
		}
	}
	return true
}

// small draws a problem of up to six activities in which lags go both ways.
func small(t *rapid.T) Problem {
	n, resources := rapid.IntRange(1, 6).Draw(t, "n"), rapid.IntRange(0, 2).Draw(t, "resources")
	p := Problem{}
	for range resources {
		p.Capacity = append(p.Capacity, rapid.IntRange(1, 3).Draw(t, "capacity"))
	}
	for range n {
		p.Duration = append(p.Duration, rapid.IntRange(0, 3).Draw(t, "duration"))
		row := make([]int, resources)
		for q := range row {
			row[q] = rapid.IntRange(0, p.Capacity[q]).Draw(t, "demand")
		}
		p.Demand = append(p.Demand, row)
	}
	for range rapid.IntRange(0, 2*n).Draw(t, "lags") {
		p.Lags = append(p.Lags, Lag{
			From: rapid.IntRange(0, n-1).Draw(t, "from"),
			To:   rapid.IntRange(0, n-1).Draw(t, "to"),
			Min:  rapid.IntRange(-4, 2).Draw(t, "min"),
		})
	}
	return p
}

func TestSolve_EqualsBruteForce(t *testing.T) {
	seen := map[Status]int{}
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		r, err := Solve(context.Background(), p, Options{Steps: 1e6, Seed: rapid.Uint64().Draw(t, "seed")})
		if err != nil {
			t.Fatal(err)
		}
		seen[r.Status]++
		want := brute(p)
		switch {
		case want < 0 && r.Status != Infeasible:
			t.Fatalf("status %d, makespan %d; there is no schedule", r.Status, r.Makespan)
		case want >= 0 && (r.Status != ProvedBest || r.Makespan != want || r.LowerBound != want):
			t.Fatalf("status %d, makespan %d, bound %d; the least is %d", r.Status, r.Makespan, r.LowerBound, want)
		}
		if r.Why.Proof == Cycle {
			goesRound(t, p, r.Why.Cycle)
		}
	})
	if seen[Infeasible] == 0 || seen[ProvedBest] == 0 {
		t.Errorf("the draws were one-sided: %v", seen)
	}
}

// machine draws one machine with a release and a due time for each job, seen
// from a milestone: what edge finding is for.
func machine(t *rapid.T) Problem {
	p := Problem{Duration: []int{0}, Demand: [][]int{{0}}, Capacity: []int{1}}
	for i := range rapid.IntRange(3, 6).Draw(t, "jobs") {
		d, release := rapid.IntRange(1, 5).Draw(t, "duration"), rapid.IntRange(0, 8).Draw(t, "release")
		slack := rapid.IntRange(0, 14).Draw(t, "slack")
		p.Duration, p.Demand = append(p.Duration, d), append(p.Demand, []int{1})
		p.Lags = append(p.Lags, Lag{0, i + 1, release}, Lag{i + 1, 0, -release - slack})
	}
	return p
}

// perms is the least makespan on one machine by trying every order of the
// jobs; -1 if none meets the due times.
func perms(p Problem, done []bool, at int) int {
	best, left := -1, false
	for i := 1; i < len(p.Duration); i++ {
		if done[i] {
			continue
		}
		left = true
		release, due := p.Lags[2*i-2].Min, -p.Lags[2*i-1].Min
		start := max(at, release)
		if start > due {
			continue
		}
		done[i] = true
		if m := perms(p, done, start+p.Duration[i]); m >= 0 && (best < 0 || m < best) {
			best = m
		}
		done[i] = false
	}
	if !left {
		return at
	}
	return best
}

func TestSolve_OneMachineEqualsEveryOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := machine(t)
		want := perms(p, make([]bool, len(p.Duration)), 0)
		r, err := Solve(context.Background(), p, Options{Steps: 1e6})
		if err != nil {
			t.Fatal(err)
		}
		if want < 0 && r.Status != Infeasible || want >= 0 && (r.Status != ProvedBest || r.Makespan != want) {
			t.Fatalf("status %d, makespan %d; every order gives %d", r.Status, r.Makespan, want)
		}
	})
}

// goesRound fails unless the lags join up and add up to more than nothing.
func goesRound(t *rapid.T, p Problem, way []int) {
	sum := 0
	for k, at := range way {
		sum += p.Lags[at].Min
		if next := p.Lags[way[(k+1)%len(way)]]; next.From != p.Lags[at].To {
			t.Fatalf("the cycle %v does not join up after lag %d", way, at)
		}
	}
	if sum <= 0 {
		t.Fatalf("the cycle %v adds up to %d", way, sum)
	}
}

// Every rule learned holds in every schedule found later, whatever the order of
// search: different seeds prove the same makespan.
func TestSolve_SeedsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		a, _ := Solve(context.Background(), p, Options{Steps: 1e6, Seed: 1})
		b, _ := Solve(context.Background(), p, Options{Steps: 1e6, Seed: 2})
		if a.Status != b.Status || a.Makespan != b.Makespan {
			t.Fatalf("seed 1: status %d, %d; seed 2: status %d, %d", a.Status, a.Makespan, b.Status, b.Makespan)
		}
	})
}
