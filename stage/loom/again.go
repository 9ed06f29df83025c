package loom

import (
	"context"

	"fettle/build"
	"fettle/engine/loom"
)

// Again works the circuits out anew about a route that was led before, for
// figures that follow while somebody types: the way, what is cut and what is
// taken stay as that sheet has them until the whole is worked out.
func Again(ctx context.Context, b *build.Build, led Sheet) (Sheet, error) {
	w := solved{b: b, p: ProblemOf(b), led: led.Route, ways: led.Ways, cuts: led.Cuts}
	var err error
	if w.r, err = loom.Solve(ctx, w.p, loom.Options{}); err != nil {
		return Sheet{}, err
	}
	if w.led != nil && w.learn() {
		if w.r, err = loom.Solve(ctx, w.p, loom.Options{}); err != nil {
			return Sheet{}, err
		}
	}
	w.known = sizesOf(w.p, w.r)
	s, r := led, w.r
	s.Problem, s.Fuses, s.Boxes, s.Flaws, s.Charge, s.Night, s.Reserve, s.Rules = w.p, r.Fuses, r.Boxes, r.Flaws, r.Charge, r.Night, r.Reserve, r.Rules
	s.Rows, s.Sections = w.rows(w.inFull(ctx)), map[string]string{}
	for _, row := range s.Rows {
		s.Sections[row.ID] = row.Section
	}
	s.Checks = w.checks(led.Needs)
	return s, nil
}
