package sparse

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestSymbolic_Layout holds the layout to what the numbers rely on: blocks cover
// the columns, rows ascend beyond them, each stands in the parent's panel where
// it is said to, every value has one place, and what blocks pass on lies over
// nothing that is still needed.
func TestSymbolic_Layout(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for range 100 {
		n := 1 + r.IntN(150)
		m, err := Assemble(n, random(r, n, 3*r.Float64()))
		if err != nil {
			t.Fatal(err)
		}
		s, err := Analyse(m)
		if err != nil {
			t.Fatal(err)
		}
		if s.first[0] != 0 || int(s.first[len(s.first)-1]) != n {
			t.Fatalf("blocks cover columns %d to %d of %d", s.first[0], s.first[len(s.first)-1], n)
		}
		for k, p := range s.parent {
			rows := s.rows[s.rowsAt[k]:s.rowsAt[k+1]]
			if !slices.IsSorted(rows) || len(rows) > 0 && rows[0] < s.first[k+1] || (len(rows) > 0) != (p >= 0) {
				t.Fatalf("block %d of columns up to %d has rows %v and parent %d", k, s.first[k+1], rows, p)
			}
			if p >= 0 {
				panel := slices.Clone(s.rows[s.rowsAt[p]:s.rowsAt[p+1]])
				for j := s.first[p+1] - 1; j >= s.first[p]; j-- {
					panel = slices.Insert(panel, 0, j)
				}
				for i, row := range rows {
					if at := s.within[s.rowsAt[k]+i]; panel[at] != row {
						t.Fatalf("block %d, row %d: said to stand at %d of its parent's %v", k, row, at, panel)
					}
				}
			}
		}
		seen := map[int32]bool{}
		for _, e := range s.entries {
			seen[e.slot] = true
		}
		if len(seen) != len(m.Value) || len(s.entries) != len(m.Value) {
			t.Fatalf("%d places for %d of %d values", len(s.entries), len(seen), len(m.Value))
		}
		boards(t, s)
	}
}

// boards plays through which parts of the boards are in use.
func boards(t *testing.T, s *Symbolic) {
	t.Helper()
	var used [2]map[int]int // place to block
	used[0], used[1] = map[int]int{}, map[int]int{}
	parity := func(k int) int {
		if s.odd[k] {
			return 1
		}
		return 0
	}
	for k := range s.height {
		for x := range square(s.beyond(int32(k))) {
			at := s.boardAt[k] + x
			if other, taken := used[parity(k)][at]; taken || at >= s.board[parity(k)] {
				t.Fatalf("block %d writes over what block %d passes on", k, other)
			}
			used[parity(k)][at] = k
		}
		for _, c := range s.kids[s.kidsAt[k]:s.kidsAt[k+1]] {
			for x := range square(s.beyond(c)) {
				delete(used[parity(int(c))], s.boardAt[c]+x)
			}
		}
	}
}

// TestFill counts what a factorisation takes: a full matrix of n rows has
// n (n+1) / 2 places.
func TestFill(t *testing.T) {
	const n = 20
	var pairs [][2]int
	for i := range n {
		for j := range i {
			pairs = append(pairs, [2]int{i, j})
		}
	}
	s, err := Analyse(pattern(t, n, pairs))
	if err != nil {
		t.Fatal(err)
	}
	if places, work := s.Fill(); places != n*(n+1)/2 || work != n*(n+1)*(n+2)/6 {
		t.Errorf("%d places, %g multiplications; want %d and %d", places, work, n*(n+1)/2, n*(n+1)*(n+2)/6)
	}
	if len(s.height) != 1 {
		t.Errorf("%d blocks of a full matrix", len(s.height))
	}
}

// TestPostorder: children before parents, each subtree in one piece.
func TestPostorder(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for range 200 {
		n := 1 + r.IntN(60)
		parent := make([]int32, n)
		for i := range parent {
			parent[i] = -1
			if i+1 < n && r.IntN(8) > 0 {
				parent[i] = int32(i + 1 + r.IntN(n-i-1))
			}
		}
		order := postorder(parent)
		size := make([]int, n)
		named := relabel(parent, order)
		for k, p := range named {
			size[k]++
			if p >= 0 && int(p) <= k {
				t.Fatalf("%v: parent %d of %d is not behind it", parent, p, k)
			}
			if p >= 0 {
				size[p] += size[k]
			}
		}
		for k, p := range named {
			if p >= 0 && k <= int(p)-size[p] {
				t.Fatalf("%v: the subtree of %d is not in one piece", parent, p)
			}
		}
	}
}
