package plan

import (
	"fettle/build"
	"fettle/engine/schedule"
)

// reserve returns the hours kept at a task for what is not seen yet. The first
// reserve is in force from the start. Once what a later one waits for turns
// up, every hour found draws the first down towards the later one, which is in
// force when the hours found have reached the first one's mode: a find never
// looks like good news.
func (n *net) reserve(id build.TaskID) (build.Reserve, bool) {
	var force build.Reserve
	found := false
	for _, r := range n.build.Risk.Reserve {
		switch {
		case r.Task != id:
		case !found:
			force, found = r, r.Since == "" || n.foundHours(r.Since) > 0
		default:
			force.Hours = drawn(force.Hours, r.Hours, n.foundHours(r.Since)/max(force.Hours.Mode, 1))
		}
	}
	return force, found
}

// foundHours returns the hours of findings of a kind.
func (n *net) foundHours(kind string) float64 {
	sum := 0.0
	for _, f := range n.build.Findings {
		if f.Found == kind {
			sum += f.Hours().H()
		}
	}
	return sum
}

// drawn lies between two ranges: 0 is the first, 1 and more the second.
func drawn(from, to build.Span, part float64) build.Span {
	part = min(part, 1)
	between := func(a, b float64) float64 { return a + part*(b-a) }
	return build.Span{Low: between(from.Low, to.Low), Mode: between(from.Mode, to.Mode), High: between(from.High, to.High)}
}

// minutes turns a range of hours into one of minutes.
func minutes(h build.Span) schedule.Spread {
	return schedule.Spread{Low: h.Low * 60, Mode: h.Mode * 60, High: h.High * 60}
}
