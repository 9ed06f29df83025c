package lags

// atom says that a side is at least v. Side 2k is the value of variable k, side
// 2k+1 its negative, so that lower and upper bounds are one and the same thing:
// a bound only ever rises, and every rule is written once.
type atom struct{ side, v int32 }

// not is the opposite: the value of the variable is on the other side of v.
func (a atom) not() atom { return atom{a.side ^ 1, 1 - a.v} }

// kind is the rule by which an atom came about.
type kind uint8

const (
	byChoice kind = iota // a decision, or a fact at the root
	byArc                // an arc that holds: a is its index
	byBar                // an arc that cannot hold: a its index, t the bound against it
	byRule               // a learned rule
	byClique             // work that fills a window: a is twice its clique and the side it is seen from, t to u the window
	byTable              // a resource that is full: a its index, t the slot
)

// reason is enough to tell later why an atom holds.
type reason struct {
	rule *rule
	a, t int32
	u    int32
	kind kind
}

// entry is one bound raised.
type entry struct {
	why   reason
	side  int32
	old   int32 // the bound before
	prev  int32 // the entry before it of the same side; -1 for the root
	level int32
}

// state is the bounds of all sides and the trail that led to them.
type state struct {
	b     []int32 // bound of each side
	last  []int32 // newest entry of each side; -1 for the root
	trail []entry
	marks []int32 // length of the trail when each level began
	done  int     // entries whose arcs and rules have been followed
	clash []atom  // after a failure: atoms that hold and cannot hold together
}

func newState(lo, hi []int) *state {
	s := &state{b: make([]int32, 2*len(lo)), last: make([]int32, 2*len(lo))}
	for k := range lo {
		s.b[2*k], s.b[2*k+1] = int32(lo[k]), int32(-hi[k])
		s.last[2*k], s.last[2*k+1] = -1, -1
	}
	return s
}

func (s *state) level() int32 { return int32(len(s.marks)) }

func (s *state) holds(a atom) bool { return s.b[a.side] >= a.v }

func (s *state) fails(a atom) bool { return s.b[a.side^1] >= 1-a.v }

// fixed says whether variable k has one value left.
func (s *state) fixed(k int32) bool { return s.b[2*k]+s.b[2*k+1] == 0 }

// set raises a bound that fits.
func (s *state) set(a atom, why reason) {
	s.trail = append(s.trail, entry{why: why, side: a.side, old: s.b[a.side], prev: s.last[a.side], level: s.level()})
	s.last[a.side] = int32(len(s.trail) - 1)
	s.b[a.side] = a.v
}

// undo takes back the newest entry.
func (s *state) undo() {
	e := &s.trail[len(s.trail)-1]
	s.b[e.side], s.last[e.side] = e.old, e.prev
	s.trail = s.trail[:len(s.trail)-1]
}

// back returns to a level, as it was when the next one began.
func (s *state) back(level int32) {
	if level >= s.level() {
		return
	}
	to := int(s.marks[level])
	for len(s.trail) > to {
		s.undo()
	}
	s.marks = s.marks[:level]
	s.done = min(s.done, to)
}

// settle makes the bounds of the root facts that need no reason.
func (s *state) settle() {
	for _, e := range s.trail {
		s.last[e.side] = -1
	}
	s.trail, s.done = s.trail[:0], 0
}

// origin is the entry that made an atom hold; -1 if it does at the root.
func (s *state) origin(a atom) int32 {
	e := s.last[a.side]
	for e >= 0 && s.trail[e].old >= a.v {
		e = s.trail[e].prev
	}
	return e
}
