package schedule

import "testing"

// The full search knows the best finish of small problems: no plan there is
// beats its bound, and next to always there is one that meets it.
func TestFull_AgainstEveryPlan(t *testing.T) {
	cases, met, proved := 0, 0, 0
	for seed := range uint64(1000) {
		p := smallProblem(seed, 5)
		best := exactFinish(p)
		if best >= Never {
			continue
		}
		cases++
		res := solved(t, p, Options{Schedules: 1000, Seed: seed})
		if res.LowerBound > best {
			t.Errorf("seed %d: bound %d, but there is a plan of %d", seed, res.LowerBound, best)
		}
		if res.LowerBound == best {
			met++
		}
		if res.Status == ProvedBest {
			proved++
		}
	}
	t.Logf("%d problems: bound met in %d, plan proved in %d", cases, met, proved)
	if cases < 900 || 100*met < 98*cases {
		t.Errorf("%d problems, bound met in %d", cases, met)
	}
}
