package loom

import (
	"context"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
)

// Again works the circuits out anew about a route that was led before, for
// figures that follow while somebody types: the way, what is cut and what is
// taken stay as that sheet has them until the whole is worked out.
func Again(ctx context.Context, b *build.Build, led Sheet) (Sheet, error) {
	p := ProblemOf(b)
	r, err := loom.Solve(ctx, p, loom.Options{})
	if err != nil {
		return Sheet{}, err
	}
	s := led
	s.Problem, s.Fuses, s.Boxes, s.Flaws, s.Charge, s.Night, s.Reserve, s.Rules = p, r.Fuses, r.Boxes, r.Flaws, r.Charge, r.Night, r.Reserve, r.Rules
	s.Rows, s.Sections = rowsOf(b, p, r, led.Route), map[string]string{}
	for _, row := range s.Rows {
		s.Sections[row.ID] = row.Section
	}
	s.Checks = slices.Concat(checks(b, p, r, led.Needs), routeChecks(led.Route, s.Rows))
	return s, nil
}
