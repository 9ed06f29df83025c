package plan

import (
	"context"
	"fmt"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/fault"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// Verdict says whether a day can be kept, and how that is known.
type Verdict string

// The verdicts. What is not ruled out is not promised.
const (
	DayMet     Verdict = "met"           // the list as it stands keeps it, if nothing runs over
	DayOther   Verdict = "another order" // a search found a plan that keeps it
	DayRuled   Verdict = "ruled out"     // no plan keeps it
	DayUnknown Verdict = "not known"     // no plan is known that keeps it, and nothing rules it out
	DayPast    Verdict = "past"          // it is over, and work is left
	DayOver    Verdict = "over"          // no work is left
)

// WhyNot answers why a build is not finished by a day, and what would help.
type WhyNot struct {
	By        unit.Date     `json:"by"`
	Verdict   Verdict       `json:"verdict"`
	Says      string        `json:"says"`
	Plain     unit.Date     `json:"plain"` // finish as the list stands, if nothing runs over; 0 where it finds no date
	Bound     unit.Date     `json:"bound"` // no plan ends before it
	Best      unit.Date     `json:"best"`  // earliest finish that is known, by a search of other orders
	Schedules int           `json:"schedules"`
	Days      int           `json:"days"`   // working days to spare; negative is short
	Margin    figure.Figure `json:"margin"` // of Days
	Odds      Odds          `json:"odds"`   // of By
	Clash     []ClashLine   `json:"clash,omitempty"`
	Facts     int           `json:"facts"`  // in the clash, before they were put together
	Least     bool          `json:"least"`  // no smaller set is known to clash
	Trials    int           `json:"trials"` // sets of facts looked at
	Helps     []Help        `json:"helps"`
	Idle      int           `json:"idle"`  // things that were tried too and win nothing, nor can
	Waits     []Wait        `json:"waits"` // that set the date as the list stands
}

// Wait is a wait on the chain that sets the date. Nothing tells a cure from a
// transport, so it is never offered to be cut short.
type Wait struct {
	Task build.TaskID `json:"task"`
	Days int          `json:"days"` // working days
}

// WhyWithin is how many days off a day may be to be asked about: two years.
const WhyWithin = 730

// Why answers why a build is not finished by a day: whether the list as it
// stands, a search of BetterSchedules plans, or nothing at all keeps it; the
// facts that cannot all hold, put together into a few lines; and what would
// help, each planned again with the same list and luck. Base is the plan as it
// stands, made with the same options. A day more than two years off is a fault
// of kind Invalid.
func Why(ctx context.Context, b *build.Build, r rates.Rates, base *Plan, o Options, by unit.Date) (*WhyNot, error) {
	if d := by - o.Now.Date(); d < -WhyWithin || d > WhyWithin {
		return nil, fault.New(fault.Invalid, "%s is too far off", by.Long()).At("by").WithHint("Ask about a day within two years.")
	}
	asked := *b
	if by != asked.Promise.Ready {
		asked.Promise.Ready = by
		var err error
		if base, err = Make(ctx, &asked, r, o); err != nil {
			return nil, err
		}
	}
	x := &why{net: network(&asked, takeOffs(&asked, r), r.Past, o.Now), base: base, seed: o.Seed,
		WhyNot: WhyNot{By: by, Plain: base.Dates.Plain, Bound: base.Bound, Best: base.Dates.Plain, Odds: base.Odds, Helps: []Help{}, Waits: []Wait{}}}
	if _, over := x.over(); over {
		x.Verdict = DayOver
		x.says()
		return &x.WhyNot, nil
	}
	if err := x.judge(ctx); err != nil {
		return nil, err
	}
	if err := x.helps(ctx, o); err != nil {
		return nil, err
	}
	if err := x.offers(ctx, &asked, r, o); err != nil {
		return nil, err
	}
	x.rank()
	return &x.WhyNot, nil
}

// why works an answer out.
type why struct {
	*net
	WhyNot
	base *Plan
	seed uint64
}

// judge finds the verdict, and the clash where the day is ruled out.
func (x *why) judge(ctx context.Context) error {
	x.margin()
	switch {
	case x.Plain != 0 && x.Plain <= x.By:
		x.Verdict = DayMet
	case x.By < x.now.Date():
		x.Verdict = DayPast
	default:
		if err := x.clash(ctx); err != nil {
			return err
		}
	}
	x.says()
	return nil
}

// clash looks for facts that rule the day out; where there are none, for a plan
// that keeps it.
func (x *why) clash(ctx context.Context) error {
	found, err := schedule.Conflict(ctx, x.problem, schedule.ConflictOptions{})
	if err != nil {
		return err
	}
	x.Trials = found.Calls
	if found.Found {
		x.Verdict, x.Facts, x.Least = DayRuled, len(found.Facts), found.Least
		x.Clash, err = x.lines(ctx, found.Facts)
		return err
	}
	x.Schedules = BetterSchedules
	res, err := schedule.Solve(ctx, x.problem, schedule.Options{Seed: x.seed, Schedules: BetterSchedules})
	if err != nil {
		return err
	}
	if x.Verdict = DayUnknown; res.Lateness == 0 && res.Makespan < schedule.Never {
		x.Verdict = DayOther
	}
	if d := x.day(res.Makespan); x.Best == 0 || d != 0 && d < x.Best {
		x.Best = d
	}
	return nil
}

// margin counts the working days between the plain finish and the day.
func (x *why) margin() {
	if x.Plain == 0 {
		return
	}
	x.Days = x.daysBetween(x.Plain, x.By) - x.daysBetween(x.By, x.Plain)
	x.Margin = figure.Figure{Name: "days to spare", Text: inDays(x.Days), Formula: "working days of the shop after the finish, up to and with the day asked about",
		With: fmt.Sprintf("after %s up to %s = %s", x.Plain.Short(), x.By.Short(), inDays(x.Days)),
		Inputs: []figure.Input{
			{Name: "finish", Value: x.Plain.Short(), Source: figure.Worked, Note: "as the list stands, if nothing runs over", Link: "wall"},
			{Name: "day", Value: x.By.Short(), Source: figure.Decided, Note: "the day asked about"}},
		Caution: "Work runs over: how likely the day is stands in the odds."}
	if x.Days < 0 {
		x.Margin.Name, x.Margin.Text = "days short", inDays(-x.Days)
		x.Margin.Formula = "working days of the shop after the day asked about, up to and with the finish"
		x.Margin.With = fmt.Sprintf("after %s up to %s = %s", x.By.Short(), x.Plain.Short(), inDays(-x.Days))
	}
}

// says puts the verdict into a sentence.
func (x *why) says() {
	ends := fmt.Sprintf("as the list stands everything is finished on %s, %s later, if nothing runs over", x.Plain.Long(), WorkingDays(-x.Days))
	if x.Plain == 0 {
		ends = "as the list stands some work finds no date at all"
	}
	switch x.Verdict {
	case DayOver:
		x.Says = fmt.Sprintf("Nothing is left to do: the last task was finished on %s.", x.Plain.Long())
	case DayMet:
		if x.Plain == x.By {
			x.Says = "It can be met, with no day to spare: if nothing runs over, everything is finished on the day itself."
			return
		}
		x.Says = fmt.Sprintf("It can be met: if nothing runs over, everything is finished on %s, with %s to spare.", x.Plain.Long(), WorkingDays(x.Days))
	case DayPast:
		x.Says = fmt.Sprintf("%s is past, and work is left: %s.", x.By.Long(), ends)
	case DayRuled:
		x.Says = fmt.Sprintf("It cannot be met: with these people, hours and waits no plan ends before %s; %s.", max(x.Bound, x.By+1).Long(), ends)
		if x.Bound == 0 {
			x.Says = fmt.Sprintf("It cannot be met: %s.", ends)
		}
	case DayOther:
		x.Says = fmt.Sprintf("It can be met in another order: a search of %d plans found one that is finished on %s; %s.", x.Schedules, x.Best.Long(), ends)
	case DayUnknown:
		x.Says = fmt.Sprintf("No plan is known that keeps it, and nothing rules it out: %s. The best that a search of %d plans found ends on %s; none can end before %s.",
			ends, x.Schedules, x.Best.Long(), x.Bound.Long())
	}
}
