package plan

import (
	"fettle/build"
	"fettle/engine/schedule"
)

// spread returns the own range and the common factor of a kind of work.
func (n *net) spread(kind string) (schedule.Spread, []int) {
	for _, r := range n.build.Risk.Ranges {
		if r.Kind != kind {
			continue
		}
		if r.Common == (build.Span{}) {
			return schedule.Spread(r.Factor), nil
		}
		if _, known := n.factors[kind]; !known {
			n.factors[kind] = len(n.problem.Factors)
			n.problem.Factors = append(n.problem.Factors, schedule.Factor{ID: kind, Range: schedule.Spread(r.Common)})
		}
		return schedule.Spread(r.Factor), []int{n.factors[kind]}
	}
	return schedule.Spread{}, nil
}

// reserve returns the hours kept at a task for what is not seen yet: the last
// reserve whose kind of finding has turned up, else the first.
func (n *net) reserve(id build.TaskID) (build.Reserve, bool) {
	var force build.Reserve
	found := false
	for _, r := range n.build.Risk.Reserve {
		if r.Task == id && (r.Since == "" || n.turnedUp(r.Since)) {
			force, found = r, true
		}
	}
	return force, found
}

func (n *net) turnedUp(kind string) bool {
	for _, f := range n.build.Findings {
		if f.Found == kind {
			return true
		}
	}
	return false
}
