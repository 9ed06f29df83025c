package cli

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"fettle/engine/schedule"
	"fettle/engine/schedule/shopfile"
	"fettle/fault"
)

// shopSolved is what solve schedule prints of a file of the form fettle.
type shopSolved struct {
	File       string       `json:"file"`
	Status     string       `json:"status"`
	Makespan   int          `json:"makespan"`    // minutes from the origin; 0 without a date
	LowerBound int          `json:"lower_bound"` // minutes from the origin; 0 likewise
	Schedules  int          `json:"schedules"`
	Starts     []*int       `json:"starts"` // minute of each activity, in the order of the file
	DoneBy     string       `json:"done_by,omitempty"`
	Late       string       `json:"late,omitempty"`
	Plan       []shopWork   `json:"plan"`
	Missed     []shopMissed `json:"missed,omitempty"`
	Remedies   []string     `json:"remedies,omitempty"`
	Bought     []shopBought `json:"bought,omitempty"`
	Price      int64        `json:"price,omitempty"`
	Moved      []string     `json:"moved,omitempty"`
	Why        []shopStep   `json:"why"`
	Odds       *shopOdds    `json:"odds,omitempty"`
	*shopWhy

	bound string // LowerBound as a moment
}

type shopWork struct {
	ID      string   `json:"id"`
	Start   string   `json:"start,omitempty"`
	Finish  string   `json:"finish,omitempty"`
	Who     []string `json:"who,omitempty"`
	Skipped bool     `json:"skipped,omitempty"`
}

type shopMissed struct {
	After    string `json:"after"`
	Activity string `json:"activity"`
	By       string `json:"by"`
}

type shopBought struct {
	Person string `json:"person"`
	Window string `json:"window"`
	Price  int64  `json:"price"`
}

type shopStep struct {
	ID      string `json:"id"`
	Start   string `json:"start,omitempty"`
	Finish  string `json:"finish,omitempty"`
	Because string `json:"because"`
	Of      string `json:"of,omitempty"`
}

type shopOdds struct {
	Runs   int      `json:"runs"`
	Seed   uint64   `json:"seed"`
	P50    string   `json:"p50,omitempty"`
	P80    string   `json:"p80,omitempty"`
	P90    string   `json:"p90,omitempty"`
	Chance *float64 `json:"chance,omitempty"`
	StdErr *float64 `json:"std_error,omitempty"`
}

// shop solves a file of the form fettle.
func (c *solveScheduleCmd) shop(ctx context.Context, r io.Reader, name string) (shopSolved, error) {
	f, err := shopfile.Read(r)
	if err != nil {
		return shopSolved{}, err
	}
	res, err := schedule.Solve(ctx, f.Problem, schedule.Options{Seed: c.Seed, Schedules: c.Schedules, Workers: c.Workers})
	if err != nil {
		return shopSolved{}, err
	}
	if err := schedule.Check(f.Problem, res); err != nil {
		return shopSolved{}, fault.Wrap(fault.Internal, err, "the plan failed its own check")
	}
	one := inWords(f, res, name)
	if c.Runs > 0 {
		if one.Odds, err = c.odds(ctx, f, res); err != nil {
			return shopSolved{}, err
		}
	}
	if c.Why {
		if one.shopWhy, err = c.why(ctx, f, res); err != nil {
			return shopSolved{}, err
		}
	}
	return one, ctx.Err()
}

var shopStatus = [...]string{
	schedule.BestFound: "best found", schedule.ProvedBest: "proved best",
	schedule.Interrupted: "interrupted", schedule.OutOfHours: "out of hours",
}

// inWords writes a plan down with IDs and moments.
func inWords(f shopfile.File, res schedule.Result, name string) shopSolved {
	p := &f.Problem
	id := func(j int) string { return p.Activities[j].ID }
	one := shopSolved{
		File: name, Status: shopStatus[res.Status], Makespan: dated(res.Makespan), LowerBound: dated(res.LowerBound), Schedules: res.Stats.Schedules,
		bound: f.Moment(res.LowerBound), DoneBy: f.Moment(res.Makespan), Late: long(res.Lateness), Price: res.Price, Plan: []shopWork{}, Why: []shopStep{},
	}
	for j, t := range res.Times {
		one.Starts = append(one.Starts, startOf(t))
		work := shopWork{ID: id(j), Skipped: t.Skipped}
		if !t.Skipped {
			work.Start, work.Finish = f.Moment(t.Start), f.Moment(t.Finish)
			work.Who = handsOf(p, t)
		}
		one.Plan = append(one.Plan, work)
	}
	for _, o := range res.Overruns {
		l := p.Links[o.Link]
		one.Missed = append(one.Missed, shopMissed{After: id(l.From), Activity: id(l.To), By: long(o.By)})
	}
	for _, r := range res.Remedies {
		one.Remedies = append(one.Remedies, id(p.Remedies[r].Activity))
	}
	for _, b := range res.Bought {
		o := p.Overtime[b]
		one.Bought = append(one.Bought, shopBought{Person: p.People[o.Person].ID, Window: f.Moment(o.Window.From) + " to " + f.Moment(o.Window.To), Price: o.Price})
	}
	for _, j := range res.Moved {
		one.Moved = append(one.Moved, id(j))
	}
	for _, s := range slices.Backward(schedule.Chain(*p, res)) {
		because, of := reason(p, s.Binding)
		one.Why = append(one.Why, shopStep{ID: id(s.Activity), Start: f.Moment(s.Start), Finish: f.Moment(s.Finish), Because: because, Of: of})
	}
	return one
}

// dated is a finish in minutes, or 0 where the calendars end first.
func dated(m schedule.Minute) int {
	if m >= schedule.Never {
		return 0
	}
	return int(m)
}

// startOf is a start in minutes, or nothing for what is left out or has no date.
func startOf(t schedule.Timing) *int {
	if t.Skipped || t.Start >= schedule.Never {
		return nil
	}
	at := int(t.Start)
	return &at
}

func handsOf(p *schedule.Problem, t schedule.Timing) []string {
	var who []string
	for _, h := range t.People {
		who = append(who, p.People[h].ID)
	}
	return who
}

// long writes a span of the wall clock, or nothing for none.
func long(m schedule.Minute) string {
	if m == 0 {
		return ""
	}
	return (time.Duration(m) * time.Minute).String()
}

// reason says what set a start, and the activity, person or place behind it.
func reason(p *schedule.Problem, b schedule.Binding) (because, of string) {
	if b.Activity >= 0 {
		of = p.Activities[b.Activity].ID
	}
	switch b.Cause {
	case schedule.ByLink:
		return "it waits for", of
	case schedule.ByPerson:
		return p.People[b.Person].ID + " is busy with", of
	case schedule.ByPlace:
		return p.Places[b.Place].ID + " is taken by", of
	case schedule.ByCalendar:
		return "nobody is at work before that", of
	case schedule.ByRelease:
		return "it may not begin before that", of
	case schedule.ByHold:
		return "it is kept back", of
	case schedule.ByFact:
		return "it has begun", of
	case schedule.ByWindow:
		return "the window is missed after", of
	case schedule.ByRemedy:
		return "it waits for the remedy", of
	case schedule.ByAir:
		return "dust and clean work keep apart", of
	}
	return "nothing holds it", of
}

// odds plays the list of the plan, waiting for those whom the plan waits for.
func (c *solveScheduleCmd) odds(ctx context.Context, f shopfile.File, res schedule.Result) (*shopOdds, error) {
	out, err := schedule.Odds(ctx, f.Problem, res.Order, schedule.OddsOptions{Runs: c.Runs, Seed: c.Seed, Workers: c.Workers, Bought: res.Bought, Prefer: res.Prefer})
	if err != nil {
		return nil, err
	}
	odds := &shopOdds{
		Runs: c.Runs, Seed: c.Seed,
		P50: f.Moment(out.Quantile(0.5)), P80: f.Moment(out.Quantile(0.8)), P90: f.Moment(out.Quantile(0.9)),
	}
	if f.Problem.Goal > 0 {
		chance, stdErr := out.Chance(f.Problem.Goal)
		odds.Chance, odds.StdErr = &chance, &stdErr
	}
	return odds, nil
}

// print writes the plan for a person.
func (s shopSolved) print(w io.Writer) {
	fmt.Fprintf(w, "%s\t%s\tdone by %s\tnot before %s\n", s.File, s.Status, s.DoneBy, s.bound)
	if s.Late != "" {
		fmt.Fprintf(w, "\tlate by %s\n", s.Late)
	}
	for _, a := range s.Plan {
		if !a.Skipped {
			fmt.Fprintf(w, "\t%s\t%s\t%s\t%s\n", a.Start, a.Finish, a.ID, strings.Join(a.Who, ", "))
		}
	}
	for _, m := range s.Missed {
		fmt.Fprintf(w, "\tmissed\t%s comes %s too late after %s\n", m.Activity, m.By, m.After)
	}
	for _, b := range s.Bought {
		fmt.Fprintf(w, "\tbought\t%s, %s for %d\n", b.Person, b.Window, b.Price)
	}
	for _, id := range s.Moved {
		fmt.Fprintf(w, "\tmoved\t%s\n", id)
	}
	if s.Odds != nil {
		fmt.Fprintf(w, "\todds\t50 %% by %s, 80 %% by %s, 90 %% by %s\n", s.Odds.P50, s.Odds.P80, s.Odds.P90)
	}
	if s.shopWhy != nil {
		s.shopWhy.print(w, s.Why)
	}
}
