package loom

import (
	"context"
	"math/rand/v2"
	"os"
	"slices"
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
// states that are tried, and whether feed is joined to earth in one of them.
func carriedBy(t *testing.T, p Problem, opts Options) (amps []float64, shorted bool) {
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
	amps = make([]float64, len(p.Wires))
	for i := range amps {
		amps[i] = s.asked[len(p.Circuits)+i].amps
	}
	return amps, slices.ContainsFunc(s.joined(), func(f Flaw) bool { return f.Kind == ShortedNet })
}

// TestSurvey_EveryState tries the chosen states of random nets and looms against
// every one of up to 2¹² products of positions: nets that branch, share and
// bridge at random, and looms as a person lays them out. A net whose feed is joined
// to earth has a flaw and no load to size for.
func TestSurvey_EveryState(t *testing.T) {
	for _, kind := range []struct {
		name string
		seed uint64
		make func(r *rand.Rand) Problem
	}{{"looms", 11, randomLoom}, {"nets", 12, switchedNet}} {
		r := rand.New(rand.NewPCG(kind.seed, 3))
		worst, wires, states, exact, shorts := 0.0, 0, 0, 0, 0
		for k := range counted(t, 300) {
			p := kind.make(r)
			if states += len(settings(p)); len(settings(p)) > 1<<12 {
				t.Fatalf("%s %d has %d products", kind.name, k, len(settings(p)))
			}
			every, shorted := carriedBy(t, p, Options{MostPerGroup: 1 << 12, Every: 1 << 12})
			if shorted {
				shorts++
				continue
			}
			chosen, _ := carriedBy(t, p, Options{MostPerGroup: 1 << 12, Every: -1})
			for i, amps := range chosen {
				wires++
				short := 0.0
				if every[i] > 1e-6 {
					short = 1 - amps/every[i]
				}
				if worst = max(worst, short); short < 1e-6 {
					exact++
				}
				if short > 0.01 || short < -1e-6 {
					t.Errorf("%s %d, %s carries %.6f A in the states that were chosen, %.6f A in some", kind.name, k, p.Wires[i].ID, amps, every[i])
				}
			}
		}
		t.Logf("%d wires of %s, %d products: %d exact, at most %.2g short; %d left out with feed joined to earth", wires, kind.name, states, exact, worst, shorts)
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
