package plan

import (
	"context"
	"runtime"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/rates"
	"fettle/stage/paint"
	"fettle/takeoff"
	"fettle/unit"
)

// Options steer Make.
type Options struct {
	Now  unit.Moment // the moment taken as now
	Runs int         // odds runs; 0 means 2,000
	Seed uint64
}

// Plan is everything worked out from the facts at one moment.
type Plan struct {
	Build   string         `json:"build"`
	Now     unit.Moment    `json:"now"`
	Promise build.Promise  `json:"promise"`
	Dates   Dates          `json:"dates"`
	Odds    Odds           `json:"odds"`
	Tasks   []Task         `json:"tasks"`
	People  []Person       `json:"people"`
	Stages  []StageHours   `json:"stages"`
	Orders  []Order        `json:"orders"`
	Today   []build.PartID `json:"order_today"` // IDs of Orders that are due, late ones first
	Loads   []Load         `json:"loads"`
	Money   Money          `json:"money"`
	Chain   []Step         `json:"why_this_date"`
	Movers  []Mover        `json:"movers"`
	// MayHappen is what may happen to a task yet, or not.
	MayHappen []MayHappen     `json:"may_happen"`
	Pace      []takeoff.Pace  `json:"pace"`
	Checks    []takeoff.Check `json:"checks"`
	Litres    []figure.Figure `json:"paint"`
	Tins      []takeoff.Tins  `json:"paint_to_buy"`
	Status    string          `json:"status"` // how good the plain plan is known to be
	Bound     unit.Date       `json:"bound"`  // nobody can be finished earlier with these people and days, whatever the order
}

// Make works out the plan. The fault of a build whose network cannot be
// planned names the task.
func Make(ctx context.Context, b *build.Build, r rates.Rates, o Options) (*Plan, error) {
	o.Runs = o.runs()
	lists := takeOffs(b, r)
	n := network(b, lists, r.Past, o.Now)
	result, err := schedule.Solve(ctx, n.problem, schedule.Options{Seed: o.Seed})
	if err != nil {
		return nil, err
	}
	odds, err := schedule.Odds(ctx, n.problem, result.Order, schedule.OddsOptions{
		Runs: o.Runs, Seed: o.Seed, Workers: runtime.GOMAXPROCS(0)})
	if err != nil {
		return nil, err
	}
	p := &Plan{Build: b.Name, Now: o.Now, Promise: b.Promise, Status: n.standing(result), Bound: n.bound(result)}
	p.Dates, p.Odds = datesOf(n, result, odds, o), oddsOf(n, odds, o)
	p.Tasks = tasksOf(n, result, odds)
	p.People = peopleOf(n, result)
	p.Stages = stageHours(lists)
	p.Orders, p.Today = ordersOf(n, p.Tasks, lists)
	if p.Loads, err = loadsOf(ctx, n, result, p.Tasks, lists); err != nil {
		return nil, err
	}
	p.Money = moneyOf(n, p)
	p.Chain = chainOf(n, result)
	p.Movers, p.MayHappen = moversOf(n, p.Tasks, odds), mayHappenOf(n, odds)
	for _, s := range stages() {
		if pace := takeoff.PaceOf(b, s.Name()); pace.Total > 0 {
			p.Pace = append(append(p.Pace, pace), takeoff.Paces(b, s.Name())...)
		}
	}
	for _, l := range lists {
		p.Checks = append(p.Checks, l.Checks...)
		p.Tins = append(p.Tins, l.Tins...)
	}
	p.Checks = append(p.Checks, n.usedUp()...)
	p.Checks = append(append(p.Checks, paint.ClosedChecks(b, o.Now)...), coldDays(b, p)...)
	p.Litres = litresOf(b, r)
	return p, nil
}

// runs is how many builds are played.
func (o Options) runs() int {
	if o.Runs <= 0 {
		return 2000
	}
	return o.Runs
}
