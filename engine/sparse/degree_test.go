package sparse

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// fillOf is how many places a factor has by an order.
func fillOf(g graph, perm []int32) int {
	parent := g.in(perm).tree()
	after := postorder(parent)
	sum := 0
	for _, rows := range g.in(through(perm, after)).counts(relabel(parent, after)) {
		sum += int(rows)
	}
	return sum
}

// exactDegree orders by the true degree, on full sets.
func exactDegree(g graph) []int32 {
	n := len(g.start) - 1
	meets := make([]map[int32]bool, n)
	for i := range meets {
		meets[i] = map[int32]bool{}
		for _, j := range g.of(int32(i)) {
			meets[i][j] = true
		}
	}
	var order []int32
	for range n {
		best := int32(-1)
		for i, m := range meets {
			if m != nil && (best < 0 || len(m) < len(meets[best])) {
				best = int32(i)
			}
		}
		order = append(order, best)
		for i := range meets[best] {
			for j := range meets[best] {
				if i != j {
					meets[i][j] = true
				}
			}
			delete(meets[i], best)
		}
		meets[best] = nil
	}
	return order
}

// TestMinimumDegree_NearExact: bounds instead of degrees cost little fill, over
// many graphs.
func TestMinimumDegree_NearExact(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	ours, exact := 0, 0
	check := func(m *Matrix) {
		g := newGraph(m)
		weight := make([]int32, m.N)
		for i := range weight {
			weight[i] = 1
		}
		ours += fillOf(g, minimumDegree(g, weight))
		exact += fillOf(g, exactDegree(g))
	}
	for range 40 {
		m, err := Assemble(120, random(r, 120, 2))
		if err != nil {
			t.Fatal(err)
		}
		check(m)
	}
	for _, side := range []int{5, 9, 14, 20} {
		m, err := Assemble(side*side, laplacian(side))
		if err != nil {
			t.Fatal(err)
		}
		check(m)
	}
	if float64(ours) > 1.05*float64(exact) {
		t.Errorf("%d places, %d by true degrees", ours, exact)
	}
}

// TestMinimumDegree_StampsRunOver: where the stamps come to their end in the
// middle, the order is the same.
func TestMinimumDegree_StampsRunOver(t *testing.T) {
	m, err := Assemble(30*30, laplacian(30))
	if err != nil {
		t.Fatal(err)
	}
	g := newGraph(m)
	weight := make([]int32, m.N)
	for i := range weight {
		weight[i] = 1
	}
	want := minimumDegree(g, weight)
	for _, before := range []int32{1, 40, 3000} {
		e, _ := newElimination(g, weight, m.N)
		e.stamp = math.MaxInt32/2 - before
		again := false
		for e.left > 0 {
			e.eliminate(e.pop())
			again = again || e.stamp < 1<<20
		}
		if !again || !slices.Equal(e.order(), want) {
			t.Errorf("%d before the end: begun again %v, or another order", before, again)
		}
	}
}

// TestTwins_BruteForce compares classes with what the sets say.
func TestTwins_BruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 200 {
		n := 1 + r.IntN(30)
		var pairs [][2]int
		for i := range n {
			for j := range i {
				if i/3 == j/3 || r.IntN(4) == 0 && r.IntN(2) == 0 {
					pairs = append(pairs, [2]int{i, j})
				}
			}
		}
		g := newGraph(pattern(t, n, pairs))
		class, weight := g.twins()
		closed := func(i int) []int32 {
			list := append(slices.Clone(g.of(int32(i))), int32(i))
			slices.Sort(list)
			return list
		}
		sum := int32(0)
		for _, w := range weight {
			sum += w
		}
		for i := range n {
			for j := range i {
				if same := slices.Equal(closed(i), closed(j)); same != (class[i] == class[j]) {
					t.Fatalf("rows %d and %d: same %v, classes %d and %d", i, j, same, class[i], class[j])
				}
			}
		}
		if int(sum) != n {
			t.Fatalf("classes of %d rows have %d", n, sum)
		}
	}
}
