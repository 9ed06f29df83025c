package nest

import (
	"context"
	"math"
	"sync"
)

// patience says when a separation is given up.
type patience struct {
	rounds  int // without a gain: that is a strike
	strikes int // in a row
}

// How long each phase tries. Long strides fail for good reason sooner or later.
// [Gardeyn2025] explores with 200 rounds and 3 strikes: within a minute other
// layouts are worth more than a longer look at one (docs/engine/nest.md).
var (
	striding    = patience{100, 2}
	exploring   = patience{60, 2}
	compressing = patience{100, 5}
)

// gainBelow is the share of the least loss so far that a round has to come
// below to count as a gain.
const gainBelow = 0.98

// separator makes one layout free of collisions. It is what all drivers share.
type separator struct {
	ctx     context.Context
	now     *layout     // what is worked on
	lead    *seeker     // works on now itself
	helpers []*seeker   // work on copies of their own, side by side; none where the lead is alone
	threads int         // how many of them at a time
	until   int         // evaluations that may be spent up to
	least   memory      // of the present separation
	mends   func() bool // tries to part at once all that overlaps in now; nil where nobody does
	stats   Stats
	stepped func(steps int) // nil where nobody is told
	told    int             // steps, last
}

// newSeparator prepares a layout for so many looks at each round, or as many as
// there are workers.
func newSeparator(ctx context.Context, l *layout, o Options, looks int) *separator {
	s := &separator{ctx: ctx, now: l, lead: newSeeker(l, o.Seed, 0), threads: max(o.Workers, 1), stepped: o.Stepped}
	if looks = max(looks, o.Workers); looks > 1 {
		for w := range looks {
			s.helpers = append(s.helpers, newSeeker(newLayout(l.shop, l.items, l.bounds, l.floor), o.Seed, uint64(w)+1))
		}
	}
	return s
}

// over says whether the budget is spent, or nobody waits for the result any
// more.
func (s *separator) over() bool { return s.spent() >= s.until || s.ctx.Err() != nil }

// separate moves colliding pieces until none collide, and says whether it got
// there. If not, the layout is left at the least loss it came to.
func (s *separator) separate(p patience) bool {
	s.stats.Separations++
	least := s.now.total()
	s.least.take(s.now)
	mended := math.Inf(1)
	for strikes := 0; least > 0 && strikes < p.strikes && !s.over(); strikes++ {
		before := least
		for quiet := 0; quiet < p.rounds && !s.over(); quiet++ {
			s.round()
			s.tell()
			loss := s.now.total()
			if loss == 0 {
				return true
			}
			if loss < gainBelow*least {
				quiet = 0
			}
			if loss < least {
				least = loss
				s.least.take(s.now)
			}
		}
		if least < gainBelow*before {
			strikes = -1
		}
		s.recall(&s.least)
		if s.mends != nil && least < mended {
			if mended = least; least > 0 && s.mends() {
				return true
			}
		}
	}
	return least == 0
}

// round lets every colliding piece look for a better place once, and learns
// the weights. With several looks each is at a copy of its own, in its own
// order; the one with the least weighted loss counts.
func (s *separator) round() {
	if len(s.helpers) == 0 {
		s.lead.round()
	} else {
		s.sideBySide()
	}
	s.now.learn()
}

// tell says how many steps are done, now and then.
func (s *separator) tell() {
	if s.stepped == nil {
		return
	}
	if steps := s.spent() / StepEvaluations; steps >= s.told+SteppedEvery {
		s.told = steps
		s.stepped(steps)
	}
}

func (s *separator) sideBySide() {
	var wait sync.WaitGroup
	for first := range s.threads {
		wait.Go(func() {
			for i := first; i < len(s.helpers); i += s.threads {
				s.helpers[i].copyFrom(s.now)
				s.helpers[i].round()
			}
		})
	}
	wait.Wait()
	best := s.helpers[0]
	for _, w := range s.helpers[1:] {
		if w.weighted() < best.weighted() {
			best = w
		}
	}
	s.now.copyFrom(best.layout)
}

// spent sums the places judged by all.
func (s *separator) spent() int {
	sum := s.lead.judged
	for _, w := range s.helpers {
		sum += w.judged
	}
	return sum
}

// round moves each colliding piece, in random order, to the best place found.
func (k *seeker) round() {
	k.order = k.order[:0]
	for i := range k.items {
		if !k.fixed[i] && k.burden(i) > 0 {
			k.order = append(k.order, i)
		}
	}
	k.rand.Shuffle(len(k.order), func(a, b int) { k.order[a], k.order[b] = k.order[b], k.order[a] })
	for _, i := range k.order {
		if k.burden(i) > 0 {
			k.seek(i)
		}
	}
}
