package plan

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/takeoff"
)

// event is something that may happen yet, with its chance after the records of
// finished builds.
type event struct {
	build.Event
	chance      float64
	happened, n int    // of the records
	first       string // the risk of its first round in the odds
}

// chanceOf puts the records of finished builds to what was judged: those of
// events that are called the same.
func (n *net) chanceOf(e build.Event) event {
	x := event{Event: e, chance: e.Chance}
	for _, p := range n.past {
		for _, r := range p.Events {
			if r.What == e.What {
				x.n++
				if r.Happened {
					x.happened++
				}
			}
		}
	}
	if e.Chance > 0 {
		x.chance = rates.Chance(e.Chance, x.happened, x.n)
	}
	return x
}

// mayHappen lays out what may happen to a task behind it: rounds of work, each
// with its own luck, each needing the strike before it, and all that waits for
// the task waits for them too. In the plain plan nothing of it happens.
func (n *net) mayHappen(t build.Task, holder build.TradeID) {
	for _, e := range n.build.Risk.Events {
		if e.Task != t.ID || !e.Open() {
			continue
		}
		x := n.chanceOf(e)
		if x.chance > 0 {
			n.strike(t, &x, holder)
		}
		n.events = append(n.events, x)
	}
}

// strike adds the rounds of an event and makes the end of its task wait for them.
func (n *net) strike(t build.Task, x *event, holder build.TradeID) {
	last, risks := []int{n.ends[t.ID]}, len(n.problem.Risks)
	end := n.ends[t.ID]
	for k := range max(x.Times, 1) {
		id := fmt.Sprintf("%s/%s %d", t.ID, x.ID, k+1)
		list, ends := n.round(t, *x, id, holder, last)
		n.problem.Risks = append(n.problem.Risks, schedule.Risk{ID: id, Chance: x.chance})
		for i := range n.problem.Risks[risks:] { // a round needs all the strikes before it
			n.problem.Risks[risks+i].Activities = append(n.problem.Risks[risks+i].Activities, list...)
		}
		last = append(slices.Clone(last), ends...)
	}
	x.first = n.problem.Risks[risks].ID
	over := n.add(schedule.Activity{ID: string(t.ID) + "/" + string(x.ID), Group: string(t.ID), Kind: schedule.Milestone})
	n.link(end, over)
	for _, i := range last[1:] {
		n.link(i, over)
	}
	n.ends[t.ID] = over
}

// round adds what an event costs once, behind what came last, and returns its
// activities and those at which it ends.
func (n *net) round(t build.Task, x event, id string, holder build.TradeID, last []int) (list, ends []int) {
	work, days := x.Work, x.Days
	if x.Again() {
		work, days = planned(n.work[t.ID]), n.build.WaitOf(t)
	}
	for _, l := range work {
		if l.Hours <= 0 {
			continue
		}
		a := schedule.Activity{ID: id + "/" + string(l.Trade), Group: string(t.ID), Kind: schedule.Labour, Work: schedule.Minute(l.Hours), Who: n.who(l.Trade)}
		n.spread(&a, t.Risk, t.Stage, 1, false)
		if t.Bay != "" && l.Trade == holder {
			a.Uses = []schedule.Use{{Place: slices.IndexFunc(n.build.Bays, func(y build.Bay) bool { return y.ID == t.Bay }), Units: 1}}
		}
		list = append(list, n.add(a))
	}
	for _, i := range list {
		for _, before := range last {
			n.link(before, i)
		}
	}
	ends = list
	if days > 0 {
		wait := n.add(schedule.Activity{ID: id + "/wait", Group: string(t.ID), Kind: schedule.Passive, Work: schedule.Minute(days * dayLong), Calendar: n.shopDays})
		for _, i := range slices.Concat(last, list) {
			n.link(i, wait)
		}
		list, ends = append(slices.Clone(list), wait), []int{wait}
	}
	return list, ends
}

// planned are the hours of a whole task by trade.
func planned(work []takeoff.Work) []build.Leg {
	var legs []build.Leg
	for _, w := range work {
		legs = append(legs, build.Leg{Trade: w.Trade, Hours: w.Planned})
	}
	return legs
}

// onlyIf reports whether only something that may happen calls for an activity.
func (n *net) onlyIf(activity int) bool {
	return slices.ContainsFunc(n.problem.Risks, func(r schedule.Risk) bool { return slices.Contains(r.Activities, activity) })
}

// strike is what the played builds say of an event.
func (x event) strike(odds schedule.Outlook) (schedule.Strike, bool) {
	i := slices.IndexFunc(odds.Risks, func(s schedule.Strike) bool { return s.Risk == x.first })
	if i < 0 || odds.Risks[i].Part == 0 {
		return schedule.Strike{}, false
	}
	return odds.Risks[i], true
}

// daysLater writes a span of the calendar in days.
func daysLater(m schedule.Minute) string { return fmt.Sprintf("%.1f days", float64(m)/1440) }
