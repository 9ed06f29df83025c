package plan

import (
	"slices"

	"fettle/build"
	"fettle/rates"
	"fettle/unit"
)

// PastOf returns what a build that is over teaches the next ones: what its work
// and its people came to beside the plan, how its parts came, and what of all
// that might happen did.
func PastOf(b *build.Build) rates.Past {
	n := calendarOf(b)
	n.work = workOf(takeOffs(b, rates.Default()))
	p := rates.Past{Parts: partsOf(n), Hands: handsOf(n)}
	for _, t := range b.Tasks {
		for _, kind := range []string{t.Risk, outwork} {
			seen := func(w rates.WorkPast) bool { return w.Kind == kind && w.Stage == t.Stage }
			if kind == "" || slices.ContainsFunc(p.Work, seen) {
				continue
			}
			if ratios := n.ratios(kind, t.Stage); len(ratios) > 0 {
				p.Work = append(p.Work, rates.WorkPast{Kind: kind, Stage: t.Stage, Ratios: ratios})
			}
		}
	}
	for _, e := range b.Risk.Events {
		if !e.Open() {
			p.Events = append(p.Events, rates.EventPast{What: e.What, Happened: e.State == build.Happened})
		}
	}
	return p
}

// Over returns the day on which the last task of a build was finished; 0 while
// a task is open, or where there are none.
func Over(b *build.Build) unit.Date {
	last := unit.Date(0)
	for _, t := range b.Tasks {
		if t.State != build.Finished {
			return 0
		}
		last = max(last, t.Ended)
	}
	return last
}
