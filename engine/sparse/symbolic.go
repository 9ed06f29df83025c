package sparse

import (
	"math"
	"slices"

	"fettle/fault"
)

// Symbolic is what the pattern of a matrix alone says of its factor: the order
// of elimination, the dense panels and where everything goes. It serves any
// number of factors at once.
type Symbolic struct {
	n          int
	start, row []int32 // the pattern
	perm       []int32 // row of the matrix eliminated k-th
	blocks
	rowsAt  []int   // rows of block s beyond its own are rows[rowsAt[s]:rowsAt[s+1]]
	rows    []int32 // in order of elimination, ascending
	within  []int32 // beside rows: where each stands in the panel of the parent
	kidsAt  []int32 // blocks whose parent is s are kids[kidsAt[s]:kidsAt[s+1]]
	kids    []int32
	panelAt []int   // where a block's panel begins, by columns
	boardAt []int   // where what a block passes on begins, on the board of its depth's parity
	odd     []bool  // parity of the depth
	board   [2]int  // lengths of the boards
	entryAt []int32 // values of block s are entries[entryAt[s]:entryAt[s+1]]
	entries []entry
	fill    int64
	work    float64
}

// Analyse finds an order that keeps the factor of a matrix sparse and lays the
// factor out. Values are not looked at. The pattern of m must stay as it is
// while the outcome is in use.
func Analyse(m *Matrix) (*Symbolic, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	g := newGraph(m)
	class, weight := g.twins()
	members := bucket(len(weight), m.N, nil, func(i int32) int32 { return class[i] })
	perm := make([]int32, 0, m.N)
	at := make([]int32, len(weight)+1)
	for c, w := range weight {
		at[c+1] = at[c] + w
	}
	for _, c := range minimumDegree(g.quotient(class, weight), weight) {
		perm = append(perm, members[at[c]:at[c+1]]...)
	}
	parent := g.in(perm).tree()
	after := postorder(parent)
	parent, perm = relabel(parent, after), through(perm, after)
	b, columns := supernodes(parent, g.in(perm).counts(parent))
	s := &Symbolic{n: m.N, start: m.Start, row: m.Row, perm: through(perm, columns), blocks: b}
	if err := s.layOut(); err != nil {
		return nil, err
	}
	o := g.in(s.perm)
	s.fillRows(o)
	s.fillWithin()
	s.fillEntries(o)
	return s, nil
}

// Order lists the rows of the matrix as they are eliminated.
func (s *Symbolic) Order() []int32 { return slices.Clone(s.perm) }

// Fill is how many places of the factor may differ from zero, those that the
// panels add among them, and how many multiplications with an addition a
// factorisation takes.
func (s *Symbolic) Fill() (places int64, work float64) { return s.fill, s.work }

// layOut says where panels and boards are.
func (s *Symbolic) layOut() error {
	many := len(s.height)
	s.rowsAt, s.panelAt = make([]int, many+1), make([]int, many+1)
	s.boardAt, s.odd = make([]int, many), make([]bool, many)
	for k := range many {
		w, h := int(s.first[k+1]-s.first[k]), int(s.height[k])
		s.rowsAt[k+1] = s.rowsAt[k] + h - w
		s.panelAt[k+1] = s.panelAt[k] + w*h
		s.fill += trapezium(int64(w), int64(h))
		for j := range w {
			s.work += float64(h-j) * float64(h-j+1) / 2
		}
	}
	if s.panelAt[many] > math.MaxInt32 {
		return fault.New(fault.TooLarge, "the factor would have %d places, more than can be numbered", s.panelAt[many])
	}
	for k := many - 1; k >= 0; k-- {
		if p := s.parent[k]; p >= 0 {
			s.odd[k] = !s.odd[p]
		}
	}
	s.kidsAt = make([]int32, many+1)
	for _, p := range s.parent {
		if p >= 0 {
			s.kidsAt[p+1]++
		}
	}
	for k := range many {
		s.kidsAt[k+1] += s.kidsAt[k]
	}
	s.kids = make([]int32, s.kidsAt[many])
	next := slices.Clone(s.kidsAt)
	var top [2]int
	for k, p := range s.parent {
		mine, other := 0, 1
		if s.odd[k] {
			mine, other = 1, 0
		}
		// What the children passed on is used up once this block is done, but
		// not before.
		s.boardAt[k] = top[mine]
		top[mine] += square(s.beyond(int32(k)))
		s.board[mine] = max(s.board[mine], top[mine])
		for _, c := range s.kids[s.kidsAt[k]:s.kidsAt[k+1]] {
			top[other] -= square(s.beyond(c))
		}
		if p >= 0 {
			s.kids[next[p]] = int32(k)
			next[p]++
		}
	}
	return nil
}

func square(x int) int { return x * x }

// beyond is how many rows of a block are not its own columns.
func (s *Symbolic) beyond(k int32) int { return s.rowsAt[k+1] - s.rowsAt[k] }

// fillRows lists the rows of each block beyond its own: row i is in those on
// the ways up the tree from what it meets.
func (s *Symbolic) fillRows(o ordered) {
	of := make([]int32, s.n)
	for k := range s.height {
		for j := s.first[k]; j < s.first[k+1]; j++ {
			of[j] = int32(k)
		}
	}
	s.rows = make([]int32, s.rowsAt[len(s.height)])
	next := slices.Clone(s.rowsAt)
	seen := make([]int32, len(s.height))
	for k := range seen {
		seen[k] = -1
	}
	for i := range int32(s.n) {
		for _, to := range o.of(o.perm[i]) {
			j := o.rank[to]
			if j > i {
				continue
			}
			for k := of[j]; k != of[i] && seen[k] != i; k = s.parent[k] {
				seen[k] = i
				s.rows[next[k]] = i
				next[k]++
			}
		}
	}
}

// fillWithin finds the rows of each block in the panel of its parent.
func (s *Symbolic) fillWithin() {
	s.within = make([]int32, len(s.rows))
	for k, p := range s.parent {
		if p < 0 {
			continue
		}
		first, end := s.first[p], s.first[p+1]
		above := s.rows[s.rowsAt[p]:s.rowsAt[p+1]]
		at := int32(0)
		for r := s.rowsAt[k]; r < s.rowsAt[k+1]; r++ {
			row := s.rows[r]
			if row < end {
				s.within[r] = row - first
				continue
			}
			for above[at] != row {
				at++
			}
			s.within[r] = end - first + at
		}
	}
}

// entry is where a value of the matrix goes in the panel of its block.
type entry struct{ slot, place int32 }

// fillEntries says where the values of the matrix go.
func (s *Symbolic) fillEntries(o ordered) {
	s.entryAt = make([]int32, 1, len(s.height)+1)
	s.entries = make([]entry, 0, len(s.row))
	in := make([]int32, s.n)
	for k, h := range s.height {
		first, end := s.first[k], s.first[k+1]
		for j := first; j < end; j++ {
			in[j] = j - first
		}
		for r, row := range s.rows[s.rowsAt[k]:s.rowsAt[k+1]] {
			in[row] = end - first + int32(r)
		}
		for j := first; j < end; j++ {
			i, column := o.perm[j], (j-first)*h
			s.entries = append(s.entries, entry{s.start[i], column + j - first})
			for e := o.start[i]; e < o.start[i+1]; e++ {
				if row := o.rank[o.to[e]]; row > j {
					s.entries = append(s.entries, entry{o.slot[e], column + in[row]})
				}
			}
		}
		s.entryAt = append(s.entryAt, int32(len(s.entries)))
	}
}
