package project

import "fettle/engine/schedule/activitylist"

// side is the project seen from one end. Activities are renumbered so that
// each comes after its predecessors; on the mirrored side activity i is
// number n-1-i and successors are predecessors.
type side struct {
	n     int
	dur   []int32
	need  []uint64 // n by words, packed demands
	pred  list     // predecessors of each
	succ  list
	graph activitylist.Graph[int32] // both, list by list
	head  []int32                   // longest path to the start of each
	tail  []int32                   // longest path from the start of each to the end, own duration included
}

// list is n lists of numbers in one piece.
type list struct {
	at   []int32 // n+1
	item []int32
}

func (l *list) of(j int32) []int32 { return l.item[l.at[j]:l.at[j+1]] }

// net is a compiled problem: both sides, the packing and the numbering.
type net struct {
	p     *Problem
	n     int
	slot  int32   // length of an internal slot in slots of the problem
	topo  []int32 // number on side 0 -> index in the problem
	sides [2]side
	rule  [2][]int32 // latest finishes, the priority rule of each side
	lanes lanes
	span  int32 // no schedule without idle time is longer, in internal slots
	path  int32 // longest path
}

// compile checks a problem and prepares both sides.
func compile(p *Problem) (*net, error) {
	if err := p.validate(); err != nil {
		return nil, err
	}
	topo, err := p.number()
	if err != nil {
		return nil, err
	}
	n := &net{p: p, n: len(topo), topo: topo, lanes: newLanes(p.Capacity), slot: divisor(p.Duration)}
	number := make([]int32, n.n)
	for i, j := range topo {
		number[j] = int32(i)
	}
	succ := make([][]int32, n.n)
	pred := make([][]int32, n.n)
	for i, j := range topo {
		for _, s := range p.Succ[j] {
			succ[i] = append(succ[i], number[s])
			pred[number[s]] = append(pred[number[s]], int32(i))
		}
	}
	n.sides[0] = n.side(pred, succ)
	n.sides[1] = n.mirror()
	for i := range 2 {
		n.sides[i].paths()
	}
	for i, d := range n.sides[0].dur {
		n.span += d
		n.path = max(n.path, n.sides[0].head[i]+d)
	}
	n.rule = [2][]int32{latest(n, 0), latest(n, 1)}
	return n, nil
}

// divisor is the greatest common divisor of all durations; a schedule that
// starts everything as early as it can starts at multiples of it.
func divisor(durations []int32) int32 {
	g := int32(0)
	for _, d := range durations {
		for d != 0 {
			g, d = d, g%d
		}
	}
	return max(1, g)
}

func (n *net) side(pred, succ [][]int32) side {
	s := side{n: n.n, dur: make([]int32, n.n), need: make([]uint64, n.n*n.lanes.words)}
	for i, j := range n.topo {
		s.dur[i] = n.p.Duration[j] / n.slot
		n.lanes.pack(n.p.Demand[j], s.need[i*n.lanes.words:])
	}
	s.bind(pred, succ)
	return s
}

func newList(of [][]int32) list {
	l := list{at: make([]int32, len(of)+1)}
	for i, items := range of {
		l.item = append(l.item, items...)
		l.at[i+1] = int32(len(l.item))
	}
	return l
}

func (s *side) bind(pred, succ [][]int32) {
	s.pred, s.succ = newList(pred), newList(succ)
	s.graph = activitylist.Graph[int32]{Pred: pred, Succ: succ}
}

func (n *net) mirror() side {
	a, w := &n.sides[0], n.lanes.words
	s := side{n: n.n, dur: make([]int32, n.n), need: make([]uint64, n.n*w)}
	pred, succ := make([][]int32, n.n), make([][]int32, n.n)
	last := int32(n.n - 1)
	for i := range int32(n.n) {
		m := last - i
		s.dur[m] = a.dur[i]
		copy(s.need[int(m)*w:int(m+1)*w], a.need[int(i)*w:])
		for _, j := range a.succ.of(i) {
			pred[m] = append(pred[m], last-j)
		}
		for _, j := range a.pred.of(i) {
			succ[m] = append(succ[m], last-j)
		}
	}
	s.bind(pred, succ)
	return s
}

func (s *side) paths() {
	s.head, s.tail = make([]int32, s.n), make([]int32, s.n)
	for i := range int32(s.n) {
		for _, p := range s.pred.of(i) {
			s.head[i] = max(s.head[i], s.head[p]+s.dur[p])
		}
	}
	for i := int32(s.n) - 1; i >= 0; i-- {
		for _, j := range s.succ.of(i) {
			s.tail[i] = max(s.tail[i], s.tail[j])
		}
		s.tail[i] += s.dur[i]
	}
}

// starts turns finishes on side 0 into starts in the problem's own slots.
func (n *net) starts(finish []int32) []int32 {
	at := make([]int32, n.n)
	for i, f := range finish {
		at[n.topo[i]] = (f - n.sides[0].dur[i]) * n.slot
	}
	return at
}
