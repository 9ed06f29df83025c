package schedule

import (
	"context"
	"math/rand/v2"
	"slices"
)

// score ranks plans; less is better, field by field.
type score struct {
	late Minute // minutes after the goal
	slip int64  // overrun of maximum lags and pins, minutes
	last Minute // the last finish
}

func (a score) less(b score) bool {
	if a.late != b.late {
		return a.late < b.late
	}
	if a.slip != b.slip {
		return a.slip < b.slip
	}
	return a.last < b.last
}

// plan is a generated schedule, copied out of a run.
type plan struct {
	score
	serial                bool // it took the serial generation to make it
	order                 []int
	start, resume, finish []Minute
	heads                 []int
	skipped               []bool
}

// search holds the best plan and what is left of the budget.
type search struct {
	n      *net
	o      Options
	run    *run
	mirror *run
	rng    *rand.Rand
	bound  Minute
	best   plan
	stats  Stats
	cut    bool // the context ended
}

func newSearch(n *net, o Options) *search {
	s := &search{n: n, o: o, run: newRun(n), rng: rand.New(rand.NewPCG(o.Seed, 0))}
	s.bound = lowerBound(s.run)
	return s
}

// plain makes the foreman's plan of the starting list.
func (s *search) plain() {
	order := s.o.Order
	if order == nil {
		order = natural(len(s.n.Activities))
	}
	s.run.list(order)
	s.run.parallel()
	s.stats.Schedules++
	s.best = s.copyOut(order)
	s.widen()
}

// improve spends the budget: priority rules first, each with forward-backward
// improvement, then the best list with a few activities moved.
func (s *search) improve(ctx context.Context) {
	if s.o.Schedules <= 0 || s.proved() {
		return
	}
	s.mirror = newRun(s.n.mirrored())
	for _, order := range [][]int{s.best.order, s.tails()} {
		s.climb(order)
	}
	for s.left() && !s.proved() {
		if s.cut = ctx.Err() != nil; s.cut {
			return
		}
		if s.o.Progress != nil {
			s.o.Progress(s.stats.Schedules, s.o.Schedules)
		}
		s.climb(s.neighbour(s.best.order))
	}
}

func (s *search) left() bool   { return s.stats.Schedules < s.o.Schedules }
func (s *search) proved() bool { return s.best.last == s.bound && s.best.slip == 0 && s.bound < Never }

// climb generates a list both ways and justifies back and forth while that helps.
func (s *search) climb(order []int) {
	for range 4 { // rounds help twice or so; four is never the limit that binds
		better := s.generate(order, false)
		better = s.generate(order, true) || better
		if !s.left() || s.proved() || s.run.makespan() >= Never {
			return
		}
		order = s.justify()
		if !better {
			break
		}
	}
	s.generate(order, true)
	s.generate(order, false)
}

// generate makes one schedule and keeps it if it is the best.
func (s *search) generate(order []int, serial bool) bool {
	if !s.left() {
		return false
	}
	s.run.list(order)
	if serial {
		s.run.serial()
	} else {
		s.run.parallel()
	}
	s.stats.Schedules++
	if !s.score().less(s.best.score) {
		return false
	}
	s.best = s.copyOut(order)
	s.best.serial = serial
	s.stats.Improved++
	s.widen()
	return true
}

// widen tries to keep recoat windows: what comes before a missed one is begun
// later, as long as that makes the plan better.
func (s *search) widen() {
	for range 20 { // as many as a shop would shuffle by hand
		if s.best.slip == 0 || len(s.n.maxLags) == 0 {
			return
		}
		hold := make([]Minute, len(s.n.Activities))
		if s.run.hold != nil {
			copy(hold, s.run.hold)
		}
		for _, l := range s.n.maxLags {
			if by := s.n.over(l, s.best.start, s.best.finish); by > 0 && by < Never {
				from := s.n.Links[l].From
				hold[from] = max(hold[from], s.best.start[from]+by)
			}
		}
		old := s.run.hold
		s.run.hold = hold
		s.run.list(s.best.order)
		s.run.parallel()
		s.stats.Schedules++
		if !s.score().less(s.best.score) {
			s.run.hold = old
			return
		}
		s.best = s.copyOut(s.best.order)
		s.stats.Improved++
	}
}

func (s *search) copyOut(order []int) plan {
	r := s.run
	return plan{
		score: s.score(), order: slices.Clone(order), heads: slices.Clone(r.heads),
		start: slices.Clone(r.start), resume: slices.Clone(r.resume), finish: slices.Clone(r.finish),
		skipped: slices.Clone(r.skipped),
	}
}

func (s *search) score() score {
	r, v := s.run, score{}
	v.last = r.makespan()
	if s.n.Goal > 0 {
		v.late = max(0, v.last-s.n.Goal)
	}
	for _, l := range s.n.maxLags {
		v.slip += int64(s.n.over(l, r.start, r.finish))
	}
	for _, j := range s.n.pinned {
		v.slip += int64(max(0, r.start[j]-max(s.n.Now, s.n.Activities[j].Release)))
	}
	return v
}

// over is by how much a maximum lag is missed. A fact cannot miss it any more.
func (n *net) over(link int, start, finish []Minute) Minute {
	l := &n.Links[link]
	if n.Activities[l.To].State != Open {
		return 0
	}
	return max(0, start[l.To]-n.arrival(link, start[l.From], finish[l.From]))
}

// neighbour moves one to three activities to another place in the list.
func (s *search) neighbour(order []int) []int {
	list := slices.Clone(order)
	for range 1 + s.rng.IntN(3) {
		from, to := s.rng.IntN(len(list)), s.rng.IntN(len(list))
		j := list[from]
		list = slices.Insert(slices.Delete(list, from, from+1), to, j)
	}
	return list
}
