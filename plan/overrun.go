package plan

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// runsOver reports whether a trade has used up its hours of a task, is not known
// to be done with it, and so needs more: how much, the odds draw. Whoever has
// worked elsewhere since is done with it, for work once begun is finished
// first; who has said what is left is believed.
func (n *net) runsOver(t build.Task, w takeoff.Work) bool {
	if t.State != build.Begun || t.LeftSaid || w.Open <= 0 || w.Begun < w.Open {
		return false
	}
	var here, elsewhere unit.Moment
	for _, h := range n.build.Hours {
		switch who := n.build.Person(h.Person); {
		case len(who.Trades) == 0 || who.Trades[0] != w.Trade:
		case h.Task == t.ID:
			here = max(here, h.Start)
		default:
			elsewhere = max(elsewhere, h.Start)
		}
	}
	return here > elsewhere && slices.ContainsFunc(n.build.Risk.Ranges, func(r build.RiskRange) bool { return r.Kind == t.Risk })
}

// usedUp are the checks that ask what is left of work whose hours are used up.
func (n *net) usedUp() []takeoff.Check {
	var list []takeoff.Check
	for _, l := range n.legs {
		t := n.build.Task(l.task)
		a := n.problem.Activities[l.activity]
		if l.work.Left > 0 || a.Begun.Spent == 0 {
			continue
		}
		k, _ := n.known(t.Risk, t.Stage)
		whole := schedule.Lognormal{Mu: a.Learned.Mu + k.common.Mu, Sigma: math.Hypot(a.Learned.Sigma, k.common.Sigma)}
		spent := l.work.Begun.H() / l.work.Open.H()
		more := unit.Hours(l.work.Open.H() * whole.Left(spent))
		link := "task/" + string(t.ID)
		list = append(list, takeoff.Check{
			ID: "used-up/" + string(t.ID) + "/" + string(l.work.Trade), Weight: takeoff.Tight, Link: link,
			Says: fmt.Sprintf("%s %s: the %s of %s are used up and it is not finished", t.ID, t.Name, l.work.Open, l.work.Trade),
			Do:   fmt.Sprintf("Ask what is left. Until somebody says, the odds reckon with %s more on the mean.", more),
			Figure: figure.Figure{Name: "more hours of " + string(l.work.Trade) + " in " + string(t.ID), Text: more.String(),
				Formula: "planned × (mean of the wholes that exceed what is booked − booked ÷ planned), from the range of the kind of work",
				With:    fmt.Sprintf("%s × (%.2f − %.2f) = %s", l.work.Open, whole.Left(spent)+spent, spent, more),
				Inputs: []figure.Input{
					{Name: "planned", Value: l.work.Open.String(), Source: figure.Decided, Link: link},
					{Name: "booked", Value: l.work.Begun.String(), Source: figure.Measured},
					{Name: "range of " + t.Risk, Value: eightOfTen(whole), Source: figure.Worked, Note: "see the working of the odds"},
				},
				Caution: "Hours and money count nothing for it before somebody says what is left."},
		})
	}
	return list
}
