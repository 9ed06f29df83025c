package project

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fettle/fault"
)

// random is a project of n activities on the given resources, the same for the
// same seed.
func random(seed uint64, n, resources int, capacity int32) Problem {
	rng := rand.New(rand.NewPCG(seed, 7))
	p := Problem{Duration: make([]int32, n), Demand: make([][]int32, n), Succ: make([][]int32, n)}
	for range resources {
		p.Capacity = append(p.Capacity, 1+rng.Int32N(capacity))
	}
	for j := range n {
		p.Duration[j] = rng.Int32N(7)
		for _, c := range p.Capacity {
			p.Demand[j] = append(p.Demand[j], rng.Int32N(c+1)*rng.Int32N(2))
		}
		for k := j + 1; k < n; k++ {
			if rng.IntN(4) == 0 {
				p.Succ[j] = append(p.Succ[j], int32(k))
			}
		}
	}
	return p
}

func drawn(t *rapid.T, most int) Problem {
	capacity := rapid.SampledFrom([]int32{1, 3, 10, 40_000}).Draw(t, "capacity")
	return random(rapid.Uint64().Draw(t, "seed"), rapid.IntRange(1, most).Draw(t, "n"), rapid.IntRange(0, 6).Draw(t, "resources"), capacity)
}

func solved(t interface{ Fatal(...any) }, p Problem, o Options) Result {
	res, err := Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestValidate_NamesTheRule(t *testing.T) {
	good := func() Problem {
		return Problem{Duration: []int32{1, 2}, Demand: [][]int32{{1}, {1}}, Capacity: []int32{1}, Succ: [][]int32{{1}, nil}}
	}
	for _, c := range []struct {
		name  string
		spoil func(*Problem)
		want  string
	}{
		{"short demand", func(p *Problem) { p.Demand = p.Demand[:1] }, ruleLengths},
		{"demand without a resource", func(p *Problem) { p.Demand[1] = []int32{1, 1} }, "activity 1: " + ruleLengths},
		{"negative duration", func(p *Problem) { p.Duration[0] = -1 }, "activity 0: " + ruleDuration},
		{"too long", func(p *Problem) { p.Duration[1] = longest }, "activity 1: " + ruleDuration},
		{"more than there is", func(p *Problem) { p.Demand[0][0] = 2 }, "activity 0: " + ruleDemand},
		{"unknown successor", func(p *Problem) { p.Succ[1] = []int32{2} }, "activity 1: " + ruleLinks},
		{"own successor", func(p *Problem) { p.Succ[1] = []int32{1} }, "activity 1: " + ruleLinks},
		{"loop", func(p *Problem) { p.Succ[1] = []int32{0} }, "activity 0: " + ruleLoop},
	} {
		p := good()
		c.spoil(&p)
		err := Validate(p)
		f, ok := err.(*fault.Fault)
		if !ok || f.Kind != fault.Invalid || err.Error() != c.want {
			t.Errorf("%s: got %v, want %s", c.name, err, c.want)
		}
		if _, err := Solve(context.Background(), p, Options{}); err == nil {
			t.Errorf("%s: solved", c.name)
		}
	}
	if err := Validate(good()); err != nil {
		t.Errorf("good problem: %v", err)
	}
}

func TestSolve_Empty(t *testing.T) {
	res := solved(t, Problem{}, Options{Schedules: 10, Workers: 2})
	if res.Makespan != 0 || res.Status != ProvedBest || len(res.Starts) != 0 {
		t.Errorf("got %+v", res)
	}
}

// shortest tries every order of up to 8 activities serially: one of the orders
// gives an optimum.
func shortest(p Problem) int32 {
	n := len(p.Duration)
	best := int32(longest)
	starts := make([]int32, n)
	placed := make([]bool, n)
	var next func(count int, last int32)
	next = func(count int, last int32) {
		if last >= best {
			return
		}
		if count == n {
			best = last
			return
		}
		for j := range n {
			if placed[j] || !waited(p, j, placed) {
				continue
			}
			placed[j], starts[j] = true, slowStart(p, j, starts, placed)
			next(count+1, max(last, starts[j]+p.Duration[j]))
			placed[j] = false
		}
	}
	next(0, 0)
	return best
}

func waited(p Problem, j int, placed []bool) bool {
	for i, succ := range p.Succ {
		if slices.Contains(succ, int32(j)) && !placed[i] {
			return false
		}
	}
	return true
}

// slowStart tries one start after the other and sums every slot.
func slowStart(p Problem, j int, starts []int32, placed []bool) int32 {
	t := int32(0)
	for i, succ := range p.Succ {
		if slices.Contains(succ, int32(j)) {
			t = max(t, starts[i]+p.Duration[i])
		}
	}
	for ; ; t++ {
		if slowFits(p, j, t, starts, placed) {
			return t
		}
	}
}

func slowFits(p Problem, j int, t int32, starts []int32, placed []bool) bool {
	for u := t; u < t+p.Duration[j]; u++ {
		for k, units := range p.Capacity {
			used := int64(p.Demand[j][k])
			for i := range p.Duration {
				if i != j && placed[i] && starts[i] <= u && u < starts[i]+p.Duration[i] {
					used += int64(p.Demand[i][k])
				}
			}
			if used > int64(units) {
				return false
			}
		}
	}
	return true
}

func TestSolve_FindsTheOptimumOfSmallProjects(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 8)
		want := shortest(p)
		res := solved(t, p, Options{Schedules: 600, Workers: 1 + rapid.IntRange(0, 1).Draw(t, "workers")})
		if res.Makespan != want {
			t.Fatalf("makespan %d, want %d: %+v", res.Makespan, want, p)
		}
		if res.LowerBound > want || res.Status == ProvedBest && res.LowerBound != want {
			t.Fatalf("bound %d, %v; optimum %d: %+v", res.LowerBound, res.Status, want, p)
		}
	})
}

func TestBounds_NeverAboveTheOptimum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 7)
		want := shortest(p)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		b := newBounds(n)
		quick := b.quick() * n.slot
		refuted := b.refute(n.span+1, 1<<20) * n.slot
		if n.path*n.slot > quick || quick > refuted || refuted > want {
			t.Fatalf("path %d, quick %d, refuted %d, optimum %d: %+v", n.path*n.slot, quick, refuted, want, p)
		}
	})
}

func TestSolve_Deterministic(t *testing.T) {
	p := random(3, 60, 4, 9)
	for _, workers := range []int{1, 2} {
		o := Options{Seed: 5, Schedules: 3000, Workers: workers}
		a, b := solved(t, p, o), solved(t, p, o)
		if !slices.Equal(a.Starts, b.Starts) || a.Stats != b.Stats {
			t.Errorf("workers %d: %v %+v, then %v %+v", workers, a.Starts, a.Stats, b.Starts, b.Stats)
		}
	}
}

func TestSolve_KeepsTheBudget(t *testing.T) {
	p := random(3, 60, 4, 9)
	for _, budget := range []int{-1, 0, 1, 2, 3, 7, 50, 1001} {
		for _, workers := range []int{0, 1, 2, 3} {
			var last int
			res := solved(t, p, Options{Schedules: budget, Workers: workers, Progress: func(done, _ int) { last = done }})
			if s := res.Stats.Schedules; s > max(1, budget) || res.Status == BestFound && s < budget-1 {
				t.Errorf("budget %d, workers %d: %d schedules, %v", budget, workers, s, res.Status)
			}
			if last > res.Stats.Schedules {
				t.Errorf("budget %d, workers %d: progress said %d, result %d", budget, workers, last, res.Stats.Schedules)
			}
		}
	}
}

func TestSolve_InterruptedKeepsTheBestSoFar(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := random(3, 60, 4, 9)
	res, err := Solve(ctx, p, Options{Schedules: 5000})
	if err != nil || res.Status != Interrupted || Check(p, res.Starts) != nil {
		t.Errorf("got %v, %v", res.Status, err)
	}
}

// Slots of 30 give the same schedule as slots of 1, thirty times as long.
func TestSolve_UnitOfTimeDoesNotMatter(t *testing.T) {
	p := random(9, 40, 3, 8)
	fine := p
	fine.Duration = slices.Clone(p.Duration)
	for j := range fine.Duration {
		fine.Duration[j] *= 30
	}
	a, b := solved(t, p, Options{Schedules: 500}), solved(t, fine, Options{Schedules: 500})
	if a.Makespan*30 != b.Makespan || a.LowerBound*30 != b.LowerBound {
		t.Errorf("makespan %d and %d, bound %d and %d", a.Makespan, b.Makespan, a.LowerBound, b.LowerBound)
	}
}

func TestCheck_RejectsSpoiledSchedules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 12)
		res := solved(t, p, Options{Schedules: 30})
		starts := slices.Clone(res.Starts)
		j := rapid.IntRange(0, len(starts)-1).Draw(t, "activity")
		starts[j] = rapid.Int32Range(-1, res.Makespan).Draw(t, "start")
		if got, want := Check(p, starts) == nil, slowCheck(p, starts); got != want {
			t.Fatalf("passed %v, want %v: %v %+v", got, want, starts, p)
		}
	})
	p := Problem{Duration: []int32{2, 2}, Demand: [][]int32{{1}, {1}}, Capacity: []int32{1}, Succ: [][]int32{nil, nil}}
	if err := Check(p, []int32{0}); err == nil {
		t.Error("passed a schedule of one start for two activities")
	}
	if err := Check(p, []int32{0, 1}); err == nil {
		t.Error("passed two activities on one machine at once")
	}
}

// slowCheck looks at every slot.
func slowCheck(p Problem, starts []int32) bool {
	all := make([]bool, len(starts))
	for i := range all {
		all[i] = true
	}
	for j, at := range starts {
		if at < 0 || !slowFits(p, j, at, starts, all) {
			return false
		}
		for _, s := range p.Succ[j] {
			if starts[s] < at+p.Duration[j] {
				return false
			}
		}
	}
	return true
}
