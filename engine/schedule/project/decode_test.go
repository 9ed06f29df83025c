package project

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestSerial_EqualsSlowReference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 14)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		order, finish := make([]int32, n.n), make([]int32, n.n)
		d, m := newDecoder(n), newSampler(n.n)
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "list"), 0))
		for range 3 { // the second and third find a used profile
			m.list(&n.sides[0], n.rule[0], rng, order)
			d.serial(&n.sides[0], order, finish)
			got := n.starts(finish)
			starts, placed := make([]int32, n.n), make([]bool, n.n)
			for _, i := range order {
				j := n.topo[i]
				placed[j], starts[j] = true, slowStart(p, int(j), starts, placed)
				if got[j] != starts[j] {
					t.Fatalf("activity %d starts at %d, want %d: %+v", j, got[j], starts[j], p)
				}
			}
		}
	})
}

// Non-delay: at no slot could an activity that starts later have started.
func TestParallel_LeavesNothingIdle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 14)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		order, finish := make([]int32, n.n), make([]int32, n.n)
		newSampler(n.n).list(&n.sides[0], n.rule[0], rand.New(rand.NewPCG(1, 1)), order)
		last := newDecoder(n).parallel(&n.sides[0], order, finish)
		starts := n.starts(finish)
		if err := Check(p, starts); err != nil {
			t.Fatal(err)
		}
		for j, at := range starts {
			if at+p.Duration[j] > last*n.slot {
				t.Fatalf("activity %d is over after the makespan %d", j, last)
			}
			idle(t, p, j, starts)
		}
	})
}

func idle(t *rapid.T, p Problem, j int, starts []int32) {
	for u := range starts[j] {
		begun := make([]bool, len(starts))
		for i, at := range starts {
			begun[i] = at <= u
		}
		begun[j] = false
		ready := waited(p, j, begun)
		for i, succ := range p.Succ {
			for _, s := range succ {
				ready = ready && (int(s) != j || starts[i]+p.Duration[i] <= u)
			}
		}
		short := p
		short.Duration = append([]int32(nil), p.Duration...)
		short.Duration[j] = min(1, p.Duration[j])
		if ready && slowFits(short, j, u, starts, begun) {
			t.Fatalf("activity %d could start at %d, starts at %d: %+v", j, u, starts[j], p)
		}
	}
}

func TestJustify_NeverLengthens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 20)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		i := newIsland(n, rapid.Uint64().Draw(t, "seed"), 0, 100)
		i.rules.list(&n.sides[0], n.rule[0], i.rng, i.list)
		a := i.generate(0, i.list, rapid.Bool().Draw(t, "parallel"))
		b := i.generate(1, a.order, false)
		c := i.generate(0, b.order, false)
		if b.last > a.last || c.last > b.last {
			t.Fatalf("makespans %d, %d, %d: %+v", a.last, b.last, c.last, p)
		}
	})
}

// Children keep precedence: every list decodes without an activity being
// placed before what it waits for.
func TestChild_KeepsPrecedence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 20)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		i := newIsland(n, rapid.Uint64().Draw(t, "seed"), 0, 100)
		k := rapid.IntRange(0, 1).Draw(t, "side")
		var parents [2]*plan
		for w := range parents {
			i.rules.list(&n.sides[k], n.rule[k], i.rng, i.list)
			parents[w] = i.generate(k, i.list, false)
		}
		i.breed.child(k, parents[0], parents[1], i.list)
		at := make([]int, n.n)
		for x, j := range i.list {
			at[j] += x + 1
		}
		for j := range int32(n.n) {
			for _, q := range n.sides[1-k].pred.of(j) {
				if at[q] >= at[j] || at[q] == 0 {
					t.Fatalf("%d does not come before %d in %v", q, j, i.list)
				}
			}
		}
	})
}

func TestDecode_AllocatesNothing(t *testing.T) {
	for _, resources := range []int{4, 6} {
		p := random(1, 120, resources, 20)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		i := newIsland(n, 1, 0, 100)
		i.rules.list(&n.sides[0], n.rule[0], nil, i.list)
		out := newPlan(n.n)
		for _, parallel := range []bool{false, true} {
			if got := testing.AllocsPerRun(20, func() { i.out = out; i.generate(0, i.list, parallel) }); got != 0 {
				t.Errorf("%d resources, parallel %v: %v allocations a schedule", resources, parallel, got)
			}
		}
	}
}

// loaded is a project as hard as the hardest of 120 activities in public sets:
// durations and demands of 1 to 10, each activity on all four resources, about
// 1.8 links an activity.
func loaded(seed uint64) Problem {
	rng := rand.New(rand.NewPCG(seed, 3))
	p := Problem{Duration: make([]int32, 120), Demand: make([][]int32, 120), Succ: make([][]int32, 120), Capacity: []int32{15, 16, 17, 18}}
	for j := range p.Duration {
		p.Duration[j] = 1 + rng.Int32N(10)
		for range p.Capacity {
			p.Demand[j] = append(p.Demand[j], 1+rng.Int32N(10))
		}
		for range 2 {
			if to := j + 1 + rng.IntN(25); to < 120 && !slices.Contains(p.Succ[j], int32(to)) {
				p.Succ[j] = append(p.Succ[j], int32(to))
			}
		}
	}
	return p
}

func BenchmarkSGS(b *testing.B) {
	p := loaded(1)
	n, err := compile(&p)
	if err != nil {
		b.Fatal(err)
	}
	d, order, finish := newDecoder(n), make([]int32, n.n), make([]int32, n.n)
	newSampler(n.n).list(&n.sides[0], n.rule[0], rand.New(rand.NewPCG(1, 1)), order)
	for _, way := range []struct {
		name string
		pass func(*side, []int32, []int32) int32
	}{{"serial", d.serial}, {"parallel", d.parallel}} {
		b.Run(way.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				way.pass(&n.sides[0], order, finish)
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "schedules/s")
		})
	}
}
