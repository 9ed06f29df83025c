package live

import (
	"context"

	"fettle/plan"
	"fettle/unit"
)

// Why answers why a build is not finished by a day, and what would help; day 0
// is the promised one.
func (s *Shop) Why(ctx context.Context, id string, by unit.Date) (*plan.WhyNot, View, error) {
	base, v, err := s.Plan(ctx, id)
	if err != nil {
		return nil, View{}, err
	}
	if by == 0 {
		by = v.Build.Promise.Ready
	}
	why, err := plan.Why(ctx, &v.Build, s.Rates(v), base, s.planOptions(), by)
	return why, v, err
}
