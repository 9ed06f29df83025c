package lags

import (
	"context"
	"slices"

	"fettle/fault"
)

// Solve looks for a schedule of least makespan. A bad problem is a fault of
// kind Invalid; that there is no schedule, or none was found, is a Status. The
// answer depends on nothing but problem, seed and steps, unless ctx ends first.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := validate(&p); err != nil {
		return Result{}, err
	}
	if err := checkOptions(&p, o); err != nil {
		return Result{}, err
	}
	c, why := prepare(&p)
	if why.Proof != NoProof {
		return Result{Status: Infeasible, Why: why}, nil
	}
	w := &work{ctx: ctx, p: &p, o: o, most: horizon(&p)}
	w.s = newSearch(&p, c, w.most)
	w.s.pick = newPicker(len(w.s.b)/2, o.Seed)
	w.floor = c.bound()
	w.begin()
	w.run()
	return w.result()
}

func checkOptions(p *Problem, o Options) error {
	if o.Steps < 0 {
		return fault.New(fault.Invalid, "a budget of %d steps", o.Steps).At("steps")
	}
	if o.Starts != nil && len(o.Starts) != len(p.Duration) {
		return fault.New(fault.Invalid, "%d starts for %d activities", len(o.Starts), len(p.Duration)).At("starts")
	}
	return nil
}

// prepare is all that is known without a search.
func prepare(p *Problem) (*closure, Why) {
	for i, row := range p.Demand {
		for q, r := range row {
			if r > p.Capacity[q] && p.Duration[i] > 0 {
				return nil, Why{Proof: Overload, Pair: [2]int{i, q}}
			}
		}
	}
	if way := cycle(p); way != nil {
		return nil, Why{Proof: Cycle, Cycle: way}
	}
	c := newClosure(p)
	if pair, clash := c.settle(p); clash {
		return nil, Why{Proof: Clash, Pair: pair}
	}
	return c, Why{}
}

// work is one run of Solve.
type work struct {
	ctx    context.Context
	p      *Problem
	o      Options
	s      *search
	most   int   // no schedule need be longer
	best   []int // starts
	span   int   // makespan of best
	floor  int   // lower bound
	proved bool  // nothing is left to find
	halt   bool  // the context ended
	seen   bool  // what is near the best has been seen through
}

// begin takes over the schedule given, or its order where it is none any more.
func (w *work) begin() {
	switch {
	case w.o.Starts == nil:
	case Check(*w.p, w.o.Starts) == nil:
		w.proved = !w.keep(slices.Clone(w.o.Starts))
	default:
		w.s.guide(w.o.Starts)
	}
}

const (
	unit  = 100  // conflicts of the shortest run between restarts
	crowd = 4000 // learned rules before the first clearing out
)

// run searches from the root again and again, until all is known or the budget
// is gone. Before there is a schedule every other run goes in order of time;
// after, every fourth looks around the best.
func (w *work) run() {
	s, limit := w.s, crowd
	for k := 1; !w.proved && !w.over(); k++ {
		s.pick.busy = k%2 == 0 || w.best != nil
		if k%4 == 0 && w.best != nil {
			w.look()
		} else {
			w.descend(unit * luby(k-k/4))
		}
		s.back(0)
		s.stats.Restarts++
		if w.proved || !s.follow() {
			w.proved = true
			return
		}
		w.settle()
		if len(s.rules) > limit {
			s.clearOut()
			limit += limit / 20
		}
	}
}

// settle takes over what holds at the root.
func (w *work) settle() {
	w.s.settle()
	w.floor = max(w.floor, int(w.s.b[2*w.s.n]))
}

// over says whether the budget is gone or the context ended.
func (w *work) over() bool {
	if w.s.stats.Conflicts%64 == 0 && w.ctx.Err() != nil {
		w.halt = true
	}
	return w.halt || w.s.stats.Steps >= w.o.Steps
}

// descend decides and learns for a number of conflicts.
func (w *work) descend(conflicts int) {
	s := w.s
	for conflicts > 0 && !w.over() && !w.proved && !w.seen {
		s.stats.Steps++
		if !s.follow() {
			conflicts--
			w.proved = !w.conflict()
			continue
		}
		if s.level() == 0 {
			w.settle()
		}
		a, ok := w.aim(), true
		if s.holds(a) {
			a, ok = s.choose()
		}
		if !ok {
			w.proved = !w.found()
			continue
		}
		s.marks = append(s.marks, int32(len(s.trail)))
		s.set(a, reason{})
	}
}

// aim is the decision of the first level, once there is a schedule: in every
// other run that the makespan is no more than the bound. When that fails the
// bound has risen.
func (w *work) aim() atom {
	s := w.s
	if w.best == nil || s.level() > 0 || s.pick.near.on {
		return certain(s.n)
	}
	if s.stats.Restarts%2 == 1 {
		return certain(s.n)
	}
	return atom{2*s.n + 1, -s.b[2*s.n]}
}

// conflict learns from a clash; false says that nothing is left.
func (w *work) conflict() bool {
	s := w.s
	s.stats.Conflicts++
	if s.stats.Conflicts%1000 == 0 {
		w.tell()
	}
	r, level := s.analyse()
	if level < 0 {
		return false
	}
	if s.pick.near.on && level < s.pick.near.levels {
		w.seen = true
	}
	s.back(level)
	s.pick.fade()
	if len(r.atoms) == 1 {
		return s.raise(r.atoms[0], reason{})
	}
	s.addRule(r)
	s.set(r.atoms[0], reason{kind: byRule, rule: r})
	return true
}

// found keeps a schedule and asks for a shorter one; false says there is none.
func (w *work) found() bool {
	s := w.s
	starts := make([]int, s.n)
	for i := range starts {
		starts[i] = int(s.b[2*i])
	}
	return w.keep(starts)
}

// keep takes a schedule as the best.
func (w *work) keep(starts []int) bool {
	s := w.s
	w.best, w.span = starts, 0
	for i, t := range starts {
		w.span = max(w.span, t+w.p.Duration[i])
	}
	s.guide(starts)
	s.stats.Improved++
	w.tell()
	s.back(0)
	return s.raise(atom{2*s.n + 1, int32(1 - w.span)}, reason{})
}

func (w *work) tell() {
	if w.o.Progress == nil {
		return
	}
	span := w.span
	if w.best == nil {
		span = -1
	}
	w.o.Progress(Progress{Steps: w.s.stats.Steps, Makespan: span, LowerBound: w.floor})
}

func (w *work) result() (Result, error) {
	r := Result{Starts: w.best, Makespan: w.span, LowerBound: w.floor, Interrupted: w.halt, Stats: w.s.stats}
	switch {
	case w.best == nil && w.proved:
		r.Status, r.Why, r.LowerBound = Infeasible, Why{Proof: Exhausted}, 0
		return r, nil
	case w.best == nil:
		return r, nil
	case w.proved || w.floor >= w.span:
		r.Status, r.LowerBound = ProvedBest, w.span
	default:
		r.Status = Feasible
	}
	if err := Check(*w.p, w.best); err != nil {
		return Result{}, fault.New(fault.Internal, "the schedule found does not pass: %v", err)
	}
	return r, nil
}

// luby is the k-th run length of the restart sequence 1 1 2 1 1 2 4 ...
func luby(k int) int {
	for {
		p := 1
		for p-1 < k {
			p *= 2
		}
		if p-1 == k {
			return p / 2
		}
		k -= p/2 - 1
	}
}
