package nest

import (
	"context"

	"fettle/fault"
)

// solvePacking lays out hides and sheets.
func solvePacking(ctx context.Context, p *Problem, o Options) (Result, error) {
	b, err := newPacking(ctx, newShop(p), o)
	if err != nil {
		return Result{}, err
	}
	if p.Kind == Knapsack {
		b.sack()
	} else {
		b.pack()
	}
	r := b.result()
	report, err := CheckPart(*p, r.Placements)
	if err != nil {
		return Result{}, &fault.Fault{Kind: fault.Internal, Msg: "the layout failed its own check: " + err.Error(), Cause: err}
	}
	r.SmallestGap = report.SmallestGap
	return r, nil
}

// validatePacking holds hides and sheets to the rules.
func validatePacking(p *Problem) error {
	if len(p.Containers) == 0 || len(p.Pieces) == 0 {
		return fault.New(fault.Invalid, "there is nothing to cut, or nothing to cut it from")
	}
	for i := range p.Pieces {
		if err := p.Pieces[i].Shape.Check(); err != nil {
			return fault.Wrap(fault.Invalid, err, nameOf(p, i))
		}
		if p.Pieces[i].Free && len(p.Pieces[i].Rotations) > 0 {
			return fault.New(fault.Invalid, "any angle and a list of angles are both given").At(nameOf(p, i))
		}
	}
	return nil
}
