package plan

import (
	"context"
	"fmt"
	"sort"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// Room is how late a task can begin before the date moves.
type Room struct {
	Task   build.TaskID  `json:"task"`
	Start  unit.Date     `json:"start"`  // as the plan has it
	Latest unit.Date     `json:"latest"` // the last day that leaves the plain date where it is
	Days   int           `json:"days"`   // working days between the two
	Lead   int           `json:"lead_days"`
	Early  unit.Date     `json:"order_as_planned"`    // ordered by then, what takes Lead working days is there as planned
	Late   unit.Date     `json:"order_at_the_latest"` // and here before the date moves
	Figure figure.Figure `json:"working"`
}

// RoomOf returns how late a task can begin before the plain date moves to
// another day, and by when what it needs is ordered that takes lead working
// days to come. The plan is made anew for each try, in the same order of work.
func RoomOf(ctx context.Context, b *build.Build, r rates.Rates, o Options, id build.TaskID, lead int) (Room, error) {
	room := Room{Task: id, Lead: lead}
	t := b.Task(id)
	if t == nil || t.State == build.Finished {
		return room, nil
	}
	lists := takeOffs(b, r)
	n := network(b, lists, r.Past, o.Now)
	res, err := schedule.Solve(ctx, n.problem, schedule.Options{Seed: o.Seed})
	if err != nil {
		return room, err
	}
	for _, one := range tasksOf(n, res, schedule.Outlook{}) {
		if one.ID == id {
			room.Start = one.Start.Date()
		}
	}
	date := n.day(res.Makespan)
	var failed error
	room.Days = sort.Search(mostFloat, func(days int) bool {
		later := b.Clone()
		later.Task(id).NoEarly = n.addDays(room.Start, days+1)
		held := network(&later, lists, r.Past, o.Now)
		moved, err := schedule.Solve(ctx, held.problem, schedule.Options{Order: res.Order, Bound: res.LowerBound})
		if err != nil {
			failed = err
			return true
		}
		return held.day(moved.Makespan) != date
	})
	room.Latest = n.addDays(room.Start, room.Days)
	room.Early, room.Late = n.addDays(room.Start, -lead), n.addDays(room.Latest, -lead)
	room.Figure = figure.Figure{Name: "last day to begin " + t.Name, Text: room.Latest.Short(),
		Formula: "the last day on which it may begin before the plain date moves, the plan made anew for each day tried",
		With:    fmt.Sprintf("planned %s + %s = %s; the plain date stays %s", room.Start.Short(), inDays(room.Days), room.Latest.Short(), date.Short()),
		Caution: "The plain date has no luck in it: the odds fall before it moves."}
	return room, failed
}
