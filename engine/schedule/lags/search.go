package lags

import "slices"

// arc says that side to is at least side from plus d, as far as cond holds. An
// arc without a condition has one that holds from the beginning.
type arc struct {
	from, to, d int32
	cond        atom
}

// resource is one capacity and who calls on it, largest demand first.
type resource struct {
	capacity int32
	tasks    []int32
	demand   []int32 // by activity
	full     profile
	stale    bool // some bound of a task has moved since the last look
}

// search is the state with everything that can be concluded from it.
type search struct {
	*state
	n       int32 // activities; variable n is the end of the project
	dur     []int32
	arcs    []arc
	out     [][]int32 // arcs from each side
	when    [][]int32 // arcs whose condition is on each side
	pairs   [][2]int32
	res     []resource
	uses    [][]int32 // resources of each activity
	cliques []clique
	within  [][]int32 // cliques of each activity
	watch   [][]watcher
	rules   []*rule
	learn   learner
	pick    picker
	stats   Stats
}

// certain is a condition that always holds: the end of the project is not before 0.
func certain(n int32) atom { return atom{2 * n, 0} }

// newSearch sets out the variables: a start for each activity, the end, and for
// each open pair which of the two goes first (1: the first).
func newSearch(p *Problem, c *closure, most int) *search {
	n := len(p.Duration)
	lo, hi := c.heads(), make([]int, n+1)
	for i := range hi {
		hi[i] = most
		if i < n {
			hi[i] -= max(c.d[i][n], 0)
		}
	}
	for i := range n {
		if first(c, i) {
			hi[i] = 0
		}
	}
	for range c.open {
		lo, hi = append(lo, 0), append(hi, 1)
	}
	s := &search{state: newState(lo, hi), n: int32(n)}
	s.out, s.when, s.watch = make([][]int32, len(s.b)), make([][]int32, len(s.b)), make([][]watcher, len(s.b))
	for _, d := range p.Duration {
		s.dur = append(s.dur, int32(d))
	}
	s.addArcs(p, c)
	s.addResources(p)
	s.addCliques(p, c)
	return s
}

// first says whether nothing can start before i: then i may as well start at 0.
func first(c *closure, i int) bool {
	for j := range len(c.d) {
		if c.d[i][j] < 0 {
			return false
		}
	}
	return true
}

func (s *search) addArcs(p *Problem, c *closure) {
	always := certain(s.n)
	for _, l := range p.Lags {
		s.addArc(l.From, l.To, l.Min, always)
	}
	for _, l := range c.order {
		s.addArc(l.From, l.To, l.Min, always)
	}
	for i, d := range p.Duration {
		s.addArc(i, int(s.n), d, always)
	}
	for k, o := range c.open {
		v := s.n + 1 + int32(k)
		s.pairs = append(s.pairs, [2]int32{int32(o[0]), int32(o[1])})
		s.addArc(o[0], o[1], p.Duration[o[0]], atom{2 * v, 1})
		s.addArc(o[1], o[0], p.Duration[o[1]], atom{2*v + 1, 0})
	}
}

// addArc adds an arc between two variables for both of their sides.
func (s *search) addArc(i, j, d int, cond atom) {
	if i == j {
		return
	}
	from, to := int32(2*i), int32(2*j)
	for _, a := range []arc{{from, to, int32(d), cond}, {to ^ 1, from ^ 1, int32(d), cond}} {
		k := int32(len(s.arcs))
		s.arcs = append(s.arcs, a)
		s.out[a.from] = append(s.out[a.from], k)
		if cond != certain(s.n) {
			s.when[cond.side] = append(s.when[cond.side], k)
		}
	}
}

func (s *search) addResources(p *Problem) {
	s.uses = make([][]int32, s.n)
	for q, c := range p.Capacity {
		r := resource{capacity: int32(c), demand: make([]int32, s.n), stale: true}
		total := 0
		for i := range p.Duration {
			if d := p.Demand[i][q]; d > 0 && p.Duration[i] > 0 {
				r.tasks, r.demand[i] = append(r.tasks, int32(i)), int32(d)
				total += d
			}
		}
		if total <= c {
			continue
		}
		slices.SortStableFunc(r.tasks, func(a, b int32) int { return int(r.demand[b] - r.demand[a]) })
		for _, i := range r.tasks {
			s.uses[i] = append(s.uses[i], int32(len(s.res)))
		}
		s.res = append(s.res, r)
	}
}
