package loom

import (
	"context"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
)

// counted returns how many random cases a test runs: fewer than the full count
// unless FETTLE_LOOMS names a number.
func counted(t *testing.T, few int) int {
	t.Helper()
	if n, err := strconv.Atoi(os.Getenv("FETTLE_LOOMS")); err == nil && n > 0 {
		return n
	}
	if testing.Short() {
		return max(1, few/10)
	}
	return few
}

// carriedBy returns the most that each wire of its largest size carries in the
// states that are tried.
func carriedBy(t *testing.T, p Problem, opts Options) []float64 {
	t.Helper()
	s, err := newSizer(&p, opts)
	if err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := s.survey(context.Background()); err != nil {
			t.Fatal(err)
		}
		s.passes++
	}
	amps := make([]float64, len(p.Wires))
	for i := range amps {
		amps[i] = s.asked[len(p.Circuits)+i].amps
	}
	return amps
}

// TestSurvey_EveryState tries the chosen states of random nets and looms against
// every one of up to 2¹² products of positions: nets that branch, share and
// bridge at random, and looms as a person lays them out.
func TestSurvey_EveryState(t *testing.T) {
	for _, kind := range []struct {
		name   string
		seed   uint64
		make   func(r *rand.Rand) Problem
		within float64 // the chosen may fall short of the most by
	}{{"looms", 11, func(r *rand.Rand) Problem { return randomLoom(r) }, 1e-3}, {"nets", 12, switchedNet, 0.05}} {
		r := rand.New(rand.NewPCG(kind.seed, 3))
		worst, wires, states, exact := 0.0, 0, 0, 0
		for k := range counted(t, 300) {
			p := kind.make(r)
			if states += len(settings(p)); len(settings(p)) > 1<<12 {
				t.Fatalf("%s %d has %d products", kind.name, k, len(settings(p)))
			}
			every := carriedBy(t, p, Options{MostPerGroup: 1 << 12, Every: 1 << 12})
			for i, amps := range carriedBy(t, p, Options{MostPerGroup: 1 << 12, Every: -1}) {
				wires++
				short := 0.0
				if every[i] > 1e-6 {
					short = 1 - amps/every[i]
				}
				if worst = max(worst, short); short < 1e-7 {
					exact++
				}
				if short > kind.within || short < -1e-7 {
					t.Errorf("%s %d, %s carries %.6f A in the states that were chosen, %.6f A in some", kind.name, k, p.Wires[i].ID, amps, every[i])
				}
			}
		}
		t.Logf("%d wires of %s, %d products: %d exact, at most %.2g short", wires, kind.name, states, exact, worst)
	}
}

// switchedNet is a random net with more switches than most.
func switchedNet(r *rand.Rand) Problem {
	p := randomNet(r)
	for len(p.Switches) < 2 {
		p = randomNet(r)
	}
	return p
}
