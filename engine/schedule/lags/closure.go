package lags

import "slices"

// never is the longest path where there is none.
const never = -1 << 40

// closure is what lags and disjoint pairs say without any search. Nodes are
// the activities and, last, the end of the project.
type closure struct {
	d     [][]int  // longest path from node to node; never where there is none
	order []Lag    // pairs settled: From is over before To begins
	open  [][2]int // pairs that must not overlap, either order still possible
}

// cycle returns the lags of a way round that adds up to more than nothing, nil
// if there is none: a Bellman-Ford from all activities at once.
func cycle(p *Problem) []int {
	n := len(p.Duration)
	start, by := make([]int, n), make([]int, n)
	last := -1
	for range n + 1 {
		last = -1
		for k, l := range p.Lags {
			if s := start[l.From] + l.Min; s > start[l.To] {
				start[l.To], by[l.To], last = s, k, l.To
			}
		}
		if last < 0 {
			return nil
		}
	}
	for range n {
		last = p.Lags[by[last]].From
	}
	var way []int
	for at := last; ; {
		way = append(way, by[at])
		if at = p.Lags[by[at]].From; at == last {
			slices.Reverse(way)
			return way
		}
	}
}

// newClosure takes the longest paths of a problem without a cycle (Floyd and
// Warshall).
func newClosure(p *Problem) *closure {
	n := len(p.Duration)
	c := &closure{d: make([][]int, n+1)}
	for i := range c.d {
		c.d[i] = slices.Repeat([]int{never}, n+1)
		c.d[i][i] = 0
	}
	for i, dur := range p.Duration {
		c.d[i][n] = dur
	}
	for _, l := range p.Lags {
		c.d[l.From][l.To] = max(c.d[l.From][l.To], l.Min)
	}
	for k := range c.d {
		c.through(k, k, 0)
	}
	return c
}

// through lengthens the paths that go from node a to node b over an arc.
func (c *closure) through(a, b, arc int) {
	for _, row := range c.d {
		if row[a] == never {
			continue
		}
		head := row[a] + arc
		for j, tail := range c.d[b] {
			if tail != never && head+tail > row[j] {
				row[j] = head + tail
			}
		}
	}
}

// settle orders the pairs that cannot overlap and of which lags bar one order,
// until nothing changes. It returns a pair of which both are barred.
func (c *closure) settle(p *Problem) (pair [2]int, clash bool) {
	for i := range p.Duration {
		for j := range i {
			if disjoint(p, i, j) {
				c.open = append(c.open, [2]int{j, i})
			}
		}
	}
	for changed := true; changed; {
		changed = false
		var rest [][2]int
		for _, o := range c.open {
			barred, back := c.barred(p, o[0], o[1]), c.barred(p, o[1], o[0])
			switch {
			case barred && back:
				return o, true
			case barred:
				c.before(p, o[1], o[0])
			case back:
				c.before(p, o[0], o[1])
			default:
				rest = append(rest, o)
				continue
			}
			changed = true
		}
		c.open = rest
	}
	return pair, false
}

// barred says whether lags keep i from being over before j begins.
func (c *closure) barred(p *Problem, i, j int) bool {
	return c.d[j][i] != never && p.Duration[i]+c.d[j][i] > 0
}

func (c *closure) before(p *Problem, i, j int) {
	if c.d[i][j] >= p.Duration[i] {
		return
	}
	c.order = append(c.order, Lag{i, j, p.Duration[i]})
	c.through(i, j, p.Duration[i])
}

// disjoint says whether some resource cannot hold both at once.
func disjoint(p *Problem, i, j int) bool {
	if p.Duration[i] == 0 || p.Duration[j] == 0 {
		return false
	}
	for q, c := range p.Capacity {
		if p.Demand[i][q]+p.Demand[j][q] > c {
			return true
		}
	}
	return false
}

// bound is the longest path to the end of the project.
func (c *closure) bound() int {
	end, b := len(c.d)-1, 0
	for _, row := range c.d {
		b = max(b, row[end])
	}
	return b
}

// heads are the earliest starts, the end of the project last.
func (c *closure) heads() []int {
	h := make([]int, len(c.d))
	for _, row := range c.d {
		for j, d := range row {
			h[j] = max(h[j], d)
		}
	}
	return h
}
