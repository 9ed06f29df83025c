package schedule

import (
	"cmp"
	"slices"
)

// table is the scratch of a pool: what is surely in use, piece by piece, and
// the open minutes at the windows of its members.
type table struct {
	part   []span // by member: from the latest start to the earliest end
	edge   []span // where the use changes
	piece  []span
	rank   []int
	from   []Minute // open minutes of each person at each earliest start
	to     []Minute // and at each latest finish
	most   []int64  // of all of them together, at each earliest start
	within []int64  // and at each latest finish
	need   []int64  // of a whole member
	all    int64    // of all of them
}

// pairs orders every two members that do not fit in at once: where one cannot
// be over before the other begins, the other comes first.
func (f *frame) pairs(q *pool) {
	room := f.capacity(q)
	for i := range q.members {
		a := &q.members[i]
		f.steps -= len(q.members)
		for k := range q.members {
			b := &q.members[k]
			if i == k || room == 0 || a.units+b.units <= room || f.ef[a.j] <= f.ls[b.j] || f.busy(q, a, f.es[a.j]) <= f.ls[b.j] {
				continue
			}
			if !f.taken(a.j) || !f.taken(b.j) { // a of no work takes nothing
				continue
			}
			f.startFrom(a.j, f.busy(q, b, f.es[b.j]))
			if f.gone(q, b) {
				f.finishBy(b.j, f.ls[a.j])
			}
		}
	}
}

func (f *frame) taken(j int) bool { return f.work[j] > 0 }

// compulsory adds up what surely runs at each moment, and keeps the others out
// of where they find no room.
func (f *frame) compulsory(q *pool) {
	room, t := f.capacity(q), &f.tab
	if room == 0 || !f.profile(q) {
		return
	}
	for _, p := range t.piece {
		if p.units > room {
			f.failed = true
			return
		}
	}
	for i := range q.members {
		m := &q.members[i]
		if f.steps -= len(t.piece); !f.taken(m.j) {
			continue
		}
		f.pushLater(q, m, t.part[i], room)
		f.pushSooner(q, m, t.part[i], room)
	}
}

// profile fills the pieces of sure use; false where nothing surely runs.
func (f *frame) profile(q *pool) bool {
	t := &f.tab
	t.part, t.edge, t.piece = t.part[:0], t.edge[:0], t.piece[:0]
	f.steps -= len(q.members)
	for i := range q.members {
		m := &q.members[i]
		s := span{f.ls[m.j], f.ls[m.j], m.units}
		if f.ls[m.j] < f.ef[m.j] && f.taken(m.j) {
			s.to = f.busy(q, m, f.es[m.j])
		}
		if s.to > s.from {
			t.edge = append(t.edge, span{from: s.from, units: s.units}, span{from: s.to, units: -s.units})
		}
		t.part = append(t.part, s)
	}
	slices.SortFunc(t.edge, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	sum := 0
	for i, e := range t.edge {
		if i > 0 && e.from > t.edge[i-1].from && sum > 0 {
			t.piece = append(t.piece, span{t.edge[i-1].from, e.from, sum})
		}
		sum += e.units
	}
	return len(t.piece) > 0
}

// pushLater moves the earliest start of a member past where it finds no room.
func (f *frame) pushLater(q *pool, m *member, own span, room int) {
	from := f.es[m.j]
	until := f.busy(q, m, from)
	for _, p := range f.tab.piece {
		if p.to <= from || p.from >= own.from && p.to <= own.to || p.units+m.units <= room {
			continue
		}
		if p.from >= until {
			break
		}
		from = f.begin(m.j, p.to)
		until = f.busy(q, m, from)
	}
	f.startFrom(m.j, from)
}

// pushSooner moves the latest finish of a member before where it finds no room.
func (f *frame) pushSooner(q *pool, m *member, own span, room int) {
	if !f.gone(q, m) {
		return
	}
	for i := len(f.tab.piece) - 1; i >= 0; i-- {
		p := f.tab.piece[i]
		if p.from >= f.lf[m.j] || p.from >= own.from && p.to <= own.to || p.units+m.units <= room {
			continue
		}
		if p.to <= f.ls[m.j] {
			break
		}
		f.finishBy(m.j, max(p.from, f.ls[m.j]))
	}
}
