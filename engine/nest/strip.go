package nest

import (
	"context"

	"fettle/fault"
	"fettle/geom"
)

// How the budget is shared and the strip shortened: as in [Gardeyn2025], but
// for the long strides at the beginning, which come near sooner.
const (
	exploreShare = 0.8
	strideBy     = 0.02  // the first steps, as a share of the length
	exploreBy    = 0.001 // the later ones
	manyCopies   = 64    // from so many on,
	manyLooks    = 3     // so many looks are taken at each round
	tooLittle    = 1e-6  // as a share of the length, is not taken off
)

// search is the state of one Solve of a strip.
type search struct {
	explorer
	options  Options
	height   float64 // of the strip
	margin   float64
	area     float64          // of all copies
	shortest float64          // no strip can be
	best     memory           // the shortest layout that has passed the exact check
	before   memory           // what a compaction began with
	convex   [][][]geom.Point // parts of each piece; nil where no compaction is tried
}

// newSearch prepares a strip. A piece that fits nowhere on it is a fault.
func newSearch(ctx context.Context, s *shop, o Options) (*search, error) {
	c := &s.problem.Containers[0]
	r := &search{options: o, height: c.Height, margin: c.Margin - s.gap/2}
	items := s.items()
	for i := range s.forms {
		f := &s.forms[i]
		f.turns = fitting(f.turns, r.height-2*r.margin)
		if len(f.turns) == 0 {
			return nil, fault.New(fault.Invalid, "it is too high for the strip in every turn allowed").At(nameOf(s.problem, i))
		}
		reach := 0.0
		if f.turns, reach = matching(&s.problem.Pieces[i], f.turns, c.Repeat, r.strip(0)); len(f.turns) == 0 {
			return nil, fault.New(fault.Invalid, "there is no room for it on any line of the pattern across the roll").At(nameOf(s.problem, i))
		}
		r.shortest = max(r.shortest, reach+r.margin)
	}
	for _, it := range items {
		r.area += s.forms[it.piece].area
	}
	r.shortest = max(r.shortest, r.area/(r.height-2*r.margin)+2*r.margin)
	looks := 1
	if len(items) >= manyCopies {
		looks = manyLooks
	}
	r.explorer = newExplorer(newSeparator(ctx, newLayout(s, items, r.strip(0), s.flaws()), o, looks))
	for _, at := range locked(s.problem) {
		i := find(items, at)
		r.now.put(i, s.spotOf(at))
		r.shortest = max(r.shortest, r.now.boxes[i].Max.X+r.margin)
	}
	r.convex = convexOf(s.problem)
	r.mends = r.mend
	return r, nil
}

// strip returns the bounds of a strip of some length.
func (s *search) strip(length float64) geom.Box {
	return geom.Box{
		Min: geom.Point{X: s.margin, Y: s.margin},
		Max: geom.Point{X: length - s.margin, Y: s.height - s.margin},
	}
}

// length of the strip now.
func (s *search) length() float64 { return s.now.bounds.Max.X + s.margin }

// shortestYet is the length of the best layout.
func (s *search) shortestYet() float64 { return s.best.bounds.Max.X + s.margin }

func (s *search) budget() int { return s.options.Steps * StepEvaluations }

// solve finds the first layout and then shorter ones.
func (s *search) solve() error {
	s.until = s.budget()
	if err := s.start(); err != nil {
		return err
	}
	if s.now.floor == nil && jigsaw(s.now.problem) {
		s.jump()
	}
	s.until = int(exploreShare * float64(s.budget()))
	s.stride()
	s.explore()
	s.until = s.budget()
	s.compress()
	return nil
}

// stride shortens the strip by long steps, halved where they fail, down to
// exploreBy.
func (s *search) stride() {
	for by := strideBy; by > exploreBy && !s.over(); {
		if !s.shorten(by, s.shortestYet()/2) {
			return
		}
		if !s.separate(striding) || !s.draw() {
			by /= 2
		}
	}
}

// explore shortens the strip after each success; after a failure it goes back
// to one of the failed layouts, swaps two large pieces, and tries again.
func (s *search) explore() {
	shorter := s.shorten(exploreBy, s.shortestYet()/2)
	for shorter && !s.over() {
		if s.separate(exploring) && s.draw() {
			s.failed = s.failed[:0]
			shorter = s.shorten(exploreBy, s.shortestYet()/2)
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
	length := max(s.shortest, float64(s.length()*(1-by)))
	d := s.length() - length
	if d <= tooLittle*length {
		return false
	}
	s.now.bounds = s.strip(length)
	for i, p := range s.now.spots {
		if b := s.now.boxes[i]; !s.now.fixed[i] && (b.Min.X+b.Max.X)/2 > cut {
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
	if _, err := Check(*s.now.problem, result.Placements); err != nil {
		s.stats.Refused++
		return false
	}
	s.now.bounds = s.strip(result.Length)
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
