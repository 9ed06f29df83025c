package loom

import (
	"cmp"
	"slices"

	"fettle/engine/sparse"
	"fettle/fault"
)

// pattern is what the branches of a net alone say of the factors G = L D Lᵀ: the
// order of elimination, found by engine/sparse, and where every number goes. Nets
// of wires are nearly trees, so L has hardly more places than there are branches
// and is worked out row by row, without panels.
type pattern struct {
	n        int
	order    []int32    // node eliminated k-th
	place    []int32    // of a node in the order
	ends     [][2]int32 // of branches, by place, the later first
	start    []int32    // columns of L: row[start[j]:start[j+1]], ascending
	row      []int32
	rowAt    []int32 // rows of L: col[rowAt[k]:rowAt[k+1]], ascending
	col      []int32
	put      []int32 // beside col: where the number stands in its column
	upAt     []int32 // branches whose later end is k: up[upAt[k]:upAt[k+1]]
	up       []int32
	touching [][]int32 // branches by node
	after    []int32   // row in the order that row k passes on to, −1: none
}

func patternOf(n *net) (*pattern, error) {
	entries := make([]sparse.Entry, 0, len(n.names)+len(n.branches))
	for i := range n.names {
		entries = append(entries, sparse.Entry{Row: int32(i), Col: int32(i), Value: 1})
	}
	for i := range n.branches {
		e := &n.branches[i]
		entries = append(entries, sparse.Entry{Row: max(e.a, e.b), Col: min(e.a, e.b)})
	}
	m, err := sparse.Assemble(len(n.names), entries)
	if err != nil {
		return nil, err
	}
	s, err := sparse.Analyse(m)
	if err != nil {
		return nil, err
	}
	return patternIn(n, patternIn(n, s.Order()).byHeight()), nil
}

// patternIn lays L out in an order of elimination.
func patternIn(n *net, order []int32) *pattern {
	p := &pattern{n: len(n.names), order: order, place: make([]int32, len(order)), ends: make([][2]int32, len(n.branches)), touching: n.touching}
	for k, i := range p.order {
		p.place[i] = int32(k)
	}
	for i := range n.branches {
		a, b := p.place[n.branches[i].a], p.place[n.branches[i].b]
		p.ends[i] = [2]int32{max(a, b), min(a, b)}
	}
	p.upAt, p.up = listed(p.n, p.ends, func(e [2]int32) int32 { return e[0] })
	p.fill()
	return p
}

// byHeight orders nodes by their height in the elimination tree. L has as many
// places in any order that keeps what hands on before what it hands to; in this
// one, rows side by side do not wait for each other.
func (p *pattern) byHeight() []int32 {
	height := make([]int32, p.n)
	for k, after := range p.after {
		if after >= 0 {
			height[after] = max(height[after], height[k]+1)
		}
	}
	order := slices.Clone(p.order)
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(height[p.place[a]], height[p.place[b]]) })
	return order
}

// listed sorts branches by one of their ends.
func listed(n int, ends [][2]int32, of func([2]int32) int32) (at, list []int32) {
	at = make([]int32, n+1)
	for _, e := range ends {
		at[of(e)+1]++
	}
	for k := range n {
		at[k+1] += at[k]
	}
	list = make([]int32, len(ends))
	next := append([]int32{}, at...)
	for i, e := range ends {
		list[next[of(e)]] = int32(i)
		next[of(e)]++
	}
	return at, list
}

// fill finds the places of L: row k has those columns that a walk up the
// elimination tree from each of its branches meets before k.
func (p *pattern) fill() {
	parent, mark := make([]int32, p.n), make([]int32, p.n)
	p.after = parent
	count := make([]int32, p.n+1)
	p.rowAt = make([]int32, 1, p.n+1)
	for k := range int32(p.n) {
		parent[k], mark[k] = -1, k
		from := len(p.col)
		for _, i := range p.up[p.upAt[k]:p.upAt[k+1]] {
			for j := p.ends[i][1]; mark[j] != k; j = parent[j] {
				if mark[j] = k; parent[j] < 0 {
					parent[j] = k
				}
				p.col = append(p.col, j)
				count[j+1]++
			}
		}
		slices.Sort(p.col[from:])
		p.rowAt = append(p.rowAt, int32(len(p.col)))
	}
	p.start = count
	for j := range p.n {
		p.start[j+1] += p.start[j]
	}
	next := append([]int32{}, p.start...)
	p.row, p.put = make([]int32, len(p.col)), make([]int32, len(p.col))
	for k := range p.n {
		for t := p.rowAt[k]; t < p.rowAt[k+1]; t++ {
			j := p.col[t]
			p.put[t], p.row[next[j]] = next[j], int32(k)
			next[j]++
		}
	}
}

// linear solves G v = i for conductances on the branches of one net. From one
// state to the next few branches change, and only rows behind them are worked
// out anew, to the same bits as all of them would be.
type linear struct {
	*pattern
	l        []float64
	d        []float64 // 1 ÷ D
	y        []float64
	whole    []float64 // diagonal before elimination, by place
	siemens  []float64 // as last factored
	held     []bool    // by place, as last factored
	holds    []bool    // by place, asked for now
	stale    []bool    // diagonal is to be summed anew
	dirty    []bool    // row is to be worked out anew
	factored bool
	factors  int
}

func newLinear(p *pattern) *linear {
	l := &linear{pattern: p, l: make([]float64, len(p.row)), siemens: make([]float64, len(p.ends))}
	for _, list := range []*[]float64{&l.d, &l.y, &l.whole} {
		*list = make([]float64, p.n)
	}
	for _, list := range []*[]bool{&l.held, &l.holds, &l.stale, &l.dirty} {
		*list = make([]bool, p.n)
	}
	return l
}

// refactor takes the conductance in siemens of every branch, and the nodes that
// are held at 0 V, one in every part of the net that hangs together: no current
// flows there, so the volts are those without it.
func (l *linear) refactor(siemens []float64, held []int32) error {
	l.factors++
	l.changed(siemens, held)
	y := l.y
	for k := range l.n {
		if !l.dirty[k] {
			continue
		}
		l.dirty[k] = false
		for _, i := range l.up[l.upAt[k]:l.upAt[k+1]] {
			if e := l.ends[i]; e[1] != e[0] {
				y[e[1]] -= siemens[i]
			}
		}
		d := l.whole[k]
		for t := l.rowAt[k]; t < l.rowAt[k+1]; t++ {
			j, at := l.col[t], l.put[t]
			yj := y[j]
			y[j] = 0
			if yj == 0 {
				l.l[at] = 0
				continue
			}
			for p := l.start[j]; p < at; p++ {
				y[l.row[p]] -= float64(l.l[p] * yj)
			}
			x := yj * l.d[j]
			d -= float64(x * yj)
			l.l[at] = x
		}
		if !(d > 1e-13*l.whole[k]) {
			l.factored = false
			clear(l.dirty)
			return fault.New(fault.Internal, "the net hangs loose at node %d", l.order[k])
		}
		l.d[k] = 1 / d
	}
	l.factored = true
	return nil
}

// changed marks the rows behind whatever is not as it was.
func (l *linear) changed(siemens []float64, held []int32) {
	clear(l.holds)
	for _, i := range held {
		l.holds[l.place[i]] = true
	}
	for i, e := range l.ends {
		if g := siemens[i]; g != l.siemens[i] || !l.factored {
			l.siemens[i] = g
			l.stale[e[0]], l.stale[e[1]] = true, true
		}
	}
	for k := range l.whole {
		if !l.stale[k] && l.holds[k] == l.held[k] && l.factored {
			continue
		}
		l.stale[k] = false
		l.whole[k] = l.diagonal(int32(k))
		for at := int32(k); at >= 0 && !l.dirty[at]; at = l.after[at] {
			l.dirty[at] = true
		}
	}
	l.held, l.holds = l.holds, l.held
}

// diagonal is the conductance of all branches at a place, and 1 S where it is
// held.
func (l *linear) diagonal(k int32) float64 {
	sum := 0.0
	for _, i := range l.touching[l.order[k]] {
		if e := l.ends[i]; e[0] != e[1] {
			sum += l.siemens[i]
		}
	}
	if l.holds[k] {
		sum++
	}
	return sum
}

// solve sets v to the volts that the injected amps bring about.
func (l *linear) solve(v, amps []float64) {
	y := l.y
	for k, i := range l.order {
		y[k] = amps[i]
	}
	for j := range l.n {
		if yj := y[j]; yj != 0 {
			for p := l.start[j]; p < l.start[j+1]; p++ {
				y[l.row[p]] -= float64(l.l[p] * yj)
			}
		}
	}
	for j := l.n - 1; j >= 0; j-- {
		s := y[j] * l.d[j]
		for p := l.start[j]; p < l.start[j+1]; p++ {
			s -= float64(l.l[p] * y[l.row[p]])
		}
		y[j] = s
	}
	for k, i := range l.order {
		v[i] = y[k]
	}
	clear(y)
}
