package nest

import (
	"context"
	"slices"

	"fettle/fault"
)

// Solve lays out the pieces. Bad input is a fault of kind Invalid that names
// the rule and the piece; a layout that fails its own check, a mistake of ours,
// is one of kind Internal. Every other outcome is a Status. The same problem,
// options and number of workers give the same result. It has passed Check.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := validate(&p); err != nil {
		return Result{}, err
	}
	s := newShop(&p)
	var err error
	if s.given, err = given(&p, o.Start); err != nil {
		return Result{}, err
	}
	if p.Kind != Strip {
		return solvePacking(ctx, s, o)
	}
	r, err := newSearch(ctx, s, o)
	if err != nil {
		return Result{}, err
	}
	if err := r.solve(); err != nil {
		return Result{}, err
	}
	if r.stats.Improved == 0 {
		return Result{}, fault.New(fault.Internal, "the first layout failed its own check")
	}
	r.recall(&r.best)
	res := r.result(r.shortestYet())
	report, err := Check(p, res.Placements)
	if err != nil {
		return Result{}, &fault.Fault{Kind: fault.Internal, Msg: "the layout failed its own check: " + err.Error(), Cause: err}
	}
	res.SmallestGap = report.SmallestGap
	return res, nil
}

// newShop prepares what the search shares.
func newShop(p *Problem) *shop {
	s := &shop{problem: p, gap: p.Clearance + p.Kerf}
	headings := headingsOf(p)
	for i := range p.Pieces {
		f := newForm(&p.Pieces[i], headings, s.gap)
		s.most = max(s.most, len(f.turns[0].edges.ax))
		s.forms = append(s.forms, f)
	}
	for a := range s.forms {
		for b := range s.forms {
			s.sizes = append(s.sizes, sizeOf(&s.forms[a], &s.forms[b]))
		}
	}
	return s
}

// headingsOf lists the directions of all materials, each once.
func headingsOf(p *Problem) []float64 {
	var list []float64
	for i := range p.Containers {
		if len(p.Containers[i].Grain) == 0 {
			list = append(list, 0)
		}
		for _, h := range p.Containers[i].Grain {
			list = append(list, h.Angle)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// fitting returns the turns that are no higher than the strip.
func fitting(turns []turn, height float64) []turn {
	var list []turn
	for _, t := range turns {
		if t.box.Height() <= height {
			list = append(list, t)
		}
	}
	return list
}

// result returns the present layout.
func (s *search) result(length float64) Result {
	r := Result{Length: length, Density: s.area / (length * s.height), Used: []int{1}, Stats: s.stats}
	r.Stats.Evaluations = s.spent()
	r.Stats.Steps = r.Stats.Evaluations / StepEvaluations
	if s.ctx.Err() != nil {
		r.Status = Interrupted
	}
	for i, it := range s.now.items {
		r.Placements = append(r.Placements, placement(it, s.now.spots[i]))
	}
	return r
}
