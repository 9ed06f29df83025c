package plan

import (
	"fettle/build"
	"fettle/engine/schedule"
)

// spread returns the own range and the common factor of a kind of work. The
// part of the range that is shared moves all work of the kind on this vehicle
// together: worse under the paint than it looked.
func (n *net) spread(kind string) (schedule.Spread, []int) {
	for _, r := range n.build.Risk.Ranges {
		if r.Kind != kind {
			continue
		}
		own := part(r.Factor, 1-r.Shared)
		if r.Shared == 0 {
			return own, nil
		}
		if _, known := n.factors[kind]; !known {
			n.factors[kind] = len(n.problem.Factors)
			n.problem.Factors = append(n.problem.Factors, schedule.Factor{ID: kind, Range: part(r.Factor, r.Shared)})
		}
		return own, []int{n.factors[kind]}
	}
	return schedule.Spread{}, nil
}

// part narrows a range about its mode to a part of its width; a part of
// nothing is no uncertainty.
func part(s build.Span, share float64) schedule.Spread {
	if share == 0 {
		return schedule.Spread{}
	}
	return schedule.Spread{Low: s.Mode + share*(s.Low-s.Mode), Mode: s.Mode, High: s.Mode + share*(s.High-s.Mode)}
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
