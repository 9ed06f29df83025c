package project

import (
	"fmt"

	"fettle/fault"
)

// Check says whether a list of starts is a schedule of the problem: nothing
// starts before zero or before what it waits for is over, and at no moment is
// more of a resource held than there is. It shares no code with the search:
// resources are summed at each start, activity by activity. A schedule that
// fails is a fault of kind Invalid that names the activity.
func Check(p Problem, starts []int32) error {
	if err := p.validate(); err != nil {
		return err
	}
	if len(starts) != len(p.Duration) {
		return fault.New(fault.Invalid, "%d starts for %d activities", len(starts), len(p.Duration))
	}
	for i, at := range starts {
		if at < 0 {
			return wrong(i, "starts before zero")
		}
		for _, j := range p.Succ[i] {
			if int64(starts[j]) < int64(at)+int64(p.Duration[i]) {
				return wrong(int(j), fmt.Sprintf("starts before activity %d is over", i))
			}
		}
	}
	return checkUse(p, starts)
}

// checkUse looks at the moments when something starts: use can peak nowhere else.
func checkUse(p Problem, starts []int32) error {
	for i, at := range starts {
		for k, units := range p.Capacity {
			held := int64(0)
			for j, from := range starts {
				if from <= at && int64(at) < int64(from)+int64(p.Duration[j]) {
					held += int64(p.Demand[j][k])
				}
			}
			if held > int64(units) {
				return wrong(i, fmt.Sprintf("starts at %d, when %d units of resource %d are held and there are %d", at, held, k, units))
			}
		}
	}
	return nil
}

func wrong(activity int, what string) error {
	return fault.New(fault.Invalid, "%s", what).At(fmt.Sprintf("activity %d", activity))
}
