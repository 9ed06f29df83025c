package lags

import "math"

// learner turns a clash into a rule.
type learner struct {
	need  []int32 // by side: bound the clash rests on; none where it does not
	sides []int32 // sides with a need, now or before
	here  int     // needs met at the level of the clash only
	found []atom  // the rule being made
	why   []atom
	seen  []int32 // by level: the last rule that touched it
	turn  int32
}

const (
	none = math.MinInt32 // never needed in this clash
	gone = none + 1      // needed, and replaced by its reasons
)

// analyse goes back from the clash to the one atom of its level that the rest
// follows from (the first unique implication point), and returns the opposite
// of it with the opposites of what was needed from before: a rule. The atom is
// first. The level returned is where it is the only one left to hold; -1 says
// that the clash needs nothing at all: there is no schedule.
func (s *search) analyse() (r *rule, level int32) {
	l := &s.learn
	l.reset(len(s.b))
	if level = s.clashLevel(); level == 0 {
		return nil, -1
	}
	s.back(level)
	for _, a := range s.clash {
		s.require(a)
	}
	for {
		e := s.trail[len(s.trail)-1]
		v := l.need[e.side]
		s.undo()
		if v <= e.old {
			continue
		}
		if l.here == 1 {
			l.found = append(l.found[:0], atom{e.side, v}.not())
			l.need[e.side] = gone
			return s.rest()
		}
		l.need[e.side] = gone
		l.here--
		s.bump(e.side)
		if e.why.rule != nil {
			e.why.rule.used++
		}
		l.why = s.explain(atom{e.side, v}, e.why, l.why[:0])
		for _, a := range l.why {
			s.require(a)
		}
	}
}

func (l *learner) reset(sides int) {
	if l.need == nil {
		l.need = make([]int32, sides)
		for x := range l.need {
			l.need[x] = none
		}
	}
	for _, x := range l.sides {
		l.need[x] = none
	}
	l.sides, l.here = l.sides[:0], 0
}

// clashLevel is the level at which all atoms of the clash hold.
func (s *search) clashLevel() int32 {
	level := int32(0)
	for _, a := range s.clash {
		if e := s.origin(a); e >= 0 {
			level = max(level, s.trail[e].level)
		}
	}
	return level
}

// require adds an atom to what the clash rests on.
func (s *search) require(a atom) {
	l := &s.learn
	before := l.need[a.side]
	if a.v <= before {
		return
	}
	e := s.origin(a)
	if e < 0 {
		return
	}
	if before == none {
		l.sides = append(l.sides, a.side)
	}
	mark := s.marks[s.level()-1]
	was := before > gone && s.origin(atom{a.side, before}) >= mark
	l.need[a.side] = a.v
	if e >= mark && !was {
		l.here++
	}
}

// rest adds the needs from before the level of the clash to the rule, without
// those that follow from the others.
func (s *search) rest() (*rule, int32) {
	l := &s.learn
	l.turn++
	level, spread := int32(0), int32(1)
	for _, x := range l.sides {
		a := atom{x, l.need[x]}
		if a.v == gone || s.redundant(a) {
			continue
		}
		at := s.trail[s.origin(a)].level
		l.found = append(l.found, a.not())
		if last := len(l.found) - 1; at > level {
			level = at
			l.found[1], l.found[last] = l.found[last], l.found[1]
		}
		if l.mark(at) {
			spread++
		}
		s.bump(x)
	}
	s.bump(l.found[0].side)
	return &rule{atoms: append([]atom(nil), l.found...), spread: spread}, level
}

// mark says whether the level is new to this rule.
func (l *learner) mark(level int32) bool {
	for int(level) >= len(l.seen) {
		l.seen = append(l.seen, 0)
	}
	fresh := l.seen[level] != l.turn
	l.seen[level] = l.turn
	return fresh
}

// redundant says whether older needs make an atom hold by the very rule that
// did: then it adds nothing. That they are older keeps two needs from standing
// in for each other.
func (s *search) redundant(a atom) bool {
	l := &s.learn
	at := s.origin(a)
	e := &s.trail[at]
	if e.why.kind == byChoice || e.why.kind >= byClique {
		return false
	}
	l.why = s.explain(a, e.why, l.why[:0])
	for _, o := range l.why {
		if s.origin(o) < 0 {
			continue
		}
		if v := l.need[o.side]; v < o.v || s.origin(atom{o.side, v}) >= at {
			return false
		}
	}
	return true
}
