package plan

import (
	"context"
	"runtime"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

// Forecast is what the played builds say of the day on which something is
// finished.
type Forecast struct {
	Task build.TaskID `json:"task,omitempty"` // empty for the whole build
	P50  unit.Date    `json:"p50"`
	P80  unit.Date    `json:"p80"`
	P90  unit.Date    `json:"p90"`
}

// Outlook is the forecast of the whole build and of every open task.
type Outlook struct {
	Whole Forecast
	Said  [3]float64 // chances of being finished by the ends of its P50, P80 and P90: at least as much, for days are whole
	Ready float64    // chance of being ready on the promised day, 0 to 1
	Tasks []Forecast
}

// Forecasts plays the build as Make does, with the same luck, and returns the
// days only, those of every open task among them. A build without open tasks
// has no outlook: ok is false.
func Forecasts(ctx context.Context, b *build.Build, r rates.Rates, o Options) (out Outlook, ok bool, err error) {
	n := network(b, takeOffs(b, r), r.Past, o.Now)
	if _, over := n.over(); over {
		return Outlook{}, false, nil
	}
	ends := n.watch()
	odds, err := schedule.Odds(ctx, n.problem, nil, schedule.OddsOptions{
		Runs: o.runs(), Seed: o.Seed, Workers: runtime.GOMAXPROCS(0), Starts: true})
	if err != nil {
		return Outlook{}, false, err
	}
	out.Whole = Forecast{P50: n.day(odds.Quantile(0.5)), P80: n.day(odds.Quantile(0.8)), P90: n.day(odds.Quantile(0.9))}
	for i, d := range []unit.Date{out.Whole.P50, out.Whole.P80, out.Whole.P90} {
		out.Said[i], _ = odds.Chance(n.endOf(d))
	}
	out.Ready, _ = odds.Chance(n.problem.Goal)
	for _, t := range b.Tasks {
		if i, open := ends[t.ID]; open {
			out.Tasks = append(out.Tasks, Forecast{t.ID, n.day(odds.Start(i, 0.5)), n.day(odds.Start(i, 0.8)), n.day(odds.Start(i, 0.9))})
		}
	}
	return out, true, nil
}

// watch adds a milestone behind the wait of every open task, whose start is
// the task's finish, and returns where it stands. Nothing waits for it.
func (n *net) watch() map[build.TaskID]int {
	seen := map[build.TaskID]int{}
	for _, t := range n.build.Tasks {
		end, open := n.ends[t.ID]
		if !open {
			continue
		}
		seen[t.ID] = n.add(schedule.Activity{ID: string(t.ID) + "/over", Group: string(t.ID), Kind: schedule.Milestone})
		n.link(end, seen[t.ID])
	}
	return seen
}
