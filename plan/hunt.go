package plan

import (
	"cmp"
	"context"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

// NearDays is how many working days ahead the shop counts on what it was told.
const NearDays = 5

// hunt looks for a better order of one build's list.
type hunt struct {
	*net
	present   []build.TaskID         // open tasks in the order of the list
	tasks     map[build.TaskID][]int // their activities
	stands    schedule.Result        // the plan as it stands
	seed      uint64
	saturdays []unit.Date // the days of Problem.Overtime; none while the plan is in time
}

func newHunt(ctx context.Context, b *build.Build, r rates.Rates, base *Plan, o Options) (*hunt, error) {
	h := &hunt{net: network(b, takeOffs(b, r), r.Past, o.Now), tasks: map[build.TaskID][]int{}, seed: o.Seed}
	for j, a := range h.problem.Activities {
		id := build.TaskID(a.Group)
		if len(h.tasks[id]) == 0 {
			h.present = append(h.present, id)
		}
		h.tasks[id] = append(h.tasks[id], j)
	}
	var err error
	if h.stands, err = schedule.Solve(ctx, h.problem, schedule.Options{}); err != nil {
		return nil, err
	}
	h.aim(base)
	h.publish()
	return h, nil
}

// aim sets the goal so that four in five builds would about keep the promised
// day: ahead of it by the days that the plain plan now lies before them. Who is
// late by that may buy the Saturdays that people offer.
func (h *hunt) aim(base *Plan) {
	goal := h.endOf(h.build.Promise.Ready - (base.Dates.P80 - base.Dates.Plain))
	h.problem.Goal = max(goal, h.problem.Now)
	if h.stands.Makespan <= h.problem.Goal {
		return
	}
	for i, who := range h.build.People {
		for _, d := range saturdaysOf(h.build, base, who) {
			from := h.minute(d.At(0, 0)) + startOf(who)
			h.saturdays = append(h.saturdays, d)
			h.problem.Overtime = append(h.problem.Overtime, schedule.Overtime{Person: i, Price: int64(premium(who, 1)),
				Window: schedule.Window{From: from, To: from + schedule.Minute(who.Saturday)}})
		}
	}
}

// publish tells the search what the shop was told.
func (h *hunt) publish() {
	h.problem.Near = h.endOf(h.addDays(h.now.Date(), NearDays))
	h.problem.Published = make([]schedule.Slot, len(h.problem.Activities))
	for j, a := range h.problem.Activities {
		h.problem.Published[j].Start = schedule.Never
		if a.Kind == schedule.Labour && a.Work > 0 {
			h.problem.Published[j] = schedule.Slot{Start: h.stands.Times[j].Start, People: h.stands.Times[j].People}
		}
	}
}

// trial is a list as the shop's own rules would work it, with Saturdays bought.
type trial struct {
	order  []build.TaskID
	result schedule.Result
}

// try works a list through; bought are indices into Problem.Overtime.
func (h *hunt) try(ctx context.Context, order []build.TaskID, bought []int) (trial, error) {
	list := make([]int, 0, len(h.problem.Activities))
	for _, id := range order {
		list = append(list, h.tasks[id]...)
	}
	res, err := schedule.Solve(ctx, h.problem, schedule.Options{Order: list, Bought: bought, Bound: max(1, h.problem.Now)})
	return trial{order, res}, err
}

// compare ranks plans to the minute, to guide the search; less is better.
func (h *hunt) compare(a, b trial) int {
	return cmp.Or(h.days(a, b), cmp.Compare(a.result.Score.Late, b.result.Score.Late), cmp.Compare(a.result.Makespan, b.result.Makespan))
}

// days ranks plans by what a shop can tell apart: the engine's measures, with
// times in whole days.
func (h *hunt) days(a, b trial) int {
	x, y := a.result.Score, b.result.Score
	return cmp.Or(cmp.Compare(h.late(a), h.late(b)), cmp.Compare(x.Remedial, y.Remedial), cmp.Compare(x.Moved, y.Moved),
		cmp.Compare(x.Price, y.Price), cmp.Compare(h.day(a.result.Makespan), h.day(b.result.Makespan)))
}

// late is by how many days a plan misses the goal.
func (h *hunt) late(t trial) unit.Date {
	return max(0, h.day(t.result.Makespan)-h.day(h.problem.Goal))
}
