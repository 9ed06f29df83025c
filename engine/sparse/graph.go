package sparse

import "slices"

// graph is the pattern of a matrix both ways and without its diagonal: row i
// meets to[start[i]:start[i+1]], ascending; slot says where in Matrix.Value.
type graph struct {
	start, to, slot []int32
}

func newGraph(m *Matrix) graph {
	n := m.N
	g := graph{start: make([]int32, n+1)}
	for j := range n {
		for _, i := range m.Row[m.Start[j]+1 : m.Start[j+1]] {
			g.start[i+1]++
			g.start[j+1]++
		}
	}
	for i := range n {
		g.start[i+1] += g.start[i]
	}
	g.to, g.slot = make([]int32, g.start[n]), make([]int32, g.start[n])
	next := slices.Clone(g.start[:n])
	put := func(i, j, slot int32) {
		g.to[next[i]], g.slot[next[i]] = j, slot
		next[i]++
	}
	// What lies before the diagonal comes with the columns before; so all of
	// row j before j is there when column j is reached.
	for j := range int32(n) {
		for k := m.Start[j] + 1; k < m.Start[j+1]; k++ {
			put(m.Row[k], j, k)
			put(j, m.Row[k], k)
		}
	}
	return g
}

// of lists what row i meets.
func (g graph) of(i int32) []int32 { return g.to[g.start[i]:g.start[i+1]] }

// twins gathers rows that meet each other and the same others: one of them
// stands for all in the search for an order, as the two coordinates of a vertex
// do. It returns the class of each row, numbered by its first member, and how
// many rows each class has.
func (g graph) twins() (class, weight []int32) {
	n := len(g.start) - 1
	class = make([]int32, n)
	first := map[uint64]int32{} // by hash, the latest class; older ones through chain
	chain := []int32(nil)
	var leader []int32
	for i := range int32(n) {
		h := spread(uint64(i))
		for _, j := range g.of(i) {
			h += spread(uint64(j))
		}
		at, found := first[h]
		if !found {
			at = -1
		}
		c := at
		for c >= 0 && !g.same(leader[c], i) {
			c = chain[c]
		}
		if c < 0 {
			c = int32(len(leader))
			leader, chain, weight = append(leader, i), append(chain, at), append(weight, 0)
			first[h] = c
		}
		class[i] = c
		weight[c]++
	}
	return class, weight
}

func spread(x uint64) uint64 {
	x = (x + 0x9e3779b97f4a7c15) * 0xbf58476d1ce4e5b9
	return x ^ x>>29
}

// same says whether rows i < j meet each other and the same others.
func (g graph) same(i, j int32) bool {
	a, b := g.of(i), g.of(j)
	if len(a) != len(b) {
		return false
	}
	p, q := 0, 0
	for {
		if p < len(a) && a[p] == j {
			p++
			continue
		}
		if q < len(b) && b[q] == i {
			q++
			continue
		}
		if p == len(a) || q == len(b) {
			return p == len(a) && q == len(b)
		}
		if a[p] != b[q] {
			return false
		}
		p++
		q++
	}
}

// quotient is the graph of the classes.
func (g graph) quotient(class, weight []int32) graph {
	if len(weight) == len(class) {
		return g
	}
	q := graph{start: make([]int32, 1, len(weight)+1)}
	seen := make([]int32, len(weight))
	done := int32(0)
	for i := range int32(len(class)) {
		if class[i] != done {
			continue
		}
		done++
		seen[class[i]] = done
		for _, j := range g.of(i) {
			if c := class[j]; seen[c] != done {
				seen[c] = done
				q.to = append(q.to, c)
			}
		}
		q.start = append(q.start, int32(len(q.to)))
	}
	return q
}
