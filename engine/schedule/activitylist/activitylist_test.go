package activitylist

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// graphOf draws a graph whose links go from lower to higher numbers, some twice.
func graphOf(t *rapid.T, n int) Graph[int32] {
	g := Graph[int32]{Pred: make([][]int32, n), Succ: make([][]int32, n)}
	for range rapid.IntRange(0, 3*n).Draw(t, "links") {
		i, j := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		if i < j {
			g.Pred[j], g.Succ[i] = append(g.Pred[j], int32(i)), append(g.Succ[i], int32(j))
		}
	}
	return g
}

func check(t *rapid.T, g Graph[int32], list []int32) {
	t.Helper()
	at := make([]int, len(list))
	for x, j := range list {
		at[j] += x + 1
	}
	for j := range g.Pred {
		if at[j] == 0 {
			t.Fatalf("%d is missing in %v", j, list)
		}
		for _, p := range g.Pred[j] {
			if at[p] >= at[j] {
				t.Fatalf("%d comes before %d in %v", j, p, list)
			}
		}
	}
}

func TestLists_KeepPrecedence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 30).Draw(t, "n")
		g, rng := graphOf(t, n), rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		value := make([]int32, n)
		for j := range value {
			value[j] = rng.Int32N(50)
		}
		m, c := NewSampler[int32](n, 3), NewCrosser[int32](n, rng)
		mother, father, child := make([]int32, n), make([]int32, n), make([]int32, n)
		m.List(g, value, nil, mother)
		check(t, g, mother)
		m.List(g, value, rng, father)
		check(t, g, father)
		c.TwoPoint(mother, father, child)
		check(t, g, child)
		from := rapid.IntRange(0, n-1).Draw(t, "from")
		to := rapid.IntRange(from, n).Draw(t, "to")
		m.Part(g, value, rng, child[from:to])
		check(t, g, child)
		c.Peak(g, mother, father, child, func(from, to int) float64 { return float64(from) })
		check(t, g, child)
		c.Swap(g, 0.5, child)
		check(t, g, child)
	})
}

// Without links the block of the father stands whole where it stood in him, and
// the rest comes in the mother's order.
func TestPeak_InheritsTheDensestWindow(t *testing.T) {
	const n = 20
	g := Graph[int]{Pred: make([][]int, n), Succ: make([][]int, n)}
	c := NewCrosser[int](n, rand.New(rand.NewPCG(1, 0)))
	mother, father, child := make([]int, n), make([]int, n), make([]int, n)
	for j := range n {
		mother[j], father[j] = j, n-1-j
	}
	first, last := -1, -1
	c.Peak(g, mother, father, child, func(from, to int) float64 {
		if from > first {
			first, last = from, to
		}
		return float64(from)
	})
	if !slices.Equal(child[first:last], father[first:last]) {
		t.Errorf("%v does not hold %v at %d", child, father[first:last], first)
	}
	if rest := slices.Concat(child[:first], child[last:]); !slices.IsSorted(rest) {
		t.Errorf("the rest %v is not in the mother's order", rest)
	}
}

// Of two activities with regrets 3 and 1, bias 2 takes the first 9 times in 10.
func TestSampler_FollowsTheRule(t *testing.T) {
	g := Graph[int]{Pred: make([][]int, 2), Succ: make([][]int, 2)}
	m, rng, order, met := NewSampler[int](2, 2), rand.New(rand.NewPCG(1, 0)), make([]int, 2), 0
	for range 10000 {
		if m.List(g, []int32{5, 7}, rng, order); order[0] == 0 {
			met++
		}
	}
	if met < 8900 || met > 9100 {
		t.Errorf("%d of 10,000 lists began with the likelier, want about 9,000", met)
	}
}

func TestLists_AllocateNothing(t *testing.T) {
	const n = 40
	g := Graph[int32]{Pred: make([][]int32, n), Succ: make([][]int32, n)}
	rng := rand.New(rand.NewPCG(1, 0))
	m, c := NewSampler[int32](n, 3), NewCrosser[int32](n, rng)
	value, a, b, child := make([]int32, n), make([]int32, n), make([]int32, n), make([]int32, n)
	m.List(g, value, rng, a)
	m.List(g, value, rng, b)
	if x := testing.AllocsPerRun(100, func() {
		m.List(g, value, rng, a)
		c.TwoPoint(a, b, child)
		c.Peak(g, a, b, child, func(from, to int) float64 { return float64(to - from + int(a[from])) })
		c.Swap(g, 0.1, child)
	}); x != 0 {
		t.Errorf("%v allocations", x)
	}
}
