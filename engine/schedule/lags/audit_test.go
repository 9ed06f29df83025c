package lags

import (
	"testing"

	"pgregory.net/rapid"
)

// all are the schedules of a problem with no finish after span.
func all(p Problem, starts []int, span int) [][]int {
	i := len(starts)
	if i == len(p.Duration) {
		if Check(p, starts) != nil {
			return nil
		}
		return [][]int{starts}
	}
	var list [][]int
	for t := range span - p.Duration[i] + 1 {
		if next := append(starts[:i:i], t); lagsKept(p, next) {
			list = append(list, all(p, next, span)...)
		}
	}
	return list
}

// sides are the bounds of a search in which every variable has the value of
// one schedule.
func (s *search) sides(starts []int, end int) []int32 {
	var v []int
	v = append(append(v, starts...), end)
	for _, o := range s.pairs {
		k := 0
		if starts[o[0]] < starts[o[1]] {
			k = 1
		}
		v = append(v, k)
	}
	var b []int32
	for _, x := range v {
		b = append(b, int32(x), int32(-x))
	}
	return b
}

// allows says whether the values keep the bounds of the root (of schedules that
// differ by a shift only the earliest may be left) and the end is after all work.
func (s *search) allows(b []int32) bool {
	for x := range b {
		if b[x] < s.b[x] {
			return false
		}
	}
	for i, d := range s.dur {
		if b[2*i]+d > b[2*s.n] {
			return false
		}
	}
	return true
}

// audit fails if a schedule agrees with all atoms of an explanation and not
// with what it explains.
func audit(t *rapid.T, worlds [][]int32, list []atom, then *atom, kind kind) {
	for _, b := range worlds {
		agrees := then == nil || b[then.side] < then.v
		for _, a := range list {
			agrees = agrees && b[a.side] >= a.v
		}
		if agrees {
			t.Fatalf("rule of kind %d: %v does not bring about %v in %v", kind, list, then, b)
		}
	}
}

// few draws a problem small enough to have all its schedules listed.
func few(t *rapid.T) (Problem, int) {
	p := small(t)
	if rapid.Bool().Draw(t, "machine") {
		p = machine(t)
	}
	n := min(len(p.Duration), 5)
	cut := Problem{Duration: p.Duration[:n], Demand: p.Demand[:n], Capacity: p.Capacity}
	for _, l := range p.Lags {
		if max(l.From, l.To) < n {
			cut.Lags = append(cut.Lags, l)
		}
	}
	return cut, rapid.IntRange(6, 12).Draw(t, "span")
}

// Whatever the search concludes and however it explains it, for every bound it
// might be asked about: it holds in all schedules there are.
func TestExplain_HoldsInEverySchedule(t *testing.T) {
	seen := map[kind]int{}
	rapid.Check(t, func(t *rapid.T) {
		p, span := few(t)
		c, why := prepare(&p)
		if why.Proof != NoProof {
			return
		}
		s := newSearch(&p, c, span)
		s.pick = newPicker(len(s.b)/2, 0)
		for k := range len(s.b) / 2 {
			if s.b[2*k]+s.b[2*k+1] > 0 {
				return // does not fit the span to begin with
			}
		}
		var worlds [][]int32
		for _, starts := range all(p, nil, span) {
			for end := range span + 1 {
				if b := s.sides(starts, end); s.allows(b) {
					worlds = append(worlds, b)
				}
			}
		}
		for range 12 {
			decideAndAudit(t, s, worlds, seen)
		}
	})
	t.Logf("conclusions looked at, by kind: %v", seen)
	if seen[byArc] == 0 || seen[byTable] == 0 {
		t.Errorf("too little was drawn: %v", seen)
	}
}

// decideAndAudit goes down to a clash or a schedule by drawn decisions, looks
// at every conclusion on the way back and learns the rule.
func decideAndAudit(t *rapid.T, s *search, worlds [][]int32, seen map[kind]int) {
	s.back(0)
	for s.follow() {
		var open []int32
		for k := range int32(len(s.b) / 2) {
			if !s.fixed(k) {
				open = append(open, 2*k, 2*k+1)
			}
		}
		if len(open) == 0 {
			return
		}
		x := rapid.SampledFrom(open).Draw(t, "side")
		s.marks = append(s.marks, int32(len(s.trail)))
		s.set(atom{x, rapid.Int32Range(s.b[x]+1, -s.b[x^1]).Draw(t, "bound")}, reason{})
	}
	audit(t, worlds, s.clash, nil, byChoice)
	clash := append([]atom(nil), s.clash...)
	copied := *s.state
	copied.b, copied.last = append([]int32(nil), s.b...), append([]int32(nil), s.last...)
	copied.trail = append([]entry(nil), s.trail...)
	for len(s.trail) > 0 {
		e := s.trail[len(s.trail)-1]
		v := s.b[e.side]
		s.undo()
		for ; v > e.old && e.why.kind != byChoice; v-- {
			seen[e.why.kind]++
			a := atom{e.side, v}
			audit(t, worlds, s.explain(a, e.why, nil), &a, e.why.kind)
		}
	}
	copied.clash = clash
	*s.state = copied
	r, level := s.analyse()
	if level < 0 {
		return
	}
	var not []atom
	for _, a := range r.atoms {
		not = append(not, a.not())
	}
	audit(t, worlds, not, nil, byRule)
	s.back(0)
	if len(r.atoms) > 1 {
		s.addRule(r)
	}
}
