package plan

import (
	"context"
	"fmt"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/unit"
)

// BetterOrder is what a search for a better order of the shop's list came to:
// a proposal, or how good the list is known to be as it stands.
type BetterOrder struct {
	Found     bool             `json:"found"`
	Says      string           `json:"says"`   // the finding in one line
	Status    string           `json:"status"` // how good the list as it stands is known to be
	Bound     unit.Date        `json:"bound"`  // nobody can be finished earlier, whatever the order
	Schedules int              `json:"schedules"`
	Seed      uint64           `json:"seed"`
	Before    Prospect         `json:"before"`
	After     Prospect         `json:"after"`  // as Before, where nothing was found
	Won       int              `json:"won"`    // working days on the plain date
	Price     unit.Money       `json:"price"`  // premium of the Saturdays it asks for
	Cash      unit.Money       `json:"cash"`   // change of the cash total
	Near      int              `json:"near"`   // starts of the next days that move to another day or to other people
	Listed    []build.ListMove `json:"listed"` // tasks that change their place in the list
	Saturdays int              `json:"saturdays"`
	Shifts    []Shift          `json:"shifts"` // tasks whose days move
	Changes   []build.Change   `json:"-"`
}

// Prospect is a plan's dates and its odds.
type Prospect struct {
	Plain  unit.Date `json:"plain"`
	P50    unit.Date `json:"p50"`
	P80    unit.Date `json:"p80"`
	Ready  float64   `json:"ready"`
	StdErr float64   `json:"std_error"`
	Word   string    `json:"word"`
}

// Shift is a task whose days move.
type Shift struct {
	Task   build.TaskID `json:"task"`
	Name   string       `json:"name"`
	Before Days         `json:"before"`
	After  Days         `json:"after"`
	Start  int          `json:"start_days"`  // working days later; earlier is negative
	Finish int          `json:"finish_days"` // the same of its end
	Why    string       `json:"why"`         // what sets its start then
}

// Days are the first and the last day of a task.
type Days struct {
	First unit.Date `json:"first"`
	Last  unit.Date `json:"last"`
}

// BetterSchedules is the budget of Better, in generated schedules, that a page
// spends without being asked.
const BetterSchedules = 1000

// Better looks for an order of the shop's list by which the build would be
// finished earlier: a search of so many schedules (0 is BetterSchedules), its
// finding put back into an order of tasks, and the plan made anew with it by
// the shop's own rules. What is proposed is better by the plain plan and no
// worse by the odds; everything else is not proposed. The starts of the next
// five working days count as told to the shop and are moved only to be less
// late. Where four in five builds are later than the promised day, Saturdays
// that people offer may be bought. Base is the plan as it stands, made with
// the same options.
func Better(ctx context.Context, b *build.Build, r rates.Rates, base *Plan, o Options, schedules int) (*BetterOrder, error) {
	if schedules <= 0 {
		schedules = BetterSchedules
	}
	res := &BetterOrder{Schedules: schedules, Seed: o.Seed, Before: prospectOf(base), After: prospectOf(base)}
	h, err := newHunt(ctx, b, r, base, o)
	if err != nil {
		return nil, err
	}
	res.Bound, res.Status = h.bound(h.stands), h.standing(h.stands)
	if h.stands.Status == schedule.OutOfHours || len(h.tasks) == 0 {
		res.Says = "There is no order to better: the build " + res.Status
		if len(h.tasks) == 0 {
			res.Says = "There is no order to better: nothing is left to do"
		}
		return res, nil
	}
	found, err := h.search(ctx, schedules)
	if err != nil {
		return nil, err
	}
	res.Bound, res.Status = h.bound(h.stands), h.standing(h.stands)
	best, err := h.pick(ctx, found, r, base, o)
	if err != nil {
		return nil, err
	}
	if best != nil {
		h.propose(res, best, base)
		return res, nil
	}
	res.Says = fmt.Sprintf("The list as it stands is the best found: %s", res.Status)
	if h.stands.Status == schedule.ProvedBest {
		res.Says = "No other order finishes earlier: the list as it stands is proved best"
	}
	return res, nil
}

func prospectOf(p *Plan) Prospect {
	return Prospect{Plain: p.Dates.Plain, P50: p.Dates.P50, P80: p.Dates.P80, Ready: p.Odds.Ready, StdErr: p.Odds.StdErr, Word: p.Odds.Word}
}
