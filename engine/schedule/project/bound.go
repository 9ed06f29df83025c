package project

import (
	"cmp"
	"slices"
)

// boundSteps is how many elementary steps the proof may take for each schedule
// of the budget; about a tenth of the time of the search.
const boundSteps = 500

// bounds proves that schedules cannot be shorter than something. It works in
// internal slots.
type bounds struct {
	net   *net
	lower int32
	goal  int32      // the length under test
	early [2][]int32 // earliest starts of each side, given the goal
	free  []uint64   // what activities that cannot move leave free
	steps int
}

func newBounds(n *net) *bounds {
	b := &bounds{net: n, lower: n.path}
	for k := range b.early {
		b.early[k] = make([]int32, n.n)
	}
	return b
}

// quick is the better of the longest path and, for each resource, the work that
// cannot begin before some moment and must leave some time after it.
func (b *bounds) quick() int32 {
	s := &b.net.sides[0]
	byTail := make([]int32, s.n)
	for j := range byTail {
		byTail[j] = int32(j)
	}
	after := func(j int32) int32 { return s.tail[j] - s.dur[j] }
	slices.SortStableFunc(byTail, func(x, y int32) int { return cmp.Compare(after(y), after(x)) })
	for r, units := range b.net.p.Capacity {
		for _, from := range distinct(s.head) {
			work := int64(0)
			for _, j := range byTail {
				if s.head[j] < from {
					continue
				}
				if work += b.work(r, j); work > 0 {
					b.lower = max(b.lower, from+after(j)+int32((work+int64(units)-1)/int64(units)))
				}
			}
		}
	}
	return b.lower
}

func (b *bounds) demand(resource int, j int32) int64 {
	return int64(b.net.p.Demand[b.net.topo[j]][resource])
}

// work is in unit-slots.
func (b *bounds) work(resource int, j int32) int64 {
	return b.demand(resource, j) * int64(b.net.sides[0].dur[j])
}

func distinct(values []int32) []int32 {
	v := slices.Clone(values)
	slices.Sort(v)
	return slices.Compact(v)
}

// refute raises the bound by showing that lengths below best are impossible
// [KleinScholl1999]: what is impossible for a length is so for all shorter ones,
// so the lengths are halved. It stops when the steps are spent.
func (b *bounds) refute(best int32, steps int) int32 {
	b.steps = steps
	low, high := b.lower, best-1 // no schedule below low; high is the longest length in doubt
	for low <= high && b.steps > 0 {
		b.goal = (low + high + 1) / 2
		if b.impossible() {
			low = b.goal + 1
		} else {
			high = b.goal - 1
		}
	}
	b.lower = low
	return b.lower
}

// impossible says that no schedule has the length under test; false says
// nothing. Each side in turn pushes its starts, until nothing moves.
func (b *bounds) impossible() bool {
	for k := range b.early {
		copy(b.early[k], b.net.sides[k].head)
	}
	if w := len(b.net.lanes.full); len(b.free) < int(b.goal)*w {
		b.free = make([]uint64, int(b.goal)*w)
	}
	for still, k := 0, 0; still < 2; k = 1 - k {
		moved, broken := b.push(k)
		if broken {
			return true
		}
		if b.steps < 0 {
			return false
		}
		if still++; moved {
			still = 0
		}
	}
	return b.overfull()
}

// latest is the latest start of j on side k.
func (b *bounds) latest(k int, j int32) int32 {
	return b.goal - b.early[1-k][int32(b.net.n)-1-j] - b.net.sides[k].dur[j]
}

// push moves the earliest starts of a side past what they wait for and past
// the slots that activities which must run then have filled.
func (b *bounds) push(k int) (moved, broken bool) {
	if !b.fill(k) {
		return false, true
	}
	s, early := &b.net.sides[k], b.early[k]
	for j := range int32(s.n) {
		t := early[j]
		for _, p := range s.pred.of(j) {
			t = max(t, early[p]+s.dur[p])
		}
		late := b.latest(k, j)
		if t = b.room(k, j, t, late); t > late {
			return false, true
		}
		moved = moved || t > early[j]
		early[j] = t
	}
	return moved, false
}

// fill books every activity for the slots it cannot avoid.
func (b *bounds) fill(k int) bool {
	full, s := b.net.lanes.full, &b.net.sides[k]
	w := int32(len(full))
	for u := range b.free[:b.goal*w] {
		b.free[u] = full[int32(u)%w]
	}
	b.steps -= int(b.goal)
	for j := range int32(s.n) {
		late, need := b.latest(k, j), s.need[j*w:(j+1)*w]
		if late < b.early[k][j] {
			return false
		}
		for u := late; u < b.early[k][j]+s.dur[j]; u++ {
			free := b.free[u*w : (u+1)*w]
			if !fits(free, need, b.net.lanes.guard) {
				return false
			}
			for i, units := range need {
				free[i] -= units
			}
		}
	}
	return true
}

// room is the first start from t on at which j fits among what was filled in;
// the slots it cannot avoid hold j itself already.
func (b *bounds) room(k int, j, t, late int32) int32 {
	s, w := &b.net.sides[k], int32(len(b.net.lanes.full))
	need, must := s.need[j*w:(j+1)*w], b.early[k][j]+s.dur[j]
	for u := t; u < t+s.dur[j] && t <= late; u++ {
		b.steps--
		if (u < late || u >= must) && !fits(b.free[u*w:(u+1)*w], need, b.net.lanes.guard) {
			t = u + 1
		}
	}
	return t
}

// overfull looks for a resource and a stretch of time into which more work
// falls than there is, however the activities are moved.
func (b *bounds) overfull() bool {
	dur := b.net.sides[0].dur
	early, late := b.early[0], make([]int32, b.net.n)
	ends := make([]int32, b.net.n)
	for j := range late {
		late[j] = b.latest(0, int32(j))
		ends[j] = late[j] + dur[j]
	}
	froms, tos := distinct(early), distinct(ends)
	for r, units := range b.net.p.Capacity {
		for _, from := range froms {
			for _, to := range tos {
				if to <= from {
					continue
				}
				if b.steps -= b.net.n; b.steps < 0 {
					return false
				}
				if b.inside(r, from, to, early, late) > int64(units)*int64(to-from) {
					return true
				}
			}
		}
	}
	return false
}

// inside is the least work of a resource between two moments, in unit-slots.
func (b *bounds) inside(resource int, from, to int32, early, late []int32) int64 {
	sum := int64(0)
	for j, d := range b.net.sides[0].dur {
		least := min(d, to-from, early[j]+d-from, to-late[j])
		if least > 0 {
			sum += int64(least) * b.demand(resource, int32(j))
		}
	}
	return sum
}
