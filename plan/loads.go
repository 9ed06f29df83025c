package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sort"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Load is work at an outside shop with its dates and its float.
type Load struct {
	ID     build.OutworkID `json:"id"`
	What   string          `json:"what"`
	Pieces int             `json:"pieces"`
	State  build.AwayState `json:"state"`
	Out    unit.Date       `json:"out,omitzero"`
	Back   unit.Date       `json:"back,omitzero"`
	NeedBy unit.Date       `json:"need_by,omitzero"` // the last day back before the date moves
	Days   int             `json:"days"`
	Float  int             `json:"float_days"` // working days it may come later before the date moves
	Cost   unit.Money      `json:"cost"`
	Short  string          `json:"short,omitempty"`
	Figure figure.Figure   `json:"working"`
}

func loadsOf(ctx context.Context, n *net, res schedule.Result, tasks []Task, lists []takeoff.List) ([]Load, error) {
	var loads []Load
	for _, list := range lists {
		for _, l := range list.Loads {
			row, err := n.load(ctx, l, res, tasks)
			if err != nil {
				return nil, err
			}
			loads = append(loads, row)
		}
	}
	slices.SortFunc(loads, func(a, b Load) int { return cmp.Compare(a.ID, b.ID) })
	return loads, nil
}

func (n *net) load(ctx context.Context, l takeoff.Load, res schedule.Result, tasks []Task) (Load, error) {
	o := n.build.Load(l.Load)
	t := tasks[slices.IndexFunc(tasks, func(t Task) bool { return t.ID == l.Task })]
	row := Load{ID: o.ID, What: o.What, Pieces: o.Pieces, State: o.State, Out: o.Sent, Back: o.Returned,
		Days: l.Days, Cost: o.Cost, Short: o.Short, Figure: l.Figure}
	if row.Out == 0 {
		row.Out = t.Worked.Date()
		if len(t.Legs) == 0 {
			row.Out = t.Start.Date()
		}
	}
	if row.Back != 0 {
		return row, nil
	}
	row.Back = t.Finish.Date()
	end, open := n.ends[t.ID]
	if !open || row.Back == 0 {
		return row, nil
	}
	float, err := n.float(ctx, end, res)
	if err != nil {
		return row, err
	}
	row.Float, row.NeedBy = float, n.addDays(row.Back, float)
	row.Figure.Inputs = append(slices.Clip(row.Figure.Inputs), figure.Input{Name: "room", Value: fmt.Sprintf("%d working days", float),
		Source: figure.Worked, Note: "how much later it may be back before the plain date moves, planned anew each time"})
	return row, nil
}

// mostFloat is the most room, in working days, that is looked for.
const mostFloat = 128

// float returns by how many working days a wait may last longer before the
// plain date moves to another day. The plan is made anew for each try.
func (n *net) float(ctx context.Context, activity int, res schedule.Result) (int, error) {
	date := n.day(res.Makespan)
	p := n.problem
	p.Activities = slices.Clone(p.Activities)
	own := p.Activities[activity]
	own.Kind, own.Calendar = schedule.Passive, n.shopDays
	var failed error
	late := sort.Search(mostFloat, func(days int) bool {
		p.Activities[activity] = own
		p.Activities[activity].Work += schedule.Minute((days + 1) * dayLong)
		later, err := schedule.Solve(ctx, p, schedule.Options{Order: res.Order, Bound: res.LowerBound})
		if err != nil {
			failed = err
			return true
		}
		return n.day(later.Makespan) != date
	})
	return late, failed
}
