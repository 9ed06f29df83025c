package nest

import (
	"context"

	"fettle/fault"
)

// solvePacking lays out hides and sheets.
func solvePacking(ctx context.Context, s *shop, o Options) (Result, error) {
	p := s.problem
	b, err := newPacking(ctx, s, o)
	if err != nil {
		return Result{}, err
	}
	if p.Kind == Knapsack {
		b.sack()
	} else {
		b.pack()
		b.tidy()
	}
	r := b.result()
	report, err := CheckPart(*p, r.Placements)
	if err != nil {
		return Result{}, &fault.Fault{Kind: fault.Internal, Msg: "the layout failed its own check: " + err.Error(), Cause: err}
	}
	r.SmallestGap = report.SmallestGap
	return r, nil
}
