package schedule

import "slices"

// frame is the windows in which every activity must begin and end if a plan is
// to finish by a trial moment. What it reads may be loosened fact by fact, so
// that the same reasoning bounds a plan and explains why there is none. It is
// a relaxation: crews, clashes, published starts and remedies are left out, and
// so is what only a remedy or a risk calls for; hours that may be bought are
// open.
type frame struct {
	n       *net
	clocks  []*clock // by person
	lags    []*clock // by link
	waits   []*clock // by activity
	off     []bool   // links that are not held
	work    []Minute
	release []Minute
	pin     []bool // starts that may not be later than their release
	units   []int  // by place; 0 is no limit
	wishes  []int  // maximum lags that are held

	order                  []int // topological; what counts
	looped                 bool  // some activity waits for itself
	es, ef, ls, lf         []Minute
	base                   []Minute // es and ef by links alone
	pools                  []pool
	steps                  int  // work left, in looks at an activity or a pair
	changed, failed, spent bool // since the last round; no plan; steps ran out
	row                    []Minute
	tab                    table
	spans                  map[span1]Minute
}

// span1 keys the shortest stretch of some work on one clock.
type span1 struct {
	k    *clock
	work Minute
}

func newFrame(n *net) *frame {
	c := len(n.Activities)
	f := &frame{
		n: n, lags: make([]*clock, len(n.Links)), waits: make([]*clock, c), off: make([]bool, len(n.Links)),
		work: make([]Minute, c), release: make([]Minute, c), pin: make([]bool, c),
		es: make([]Minute, c), ef: make([]Minute, c), ls: make([]Minute, c), lf: make([]Minute, c),
		base: make([]Minute, 2*c), spans: map[span1]Minute{},
	}
	for p := range n.People {
		f.clocks = append(f.clocks, n.longest(p))
	}
	for _, q := range n.Places {
		f.units = append(f.units, q.Units)
	}
	for i, l := range n.Links {
		f.lags[i] = n.clock(l.Calendar)
		f.off[i] = n.optional[l.From] || n.optional[l.To]
	}
	for j := range n.Activities {
		a := &n.Activities[j]
		f.work[j], f.release[j] = a.Work, a.Release
		if a.Kind == Passive {
			f.waits[j] = n.clock(a.Calendar)
		}
	}
	f.sort()
	f.pool()
	return f
}

// longest is the clock of a person with all the hours that may be bought.
func (n *net) longest(person int) *clock {
	own := n.Calendars[n.People[person].Calendar]
	more := slices.Clone(own)
	for _, o := range n.Overtime {
		if o.Person == person {
			more = append(more, o.Window)
		}
	}
	if len(more) == len(own) {
		return n.clock(n.People[person].Calendar)
	}
	k := newClock(joined(more))
	return &k
}

// joined puts windows in order and makes one of those that meet.
func joined(list []Window) Calendar {
	slices.SortFunc(list, func(a, b Window) int { return int(a.From - b.From) })
	var c Calendar
	for _, w := range list {
		if last := len(c) - 1; last >= 0 && w.From <= c[last].To {
			c[last].To = max(c[last].To, w.To)
			continue
		}
		c = append(c, w)
	}
	return c
}

// counts says that an activity is done in every plan.
func (f *frame) counts(j int) bool { return !f.n.optional[j] }

// sort orders what counts so that the links held point forward.
func (f *frame) sort() {
	n := f.n
	pend, all := make([]int, len(n.Activities)), 0
	f.order = f.order[:0]
	for j := range pend {
		if !f.counts(j) {
			continue
		}
		all++
		for _, l := range n.in[j] {
			if !f.off[l] {
				pend[j]++
			}
		}
		if pend[j] == 0 {
			f.order = append(f.order, j)
		}
	}
	for i := 0; i < len(f.order); i++ {
		for _, l := range n.out[f.order[i]] {
			if f.off[l] {
				continue
			}
			to := n.Links[l].To
			if pend[to]--; pend[to] == 0 {
				f.order = append(f.order, to)
			}
		}
	}
	f.looped = len(f.order) < all
}

// reset opens every window and walks the links once.
func (f *frame) reset() {
	f.failed, f.spent = f.looped, false
	for j := range f.n.Activities {
		a := &f.n.Activities[j]
		f.es[j], f.ef[j], f.ls[j], f.lf[j] = f.n.Now, longAgo, Never, Never
		switch a.State {
		case Open:
			f.es[j] = max(f.n.Now, f.release[j])
		case Done:
			f.es[j], f.ef[j], f.ls[j], f.lf[j] = a.Start, a.Finish, a.Start, a.Finish
		}
	}
	f.forward()
	copy(f.base, f.es)
	copy(f.base[len(f.es):], f.ef)
}

// try sets the latest moments for a finish by a trial, and says that it is
// refuted: no plan is over by then. Without deep only whole activities are
// weighed against the hours, and nothing is pushed.
func (f *frame) try(trial Minute, deep bool) bool {
	f.failed = f.looped
	copy(f.es, f.base)
	copy(f.ef, f.base[len(f.es):])
	for j := range f.n.Activities {
		if f.n.Activities[j].State != Done {
			f.ls[j], f.lf[j] = trial, trial
		}
		if f.pin[j] {
			f.ls[j] = min(trial, max(f.n.Now, f.release[j]))
		}
		f.failed = f.failed || f.counts(j) && (f.es[j] > f.ls[j] || f.ef[j] > f.lf[j])
	}
	f.settle(deep)
	return f.failed
}

// settle runs every rule until nothing moves any more or a window is empty.
func (f *frame) settle(deep bool) {
	for f.changed = true; f.changed && f.open(); {
		f.changed = false
		f.backward()
		if !deep {
			break
		}
		f.keep()
		f.forward()
		for i := 0; i < len(f.pools) && f.open(); i++ {
			f.pairs(&f.pools[i])
			f.compulsory(&f.pools[i])
		}
	}
	for i := 0; i < len(f.pools) && f.open(); i++ {
		if f.whole(&f.pools[i]); f.failed && !deep {
			f.pools = f.pools[i:] // a bound only goes on to later trials: what fitted by now fits by then
		}
	}
	for i := 0; deep && i < len(f.pools) && f.open(); i++ {
		f.partial(&f.pools[i])
	}
}

// open says that there is something to find out and work left to do it with.
func (f *frame) open() bool {
	f.spent = f.spent || f.steps < 0
	return !f.failed && !f.spent
}
