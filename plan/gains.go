package plan

import (
	"context"
	"fmt"
	"math"
	"runtime"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// Gain is what an open task would win back if it went well.
type Gain struct {
	Task         build.TaskID  `json:"task"`
	Name         string        `json:"name"`
	Critical     float64       `json:"critical"`     // part of the played builds in which it set the date, 0 to 1
	Significance float64       `json:"significance"` // that × its own deviation, in working time, ÷ that of the finish by the clock: it ranks tasks
	Cruciality   float64       `json:"cruciality"`   // rank correlation of its own length with the finish
	Before       unit.Date     `json:"p80"`
	After        unit.Date     `json:"p80_if_well"`
	Won          int           `json:"won_days"` // working days between them
	Figure       figure.Figure `json:"working"`
}

// mostGains is how many tasks are played again as going well.
const mostGains = 3

// Gains plays the build as Make does and says which open tasks move the date
// most, by significance: criticality alone also names work that is certain,
// where nothing can be won. Each is played again, under the same luck, as going
// as well as one time in ten; all else, and what work shares, stays as drawn.
func Gains(ctx context.Context, b *build.Build, r rates.Rates, o Options) ([]Gain, error) {
	n := network(b, takeOffs(b, r), r.Past, o.Now)
	if _, over := n.over(); over {
		return nil, nil
	}
	workers := runtime.GOMAXPROCS(0)
	odds, err := schedule.Odds(ctx, n.problem, nil, schedule.OddsOptions{Runs: o.runs(), Seed: o.Seed, Workers: workers})
	if err != nil {
		return nil, err
	}
	indices, err := schedule.Indices(ctx, n.problem, nil, schedule.IndexOptions{Runs: o.runs(), Seed: o.Seed, Workers: workers, Top: mostGains})
	if err != nil {
		return nil, err
	}
	var list []Gain
	for _, x := range indices[:min(mostGains, len(indices))] {
		if x.Significance > 0 {
			list = append(list, n.gain(x, odds, o))
		}
	}
	return list, nil
}

func (n *net) gain(x schedule.Index, odds schedule.Outlook, o Options) Gain {
	t, at := n.build.Task(build.TaskID(x.Group)), odds.Quantile(0.8)
	g := Gain{Task: t.ID, Name: t.Name, Critical: round4(x.Critical), Significance: round4(x.Significance), Cruciality: round4(x.Cruciality),
		Before: n.day(at), After: n.day(at - x.Won)}
	g.Won = n.daysBetween(g.After, g.Before)
	worked := func(name, value, note string) figure.Input {
		return figure.Input{Name: name, Value: value, Source: figure.Worked, Note: note}
	}
	g.Figure = figure.Figure{
		Name: fmt.Sprintf("won back if %s %s goes well", t.ID, t.Name), Text: inDays(g.Won),
		Formula: "the 80 % day of the played builds less that of the same builds with this task as good as one time in ten",
		With: fmt.Sprintf("%s less %s = %s; %d builds twice, seed %d, sampling error under %s of the calendar",
			g.Before.Short(), g.After.Short(), inDays(g.Won), o.runs(), o.Seed, inDays(int(x.WonErr/1440)+1)),
		Inputs: []figure.Input{
			worked("sets the date", fmt.Sprintf("in %.0f of 100 builds ± %.0f", 100*x.Critical, math.Ceil(100*x.CriticalErr)), "criticality; work that is certain may set it too, with nothing to win"),
			worked("its own length varies by", unit.Effort(x.Deviation).String(), "standard deviation of its hours, reserve and waits, those of its trades together"),
			worked("significance", fmt.Sprintf("%.2f", x.Significance), "criticality × its deviation ÷ that of the finish; it ranks tasks only, for work counts in working hours and the finish by the clock"),
			worked("goes with the finish", fmt.Sprintf("%.2f", x.Cruciality), "cruciality: rank correlation of its length with the finish, from −1 to 1"),
		},
		Caution: "Only this task's own luck is taken as good; what all work of its kind shares stays as it was drawn. Two tasks won back do not add up.",
	}
	return g
}

// inDays counts working days in words.
func inDays(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
