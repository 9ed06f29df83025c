package plan

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// Help is something that might be otherwise, or two things together, and what
// the build planned again with it, by the same list and luck, comes to.
type Help struct {
	Name    string        `json:"name"`
	Pair    bool          `json:"pair"`    // two things together
	Offered bool          `json:"offered"` // the facts offer it: it is among the ways out
	Plain   unit.Date     `json:"plain"`   // finish then, if nothing runs over
	Won     int           `json:"won"`     // working days that the plan found is earlier
	Most    int           `json:"most"`    // working days that no plan with it can exceed
	Ready   float64       `json:"ready"`   // chance of the day then
	StdErr  float64       `json:"std_error"`
	Gain    float64       `json:"gain"`  // in chance, over the plan as it stands
	Price   unit.Money    `json:"price"` // of what is offered
	Figure  figure.Figure `json:"working"`
}

// mostPairs is how many helps of two things together are shown.
const mostPairs = 3

// helps asks the engine what would help, and names the waits on the way.
func (x *why) helps(ctx context.Context, o Options) error {
	out, err := schedule.Helps(ctx, x.problem, schedule.Options{Seed: o.Seed},
		schedule.HelpOptions{Runs: o.runs(), Seed: o.Seed, Workers: runtime.GOMAXPROCS(0), Pairs: true})
	if err != nil {
		return err
	}
	for _, h := range out.Telling() {
		x.Helps = append(x.Helps, x.help(out.Plan, h))
	}
	for _, l := range slices.Backward(out.Limits) {
		a := x.problem.Activities[l.Activity]
		if days := waitDays(a.Work); l.Link < 0 && days > 0 {
			x.Waits = append(x.Waits, Wait{build.TaskID(a.Group), days})
		}
	}
	return nil
}

func (x *why) help(stands schedule.Result, h schedule.Help) Help {
	var names []string
	for _, r := range h.Of {
		names = append(names, x.otherwise(r))
	}
	one := Help{Name: strings.Join(names, " + "), Pair: len(names) > 1, Plain: x.day(stands.Makespan - h.Sooner),
		Gain: round4(h.Chance), Ready: round4(x.Odds.Ready + h.Chance), StdErr: round4(h.StdErr)}
	x.won(&one, x.day(stands.Makespan-h.Most))
	for _, r := range h.Of {
		if r.Kind == schedule.LongerDays {
			one.Figure.Inputs = append(one.Figure.Inputs, hourOf(x.net, r.Person))
		}
	}
	return one
}

// hourOf is what an hour of a person beyond their week costs.
func hourOf(n *net, person int) figure.Input {
	who := n.build.People[person]
	in := figure.Input{Name: "an hour more of " + who.Name, Source: figure.Decided, Link: "people",
		Value: n.build.Currency.Format(who.Rate.PerHour(unit.Hour).Percent(int64(100+who.Premium) * 100)), Note: fmt.Sprintf("their rate and %d %% on top, as for a Saturday; nobody has asked them", who.Premium)}
	if who.GivenAll {
		in.Value, in.Note = n.build.Currency.Format(0), "all their hours are given; nobody has asked for more"
	}
	return in
}

// offers plans again with each way out that the facts offer.
func (x *why) offers(ctx context.Context, b *build.Build, r rates.Rates, o Options) error {
	for _, l := range leversOf(b, x.base) {
		way, err := try(ctx, b, r, x.base, o, l)
		if err != nil {
			return err
		}
		one := Help{Name: upper(way.Name), Offered: true, Plain: way.Plain, Ready: way.Ready, Gain: way.Gain, StdErr: round4(math.Hypot(way.StdErr, x.Odds.StdErr)), Price: way.Price}
		x.won(&one, way.Bound)
		x.Helps = append(x.Helps, one)
	}
	return nil
}

// won counts the days and writes their working; bound is the day before which
// no plan with the help ends.
func (x *why) won(h *Help, bound unit.Date) {
	h.Won = max(0, x.daysBetween(h.Plain, x.Plain))
	h.Most = max(h.Won, x.daysBetween(bound, x.Plain))
	stands, then := "no date", "no date"
	if x.Plain != 0 {
		stands = x.Plain.Short()
	}
	if h.Plain != 0 {
		then = h.Plain.Short()
	}
	f := figure.Figure{Name: "days won: " + h.Name, Text: inDays(h.Won),
		Formula: "working days by which the finish comes earlier when the build is planned again with it: same list, same rules, same luck",
		With:    fmt.Sprintf("%s as it stands, %s with it = %s", stands, then, inDays(h.Won)),
		Inputs: []figure.Input{
			{Name: "found", Value: inDays(h.Won), Source: figure.Worked, Note: "a plan that was made: so much at least"},
			{Name: "no more than", Value: inDays(h.Most), Source: figure.Worked, Note: fmt.Sprintf("no plan with it ends before %s, whatever the order", bound.Short())},
			{Name: "odds of " + x.By.Short(), Value: fmt.Sprintf("%.0f %% to %.0f %%", 100*x.Odds.Ready, 100*h.Ready), Source: figure.Worked, Note: fmt.Sprintf("%d builds each, seed %d, sampling error of the difference under %.1f points", x.Odds.Runs, x.Odds.Seed, 100*h.StdErr)}},
		Caution: "The list is not put into another order for it. What does nothing now may help after another change."}
	if h.Offered {
		f.Inputs = append(f.Inputs, figure.Input{Name: "price", Value: x.build.Currency.Format(h.Price), Source: figure.Decided, Note: "as offered; all it does stands in the ways out", Link: "wall/ways"})
	}
	h.Figure = f
}

// winsLeast is the gain in chance below which nothing is said to be won.
const winsLeast = 0.005

// rank puts most first, single things before pairs, and keeps few of those. What
// wins nothing, and cannot, is only counted.
func (x *why) rank() {
	all := len(x.Helps)
	x.Helps = slices.DeleteFunc(x.Helps, func(h Help) bool { return h.Most == 0 && h.Gain < winsLeast })
	x.Idle = all - len(x.Helps)
	slices.SortStableFunc(x.Helps, func(a, b Help) int {
		return cmp.Or(rankOf(a)-rankOf(b), cmp.Compare(b.Ready, a.Ready), cmp.Compare(b.Won, a.Won), cmp.Compare(a.Price, b.Price))
	})
	if i := slices.IndexFunc(x.Helps, func(h Help) bool { return h.Pair }); i >= 0 {
		x.Helps = x.Helps[:min(i+mostPairs, len(x.Helps))]
	}
}

func rankOf(h Help) int {
	if h.Pair {
		return 1
	}
	return 0
}

// otherwise says in the shop's words what might be otherwise.
func (x *why) otherwise(r schedule.Relaxation) string {
	switch r.Kind {
	case schedule.OneMoreLike:
		return "One more like " + x.build.People[r.Person].Name
	case schedule.LongerDays:
		return x.build.People[r.Person].Name + ": an hour longer every day"
	case schedule.MoreRoom:
		return "Room for one more: " + x.build.Bays[r.Place].Name
	case schedule.EarlierPart:
		return fmt.Sprintf("%s: free to begin %s sooner", x.taskLabel(r.Activity), x.apart(r.Activity, r.By))
	}
	return r.String()
}

// apart is by how many working days a release comes earlier.
func (x *why) apart(j int, by schedule.Minute) string {
	at := x.problem.Activities[j].Release
	return WorkingDays(x.daysBetween(x.moment(at-by).Date(), x.moment(at).Date()))
}
