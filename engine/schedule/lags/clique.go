package lags

import "slices"

// clique is activities of which no two can overlap: one machine.
type clique struct {
	tasks   []int32
	longest int32   // duration
	ends    []int32 // scratch: latest finishes in order
	spans   []span  // scratch: tasks by earliest start, latest first
	stale   bool
}

// mostCliques bounds the cliques kept; every one costs time at each bound moved.
const mostCliques = 8

// addCliques covers the pairs that cannot overlap by cliques, greedily: from
// the longest activity with pairs not yet covered, by most such pairs, then by
// duration.
func (s *search) addCliques(p *Problem, c *closure) {
	s.within = make([][]int32, s.n)
	bare := make([][]bool, s.n) // pairs apart and not covered
	apart := make([][]bool, s.n)
	for i := range s.n {
		bare[i], apart[i] = make([]bool, s.n), make([]bool, s.n)
		for j := range s.n {
			a, b := int(i), int(j)
			free := p.Duration[a] == 0 || p.Duration[b] == 0
			apart[i][j] = i != j && !free && (disjoint(p, a, b) || c.d[a][b] >= p.Duration[a] || c.d[b][a] >= p.Duration[b])
		}
	}
	for _, o := range c.open {
		bare[o[0]][o[1]], bare[o[1]][o[0]] = true, true
	}
	for range mostCliques {
		tasks := s.grow(apart, bare)
		if len(tasks) < 3 {
			return
		}
		for _, i := range tasks {
			for _, j := range tasks {
				bare[i][j] = false
			}
			s.within[i] = append(s.within[i], int32(len(s.cliques)))
		}
		s.cliques = append(s.cliques, clique{tasks: tasks, longest: s.most(tasks), stale: true})
	}
}

// most is the longest duration of some tasks.
func (s *search) most(tasks []int32) int32 {
	d := int32(0)
	for _, i := range tasks {
		d = max(d, s.dur[i])
	}
	return d
}

func (s *search) grow(apart, bare [][]bool) []int32 {
	var tasks []int32
	for {
		best, most := int32(-1), int32(0)
		for i := range s.n {
			if worth := s.worth(i, tasks, apart, bare); worth > most {
				best, most = i, worth
			}
		}
		if best < 0 {
			return tasks
		}
		tasks = append(tasks, best)
	}
}

// worth is what activity i adds to a clique; 0 if it does not belong there.
func (s *search) worth(i int32, tasks []int32, apart, bare [][]bool) int32 {
	fresh := int32(0)
	for _, j := range tasks {
		if !apart[i][j] {
			return 0
		}
		if bare[i][j] {
			fresh++
		}
	}
	if len(tasks) == 0 {
		for _, b := range bare[i] {
			if b {
				fresh++
			}
		}
		if fresh == 0 {
			return 0
		}
	}
	return 1 + s.dur[i]*(1+fresh)
}

// early is the earliest start of a task as seen from a side: side 1 sees time
// run backwards.
func (s *search) early(i, side int32) int32 { return s.b[2*i+side] - side*s.dur[i] }

// due is its latest finish as seen from a side.
func (s *search) due(i, side int32) int32 { return -s.early(i, side^1) }

// from is the atom that the task starts at t or later as seen from a side.
func (s *search) from(i, side, t int32) atom { return atom{2*i + side, t + side*s.dur[i]} }

// followClique looks for windows that hold more work than time, and for tasks
// that must come after all work of a window (edge finding).
func (s *search) followClique(k int32) bool {
	return s.edges(k, 0) && s.edges(k, 1)
}

// span is a task of a clique as seen from one side when the look began.
type span struct{ task, early, due, dur int32 }

func (s *search) edges(k, side int32) bool {
	c := &s.cliques[k]
	c.spans, c.ends = c.spans[:0], c.ends[:0]
	for _, i := range c.tasks {
		f := span{i, s.early(i, side), s.due(i, side), s.dur[i]}
		c.spans, c.ends = append(c.spans, f), append(c.ends, f.due)
	}
	slices.Sort(c.ends)
	slices.SortFunc(c.spans, func(a, b span) int { return int(b.early - a.early) })
	for n, b := range c.ends {
		if n+1 < len(c.ends) && c.ends[n+1] == b {
			continue
		}
		if !s.window(k, side, b) {
			return false
		}
	}
	return true
}

// window looks at all windows that end at b.
func (s *search) window(k, side, b int32) bool {
	c, sum := &s.cliques[k], int32(0)
	for _, f := range c.spans {
		if f.due > b {
			continue
		}
		sum += f.dur
		if f.early+sum > b {
			s.clash, _ = s.crowd(c, side, f.early, b, -1, s.clash[:0])
			return false
		}
		if f.early+sum+c.longest > b && !s.after(k, side, f.early, b, sum) {
			return false
		}
	}
	return true
}

// after moves the tasks that fit into the window neither before nor between
// its work behind it.
func (s *search) after(k, side, a, b, sum int32) bool {
	for _, f := range s.cliques[k].spans {
		if f.early+sum+s.cliques[k].longest <= b {
			return true // and those after it begin no later
		}
		if f.due <= b || min(a, f.early)+sum+f.dur <= b {
			continue
		}
		if !s.raise(s.from(f.task, side, a+sum), reason{kind: byClique, a: 2*k + side, t: a, u: b}) {
			return false
		}
	}
	return true
}

// crowd appends why the tasks of the window other than one run inside it.
func (s *search) crowd(c *clique, side, a, b, but int32, list []atom) ([]atom, int32) {
	sum := int32(0)
	for _, i := range c.tasks {
		if i != but && s.early(i, side) >= a && s.due(i, side) <= b {
			sum += s.dur[i]
			list = append(list, s.from(i, side, a), s.from(i, side^1, -b))
		}
	}
	return list, sum
}

// explainClique gives the work of the window, and that the task cannot come
// before it.
func (s *search) explainClique(x atom, why reason, list []atom) []atom {
	c, side, i := &s.cliques[why.a/2], why.a&1, x.side>>1
	list, sum := s.crowd(c, side, why.t, why.u, i, list)
	return append(list, s.from(i, side, why.u-s.dur[i]-sum+1))
}
