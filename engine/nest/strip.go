package nest

import (
	"context"
)

// How the budget is shared and the strip shortened: as in [Gardeyn2025], but
// for the long strides at the beginning, which come near sooner.
const (
	exploreShare = 0.8
	strideBy     = 0.02  // the first steps, as a share of the length
	exploreBy    = 0.001 // the later ones
)

// search is the state of one Solve.
type search struct {
	*shop
	ctx     context.Context
	options Options
	now     *layout   // what is worked on
	lead    *seeker   // works on now itself
	helpers []*seeker // work on copies of their own, side by side; none where the lead is alone
	until   int       // evaluations the present phase may spend up to
	least   memory    // of the present separation
	failed  []memory
	best    memory // the shortest layout that has passed the exact check
	stats   Stats
}

func newSearch(ctx context.Context, s *shop, o Options) *search {
	r := &search{shop: s, ctx: ctx, options: o, now: newLayout(s)}
	r.lead = newSeeker(r.now, o.Seed, 0)
	if o.Workers > 1 {
		for w := range o.Workers {
			r.helpers = append(r.helpers, newSeeker(newLayout(s), o.Seed, uint64(w)+1))
		}
	}
	return r
}

// over says whether the present phase has spent its budget, or nobody waits
// for the result any more.
func (s *search) over() bool { return s.spent() >= s.until || s.ctx.Err() != nil }

func (s *search) budget() int { return s.options.Steps * StepEvaluations }

// solve finds the first layout and then shorter ones.
func (s *search) solve() {
	s.until = s.budget()
	s.start()
	s.until = int(exploreShare * float64(s.budget()))
	s.stride()
	s.explore()
	s.until = s.budget()
	s.compress()
}

// stride shortens the strip by long steps, halved where they fail, down to
// exploreBy.
func (s *search) stride() {
	for by := strideBy; by > exploreBy && !s.over(); {
		if !s.shorten(by, s.best.length/2) {
			return
		}
		if !s.separate(striding) || !s.accept() {
			by /= 2
		}
	}
}

// explore shortens the strip after each success; after a failure it goes back
// to one of the failed layouts, swaps two large pieces, and tries again.
func (s *search) explore() {
	shorter := s.shorten(exploreBy, s.best.length/2)
	for shorter && !s.over() {
		if s.separate(exploring) && s.accept() {
			s.failed = s.failed[:0]
			shorter = s.shorten(exploreBy, s.best.length/2)
			continue
		}
		s.giveUp()
		s.escape()
	}
}

// shorten takes a share off the length of the best layout: what lies right of
// the cut moves left by as much. It says whether there was anything to take.
func (s *search) shorten(by, cut float64) bool {
	s.recall(&s.best)
	length := max(s.shortest, float64(s.now.length*(1-by)))
	d := s.now.length - length
	if d <= 0 {
		return false
	}
	s.now.length = length
	for i, p := range s.now.spots {
		if b := s.now.boxes[i]; (b.Min.X+b.Max.X)/2 > cut {
			p.x -= d
		}
		s.now.put(i, p)
	}
	s.now.forget()
	s.lead.all()
	return true
}

// accept keeps the present layout as the best if it passes the exact check,
// and draws the end of the strip up to its last piece.
func (s *search) accept() bool {
	result := s.result(s.now.right() + s.margin)
	if _, err := Check(*s.problem, result.Placements); err != nil {
		s.stats.Refused++
		return false
	}
	s.now.length = result.Length
	s.best.take(s.now)
	s.stats.Improved++
	if s.options.Progress != nil {
		s.options.Progress(Progress{
			Steps: s.spent() / StepEvaluations, Budget: s.options.Steps,
			Length: result.Length, Density: result.Density, Placements: result.Placements,
		})
	}
	return true
}
