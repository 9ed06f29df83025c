package plan

import (
	"fmt"
	"math"
	"strings"

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
	_, stated := n.stated(t.Risk)
	return here > elsewhere && stated
}

// spent is a trade whose hours of a task are used up.
type spent struct {
	trade           build.TradeID
	planned, booked unit.Effort
	more            unit.Effort // on the mean
	with            string
	whole           schedule.Lognormal
}

// usedUp are the checks that ask what is left of work whose hours are used up,
// one for each task.
func (n *net) usedUp() []takeoff.Check {
	var list []takeoff.Check
	var of []spent
	for i, l := range n.legs {
		if s, ok := n.spentIn(l); ok {
			of = append(of, s)
		}
		last := i+1 == len(n.legs) || n.legs[i+1].task != l.task
		if last && len(of) > 0 {
			list = append(list, n.askLeft(n.build.Task(l.task), of))
		}
		if last {
			of = nil
		}
	}
	return list
}

func (n *net) spentIn(l leg) (spent, bool) {
	a := n.problem.Activities[l.activity]
	if l.work.Left > 0 || a.Begun.Spent == 0 {
		return spent{}, false
	}
	t := n.build.Task(l.task)
	k, _ := n.known(t.Risk, t.Stage)
	whole := schedule.Lognormal{Mu: a.Learned.Mu + k.common.Mu, Sigma: math.Hypot(a.Learned.Sigma, k.common.Sigma)}
	part := l.work.Begun.H() / l.work.Open.H()
	left := whole.Left(part)
	more := unit.Hours(l.work.Open.H() * left)
	return spent{l.work.Trade, l.work.Open, l.work.Begun, more, fmt.Sprintf("%s × (%.2f − %.2f)", l.work.Open, left+part, part), whole}, true
}

// askLeft is the question what is left of a task.
func (n *net) askLeft(t *build.Task, of []spent) takeoff.Check {
	var more unit.Effort
	var hours, with []string
	var inputs []figure.Input
	link := "task/" + string(t.ID)
	for _, s := range of {
		more += s.more
		hours, with = append(hours, fmt.Sprintf("%s of %s", s.planned, s.trade)), append(with, s.with)
		inputs = append(inputs,
			figure.Input{Name: "planned, " + string(s.trade), Value: s.planned.String(), Source: figure.Decided, Link: link},
			figure.Input{Name: "booked, " + string(s.trade), Value: s.booked.String(), Source: figure.Measured},
			figure.Input{Name: "range of " + t.Risk, Value: eightOfTen(s.whole), Source: figure.Worked, Note: "see the working of the odds"})
	}
	return takeoff.Check{
		ID: "used-up/" + string(t.ID), Weight: takeoff.Tight, Link: link,
		Says: fmt.Sprintf("%s %s: the %s are used up and it is not finished", t.ID, t.Name, strings.Join(hours, ", ")),
		Do:   fmt.Sprintf("Ask what is left. Until somebody says, the odds reckon with %s more on the mean.", more),
		Figure: figure.Figure{Name: "more hours in " + string(t.ID), Text: more.String(),
			Formula: "for each trade: planned × (mean of the wholes that exceed what is booked − booked ÷ planned), from the range of the kind of work",
			With:    strings.Join(with, " + ") + " = " + more.String(), Inputs: inputs,
			Caution: "Hours and money count nothing for it before somebody says what is left."},
	}
}
