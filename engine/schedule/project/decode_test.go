package project

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fettle/engine/schedule/activitylist"
)

func TestSerial_EqualsSlowReference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 14)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		order, finish := make([]int32, n.n), make([]int32, n.n)
		d, m := newDecoder(n), activitylist.NewSampler[int32](n.n, bias)
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "list"), 0))
		for range 3 { // the second and third find a used profile
			m.List(n.sides[0].graph, n.rule[0], rng, order)
			d.serial(&n.sides[0], order, finish, 0, noLimit)
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
		activitylist.NewSampler[int32](n.n, bias).List(n.sides[0].graph, n.rule[0], rand.New(rand.NewPCG(1, 1)), order)
		last, _ := newDecoder(n).parallel(&n.sides[0], order, finish, noLimit)
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
		i.rules.List(n.sides[0].graph, n.rule[0], i.rng, i.list)
		a := i.generate(0, i.list, rapid.Bool().Draw(t, "parallel"))
		b := i.generate(1, a.order, false)
		c := i.generate(0, b.order, false)
		if b.last > a.last || c.last > b.last {
			t.Fatalf("makespans %d, %d, %d: %+v", a.last, b.last, c.last, p)
		}
	})
}

// A pass that is told the first finishes gives the others as a whole pass does;
// a limit ends it if and only if the makespan is beyond, and spoils nothing.
func TestSerial_ResumesAndStops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t, 20)
		n, err := compile(&p)
		if err != nil {
			t.Fatal(err)
		}
		order, whole := make([]int32, n.n), make([]int32, n.n)
		s, d := &n.sides[0], newDecoder(n)
		activitylist.NewSampler[int32](n.n, bias).List(s.graph, n.rule[0], rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "list"), 0)), order)
		last, _ := d.serial(s, order, whole, 0, noLimit)
		for range 3 {
			known := rapid.IntRange(0, n.n).Draw(t, "known")
			limit := last - 2 + rapid.Int32Range(0, 4).Draw(t, "limit")
			part := make([]int32, n.n)
			for _, j := range order[:known] {
				part[j] = whole[j]
			}
			got, stand := d.serial(s, order, part, known, limit)
			if got == tooLong {
				if limit >= last {
					t.Fatalf("stopped at %d of %d, makespan %d, limit %d: %+v", stand, n.n, last, limit, p)
				}
				continue
			}
			if known == 0 && limit < last || got != last || stand != n.n || !slices.Equal(part, whole) {
				t.Fatalf("makespan %d, finishes %v; whole %d, %v: %+v", got, part, last, whole, p)
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
		i.rules.List(n.sides[0].graph, n.rule[0], nil, i.list)
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
	activitylist.NewSampler[int32](n.n, bias).List(n.sides[0].graph, n.rule[0], rand.New(rand.NewPCG(1, 1)), order)
	for _, way := range []struct {
		name string
		pass func()
	}{
		{"serial", func() { d.serial(&n.sides[0], order, finish, 0, noLimit) }},
		{"parallel", func() { d.parallel(&n.sides[0], order, finish, noLimit) }},
	} {
		b.Run(way.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				way.pass()
			}
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "schedules/s")
		})
	}
}
