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
