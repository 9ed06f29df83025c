package lags

import "slices"

// part is a stretch of slots in which the load cannot be less than height.
type part struct{ from, to, height int32 }

// profile is the load of one resource by the activities that must be running:
// parts in order, apart, none of height 0.
type profile struct {
	parts []part
	edges []edge
	peak  int32
}

// edge is a rise or fall of the load.
type edge struct{ at, by int32 }

// build takes the compulsory parts of all tasks: from the latest start to the
// earliest finish.
func (f *profile) build(s *search, r *resource) {
	f.edges, f.parts, f.peak = f.edges[:0], f.parts[:0], 0
	for _, i := range r.tasks {
		if from, to := -s.b[2*i+1], s.b[2*i]+s.dur[i]; from < to {
			f.edges = append(f.edges, edge{from, r.demand[i]}, edge{to, -r.demand[i]})
		}
	}
	slices.SortFunc(f.edges, func(a, b edge) int { return int(a.at - b.at) })
	height := int32(0)
	for k, e := range f.edges {
		height += e.by
		if k+1 == len(f.edges) || f.edges[k+1].at == e.at || height == 0 {
			continue
		}
		f.parts = append(f.parts, part{e.at, f.edges[k+1].at, height})
		f.peak = max(f.peak, height)
	}
}

// followTable finds an overload or moves bounds past the slots that are full.
func (s *search) followTable(q int32) bool {
	r := &s.res[q]
	r.full.build(s, r)
	if r.full.peak > r.capacity {
		return s.overload(q)
	}
	for _, i := range r.tasks {
		if r.full.peak+r.demand[i] <= r.capacity {
			break // the tasks after it ask for no more
		}
		if !s.fixed(i) && !s.pass(q, i) {
			return false
		}
	}
	return true
}

// overload explains the first part that is over the capacity.
func (s *search) overload(q int32) bool {
	r := &s.res[q]
	for _, f := range r.full.parts {
		if f.height > r.capacity {
			s.clash = s.running(r, (f.from+f.to)/2, -1, r.capacity, s.clash[:0])
			return false
		}
	}
	return true
}

// pass moves task j out of the parts it does not fit into, from either side.
func (s *search) pass(q, j int32) bool {
	r := &s.res[q]
	from, to := -s.b[2*j+1], s.b[2*j]+s.dur[j] // its own part of the profile
	over := func(f part) bool {
		own := f.from >= from && f.from < to
		return !own && f.height+r.demand[j] > r.capacity
	}
	for _, f := range r.full.parts {
		if f.from >= s.b[2*j]+s.dur[j] {
			break
		}
		if f.to > s.b[2*j] && over(f) && !s.later(q, j, f) {
			return false
		}
	}
	for k := len(r.full.parts) - 1; k >= 0; k-- {
		f := r.full.parts[k]
		if f.to <= -s.b[2*j+1] {
			break
		}
		if f.from < -s.b[2*j+1]+s.dur[j] && over(f) && !s.earlier(q, j, f) {
			return false
		}
	}
	return true
}

// later moves the earliest start of j past a part, by no more than its duration
// at a time so that each step is explained by one slot.
func (s *search) later(q, j int32, f part) bool {
	for s.b[2*j] < f.to {
		t := min(f.to, s.b[2*j]+s.dur[j]) - 1
		if !s.raise(atom{2 * j, t + 1}, reason{kind: byTable, a: q, t: t}) {
			return false
		}
	}
	return true
}

// earlier moves the latest start of j so that it is over when a part begins.
func (s *search) earlier(q, j int32, f part) bool {
	for -s.b[2*j+1]+s.dur[j] > f.from {
		t := max(f.from, -s.b[2*j+1])
		if !s.raise(atom{2*j + 1, s.dur[j] - t}, reason{kind: byTable, a: q, t: t}) {
			return false
		}
	}
	return true
}

// explainTable gives the tasks that fill the slot and the bound by which the
// task moved would run in it.
func (s *search) explainTable(a atom, why reason, list []atom) []atom {
	r, j, t := &s.res[why.a], a.side>>1, why.t
	if a.side&1 == 0 {
		list = append(list, atom{a.side, t + 1 - s.dur[j]})
	} else {
		list = append(list, atom{a.side, -t})
	}
	return s.running(r, t, j, r.capacity-r.demand[j], list)
}

// running appends why the fewest tasks other than j that hold more than most
// at slot t must run then.
func (s *search) running(r *resource, t, j, most int32, list []atom) []atom {
	for _, i := range r.tasks {
		if i == j || -s.b[2*i+1] > t || s.b[2*i]+s.dur[i] <= t {
			continue
		}
		list = append(list, atom{2 * i, t + 1 - s.dur[i]}, atom{2*i + 1, -t})
		if most -= r.demand[i]; most < 0 {
			break
		}
	}
	return list
}
