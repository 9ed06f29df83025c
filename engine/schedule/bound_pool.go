package schedule

import (
	"slices"
	"strings"
)

// pool is a set of people, or a place, with the activities that cannot do
// without it.
type pool struct {
	people  []int // sorted; nil for a place
	place   int   // -1 for people
	members []member
}

// member is an activity and the least it takes of a pool at once.
type member struct {
	j, units int
	who      []int // positions in pool.people of those who may do it
}

// mostPools bounds the sets of people that are weighed.
const mostPools = 64

// pool makes the pools: every person, every list of who may do something, every
// union of two lists that share a person, everybody, and every place.
func (f *frame) pool() {
	n := f.n
	var sets [][]int
	seen := map[string]bool{}
	add := func(set []int) {
		set = slices.Clone(set)
		slices.Sort(set)
		set = slices.Compact(set)
		var key strings.Builder
		for _, p := range set {
			key.WriteString(itoa(p) + " ")
		}
		if len(set) > 0 && len(sets) < mostPools && !seen[key.String()] {
			seen[key.String()] = true
			sets = append(sets, set)
		}
	}
	everybody := make([]int, len(n.People))
	for p := range n.People {
		everybody[p] = p
		add([]int{p})
	}
	add(everybody)
	for j := range n.Activities {
		if n.heads(j) > 0 && n.Activities[j].State != Done && f.counts(j) {
			add(n.Activities[j].Who)
		}
	}
	lists := slices.Clone(sets)
	for i, a := range lists {
		for _, b := range lists[:i] {
			if slices.ContainsFunc(a, func(p int) bool { return slices.Contains(b, p) }) {
				add(slices.Concat(a, b))
			}
		}
	}
	for _, set := range sets {
		f.fill(pool{people: set, place: -1})
	}
	for q := range n.Places {
		f.fill(pool{place: q})
	}
}

// fill keeps a pool that more than one activity cannot do without.
func (f *frame) fill(q pool) {
	for j := range f.n.Activities {
		a := &f.n.Activities[j]
		if a.State == Done || a.Work == 0 || !f.counts(j) {
			continue
		}
		m := member{j: j}
		for _, u := range a.Uses {
			if u.Place == q.place {
				m.units = u.Units
			}
		}
		if q.place < 0 {
			for _, p := range a.Who {
				if at, in := slices.BinarySearch(q.people, p); in {
					m.who = append(m.who, at)
				}
			}
			m.units = f.n.heads(j) - len(a.Who) + len(m.who)
		}
		if m.units > 0 {
			q.members = append(q.members, m)
		}
	}
	if len(q.members) > 1 {
		f.pools = append(f.pools, q)
	}
}

// capacity is how much of a pool there is at once; 0 is no limit.
func (f *frame) capacity(q *pool) int {
	if q.place < 0 {
		return len(q.people)
	}
	return f.units[q.place]
}

// busy is until when a member begun at t or later surely takes of its pool.
func (f *frame) busy(q *pool, m *member, t Minute) Minute {
	if q.place < 0 {
		return f.leaves(m.j, t)
	}
	return f.soonest(m.j, t)
}

// gone says that the end of a member is when the pool has back all it took.
func (f *frame) gone(q *pool, m *member) bool { return q.place >= 0 || f.n.heads(m.j) == 1 }
