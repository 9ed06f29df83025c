package sparse

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// orderOf runs the steps of Analyse up to the counts of columns.
func orderOf(t *testing.T, m *Matrix) (o ordered, parent, count []int32) {
	t.Helper()
	s, err := Analyse(m)
	if err != nil {
		t.Fatal(err)
	}
	first := newGraph(m).in(s.perm)
	perm := through(s.perm, postorder(first.tree()))
	o = newGraph(m).in(perm)
	parent = o.tree()
	return o, parent, o.counts(parent)
}

// TestCounts_AgainstElimination plays the elimination on full sets.
func TestCounts_AgainstElimination(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 300 {
		n := 1 + r.IntN(40)
		m, err := Assemble(n, random(r, n, 3*r.Float64()))
		if err != nil {
			t.Fatal(err)
		}
		o, parent, count := orderOf(t, m)
		meets := make([]map[int32]bool, n)
		for k := range meets {
			meets[k] = map[int32]bool{}
			for _, to := range o.of(o.perm[k]) {
				meets[k][o.rank[to]] = true
			}
		}
		for k := range int32(n) {
			next := int32(-1)
			rows := int32(1)
			for i := k + 1; i < int32(n); i++ {
				if !meets[k][i] {
					continue
				}
				rows++
				if next < 0 {
					next = i
				}
				for j := k + 1; j < int32(n); j++ {
					if j != i && meets[k][j] {
						meets[i][j] = true
					}
				}
			}
			if rows != count[k] || next != parent[k] {
				t.Fatalf("column %d of %d: %d rows and parent %d, elimination says %d and %d", k, n, count[k], parent[k], rows, next)
			}
		}
	}
}

func TestOrder_IsPermutation(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 200 {
		n := r.IntN(200)
		list := random(r, n, 6*r.Float64())
		for range n / 40 { // rows that meet nearly all
			for j, i := 0, r.IntN(n); j < n; j++ {
				if i != j {
					list = append(list, Entry{int32(i), int32(j), 1e-3})
				}
			}
		}
		m, err := Assemble(n, list)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Analyse(m)
		if err != nil {
			t.Fatal(err)
		}
		order := s.Order()
		slices.Sort(order)
		for i, at := range order {
			if int(at) != i {
				t.Fatalf("of %d rows, %d stands in place %d", n, at, i)
			}
		}
	}
}

// pattern makes a matrix of pairs with a heavy diagonal.
func pattern(t *testing.T, n int, pairs [][2]int) *Matrix {
	t.Helper()
	var list []Entry
	for i := range n {
		list = append(list, Entry{int32(i), int32(i), float64(n)})
	}
	for _, p := range pairs {
		list = append(list, Entry{int32(p[0]), int32(p[1]), -1})
	}
	m, err := Assemble(n, list)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestOrder_Fill holds the fill to what is known: trees and arrows fill nothing,
// a ring of n fills n-3, and a net of n stays under the bound for nested
// dissection, 31/4 n log2 n.
func TestOrder_Fill(t *testing.T) {
	const n = 500
	var tree, arrow, ring [][2]int
	for i := 1; i < n; i++ {
		tree, arrow, ring = append(tree, [2]int{i, (i - 1) / 3}), append(arrow, [2]int{i, 0}), append(ring, [2]int{i, i - 1})
	}
	ring = append(ring, [2]int{n - 1, 0})
	net, err := Assemble(100*100, laplacian(100))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		m    *Matrix
		most int
	}{
		{"tree", pattern(t, n, tree), n + len(tree)}, {"arrow", pattern(t, n, arrow), n + len(arrow)}, {"ring", pattern(t, n, ring), n + len(ring) + n - 3},
		{"net", net, int(31. / 4 * 10_000 * math.Log2(10_000))},
	} {
		_, _, count := orderOf(t, c.m)
		sum := 0
		for _, rows := range count {
			sum += int(rows)
		}
		if sum > c.most {
			t.Errorf("%s: the factor has %d places, at most %d", c.name, sum, c.most)
		}
	}
}

// TestTwins_Coordinates: the two unknowns of a vertex go through the search for
// an order as one.
func TestTwins_Coordinates(t *testing.T) {
	m, err := Assemble(2*15*15, coupled(15))
	if err != nil {
		t.Fatal(err)
	}
	class, weight := newGraph(m).twins()
	if len(weight) != 15*15 || class[0] != class[1] {
		t.Errorf("%d classes of %d vertices", len(weight), 15*15)
	}
}
