package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

// borne is a trial with its whole plan.
type borne struct {
	trial
	changes []build.Change
	plan    *Plan
}

// pick plans the build anew with each trial, the cheapest first, until one
// keeps the promised day in four of five builds; else it returns the one with
// the best odds. A trial that its whole plan does not bear out, or whose odds
// are worse than those of the list as it stands, is passed over.
func (h *hunt) pick(ctx context.Context, found []trial, r rates.Rates, base *Plan, o Options) (*borne, error) {
	var best *borne
	for _, t := range found {
		changes := h.changes(t)
		after, err := build.ApplyAll(*h.build, changes)
		if err != nil {
			return nil, err
		}
		p, err := Make(ctx, &after, r, o)
		if err != nil {
			return nil, err
		}
		d := p.Dates
		if d.Plain != h.day(t.result.Makespan) || d.P50 > base.Dates.P50 || d.P80 > base.Dates.P80 || p.Odds.Ready < base.Odds.Ready {
			continue
		}
		if best == nil || p.Odds.Ready > best.plan.Odds.Ready {
			best = &borne{t, changes, p}
		}
		if d.P80 <= p.Promise.Ready {
			break
		}
	}
	return best, nil
}

// propose writes down what was found.
func (h *hunt) propose(res *BetterOrder, m *borne, base *Plan) {
	p := m.plan
	res.Found, res.Changes, res.After = true, m.changes, prospectOf(p)
	res.Won = h.daysBetween(p.Dates.Plain, base.Dates.Plain)
	res.Price, res.Cash, res.Saturdays = unit.Money(m.result.Price), p.Money.Cash-base.Money.Cash, len(m.result.Bought)
	res.Near, res.Listed = len(m.result.Moved), h.moved(m.order)
	res.Shifts = h.shifts(base, p, m.trial)
	res.Says = res.says(h.build.Currency)
}

// changes are the acts that make a trial true.
func (h *hunt) changes(t trial) []build.Change {
	var list []build.Change
	if c := h.arranged(t.order); len(c.Tasks) > 0 {
		list = append(list, c)
	}
	for i, who := range h.build.People {
		c := &build.AddOvertime{Person: who.ID, Hours: who.Saturday}
		for _, o := range t.result.Bought {
			if h.problem.Overtime[o].Person == i {
				c.Days = append(c.Days, h.saturdays[o])
			}
		}
		if len(c.Days) > 0 {
			list = append(list, c)
		}
	}
	return list
}

// says puts a finding into one line.
func (r *BetterOrder) says(money unit.Currency) string {
	parts := []string{WorkingDays(r.Won) + " earlier"}
	if r.Won == 0 {
		parts[0] = "The same working day"
	}
	parts = append(parts, fmt.Sprintf("odds %.0f %% instead of %.0f %%", 100*r.After.Ready, 100*r.Before.Ready))
	switch n := len(r.Listed); {
	case n == 0:
		parts = append(parts, "the order stands")
	default:
		parts = append(parts, plural(n, "task")+" to move on the list")
	}
	if r.Saturdays > 0 {
		parts = append(parts, fmt.Sprintf("%s for %s", plural(r.Saturdays, "Saturday"), money.Format(r.Price)))
	}
	return strings.Join(parts, ", ")
}

// shifts lists the open tasks whose days move, in the order of their new days.
func (h *hunt) shifts(base, after *Plan, t trial) []Shift {
	var list []Shift
	for _, x := range base.Tasks {
		i := slices.IndexFunc(after.Tasks, func(y Task) bool { return y.ID == x.ID })
		s := Shift{Task: x.ID, Name: x.Name, Before: daysOf(x), After: daysOf(after.Tasks[i])}
		if x.State == build.Finished || s.Before == s.After {
			continue
		}
		s.Start, s.Finish = h.later(s.Before.First, s.After.First), h.later(s.Before.Last, s.After.Last)
		s.Why = h.whyNow(x.ID, t.result)
		list = append(list, s)
	}
	slices.SortStableFunc(list, func(a, b Shift) int { return cmp.Compare(a.After.First, b.After.First) })
	return list
}

func daysOf(t Task) Days {
	return Days{First: t.Start.Date(), Last: max((t.Finish - 1).Date(), t.Start.Date())}
}

// later counts the working days by which a day comes later; earlier is negative.
func (n *net) later(from, to unit.Date) int {
	return n.daysBetween(from, to) - n.daysBetween(to, from)
}

// whyNow says what sets the start of a task in a plan: that of the first of its
// hours to begin; hours that are used up wait for nothing.
func (n *net) whyNow(id build.TaskID, res schedule.Result) string {
	first := n.starts[id][len(n.starts[id])-1] // where its hours meet
	for _, j := range n.starts[id] {
		if n.problem.Activities[j].Work > 0 && res.Times[j].Start < res.Times[first].Start {
			first = j
		}
	}
	return n.why(res.Times[first].Binding, res.Times[first])
}
