package schedule

import (
	"cmp"
	"slices"
)

// whole weighs, for every earliest start and every latest finish, the members
// that lie between the two against the hours that the pool has between them.
func (f *frame) whole(q *pool) {
	t := &f.tab
	if f.capacity(q) == 0 || !f.weigh(q) {
		return
	}
	for b := range q.members {
		sum, end := int64(0), f.lf[q.members[b].j]
		for _, a := range t.rank { // the latest earliest start first
			f.steps--
			room := t.within[b] - t.most[a]
			if room >= t.all { // from here on all fits
				break
			}
			if f.lf[q.members[a].j] > end {
				continue
			}
			if sum += t.need[a]; sum > room {
				f.failed = true
				return
			}
		}
	}
}

// weigh fills the scratch: the open minutes before every window's ends.
func (f *frame) weigh(q *pool) bool {
	t, c := &f.tab, len(q.members)
	t.rank, t.from, t.to = t.rank[:0], t.from[:0], t.to[:0]
	t.most, t.within, t.need, t.all = t.most[:0], t.within[:0], t.need[:0], 0
	for i := range q.members {
		m := &q.members[i]
		t.rank = append(t.rank, i)
		from, to := int64(0), int64(0)
		f.steps -= len(q.people)
		for _, p := range q.people {
			t.from = append(t.from, f.clocks[p].opened(f.es[m.j]))
			t.to = append(t.to, f.clocks[p].opened(min(f.lf[m.j], Never-1)))
			from, to = from+int64(t.from[len(t.from)-1]), to+int64(t.to[len(t.to)-1])
		}
		need := int64(f.work[m.j])
		if q.place >= 0 {
			room := int64(f.units[q.place])
			from, to, need = room*int64(f.es[m.j]), room*int64(f.lf[m.j]), int64(f.shortest(m.j))
		}
		t.most, t.within, t.need = append(t.most, from), append(t.within, to), append(t.need, need*int64(m.units))
		t.all += t.need[i]
	}
	slices.SortFunc(t.rank, func(a, b int) int { return cmp.Compare(f.es[q.members[b].j], f.es[q.members[a].j]) })
	return c > 0
}

// shortest is the least time on the wall that an activity takes.
func (f *frame) shortest(j int) Minute {
	a := &f.n.Activities[j]
	switch {
	case a.Kind == Session || a.Kind == Milestone:
		return f.work[j]
	case a.Kind == Passive:
		return f.stretch(f.waits[j], f.work[j])
	}
	best := Never
	for _, p := range a.Who {
		best = min(best, f.stretch(f.clocks[p], f.work[j]))
	}
	return best
}

func (f *frame) stretch(k *clock, work Minute) Minute {
	key := span1{k, work}
	best, known := f.spans[key]
	if !known {
		f.steps -= len(k.win)
		best = k.shortest(f.n.Now, work)
		f.spans[key] = best
	}
	return best
}

// partial does as whole, with what has to lie between the two moments of every
// member, however it is shifted: left as far as it goes, or right.
func (f *frame) partial(q *pool) {
	t := &f.tab
	if f.capacity(q) == 0 || !f.weigh(q) {
		return
	}
	for a := range q.members {
		for b := range q.members {
			room := t.within[b] - t.most[a]
			if f.es[q.members[a].j] >= f.lf[q.members[b].j] || room >= t.all {
				continue
			}
			if f.steps -= len(q.members); f.steps < 0 {
				return
			}
			sum := int64(0)
			for i := range q.members {
				if sum += f.inside(q, i, a, b); sum > room {
					f.failed = true
					return
				}
			}
		}
	}
}

// inside is the least of member i between the earliest start of a and the
// latest finish of b. A person's work is one piece in their own open minutes,
// so the least is at one of the two ends.
func (f *frame) inside(q *pool, i, a, b int) int64 {
	m, t, c := &q.members[i], &f.tab, len(q.people)
	if q.place >= 0 {
		from, to := f.es[q.members[a].j], f.lf[q.members[b].j]
		part := min(meet(f.es[m.j], f.ef[m.j], from, to), meet(f.ls[m.j], f.lf[m.j], from, to))
		return min(int64(part)*int64(m.units), t.need[i])
	}
	least, work := Never, f.work[m.j]
	for _, k := range m.who {
		from, to := t.from[a*c+k], t.to[b*c+k]
		left, right := t.from[i*c+k], t.to[i*c+k]
		least = min(least, meet(left, left+work, from, to), meet(right-work, right, from, to))
	}
	return int64(least) * int64(m.units)
}

// meet is how long two stretches overlap.
func meet(a, b, from, to Minute) Minute { return max(0, min(b, to)-max(a, from)) }
