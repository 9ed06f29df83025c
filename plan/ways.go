package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/rates"
	"fettle/unit"
)

// Way is a way out: facts that could be made true to win the date back, and
// what they do.
type Way struct {
	Name    string         `json:"name"`
	Levers  []string       `json:"levers"` // keys of the levers pulled
	Changes []build.Change `json:"-"`
	Plain   unit.Date      `json:"plain"` // if nothing runs over
	Bound   unit.Date      `json:"bound"` // no plan with it ends before, whatever the order
	P50     unit.Date      `json:"p50"`
	P80     unit.Date      `json:"p80"`
	Ready   float64        `json:"ready"`
	StdErr  float64        `json:"std_error"`
	Gain    float64        `json:"gain"`  // in chance, over the plan as it stands
	Price   unit.Money     `json:"price"` // what the lever itself costs: premium or quoted price
	Cash    unit.Money     `json:"cash"`  // change of the cash total
}

// lever is one thing that may be done.
type lever struct {
	key, name string
	price     unit.Money
	changes   []build.Change
}

// WaysOut tries every lever that the facts offer, alone and in pairs, each
// re-planned under the same seed, and ranks them by the chance of the promised
// day, the cheaper first among equals.
func WaysOut(ctx context.Context, b *build.Build, r rates.Rates, base *Plan, o Options) ([]Way, error) {
	levers := leversOf(b, base)
	var ways []Way
	for i, a := range levers {
		way, err := try(ctx, b, r, base, o, a)
		if err != nil {
			return nil, err
		}
		ways = append(ways, way)
		for _, c := range levers[i+1:] {
			if way, err = try(ctx, b, r, base, o, a, c); err != nil {
				return nil, err
			}
			ways = append(ways, way)
		}
	}
	slices.SortStableFunc(ways, func(a, b Way) int {
		return cmp.Or(cmp.Compare(b.Ready, a.Ready), cmp.Compare(a.Price, b.Price))
	})
	return ways, nil
}

func try(ctx context.Context, b *build.Build, r rates.Rates, base *Plan, o Options, levers ...lever) (Way, error) {
	var w Way
	for i, l := range levers {
		if i > 0 {
			w.Name += " + "
		}
		w.Name += l.name
		w.Price += l.price
		w.Levers = append(w.Levers, l.key)
		w.Changes = append(w.Changes, l.changes...)
	}
	after, err := build.ApplyAll(*b, w.Changes)
	if err != nil {
		return w, err
	}
	p, err := Make(ctx, &after, r, o)
	if err != nil {
		return w, err
	}
	w.Plain, w.Bound = p.Dates.Plain, p.Bound
	w.P50, w.P80, w.Ready, w.StdErr = p.Dates.P50, p.Dates.P80, p.Odds.Ready, p.Odds.StdErr
	w.Gain, w.Cash = round4(w.Ready-base.Odds.Ready), p.Money.Cash-base.Money.Cash
	return w, nil
}

// leversOf reads the levers out of the facts: Saturdays of those who offer
// them, offers of outside shops, and hours that others can lend.
func leversOf(b *build.Build, p *Plan) []lever {
	var list []lever
	for _, who := range b.People {
		if l, ok := saturdays(b, p, who); ok {
			list = append(list, l)
		}
	}
	for i, s := range b.Offers {
		taken := slices.ContainsFunc(b.Sublets, func(o build.Sublet) bool { return o.Task == s.Task && o.What == s.What })
		if taken || b.Task(s.Task).State == build.Finished {
			continue
		}
		list = append(list, lever{key: fmt.Sprintf("sublet/%d", i+1), price: s.Price,
			name:    fmt.Sprintf("sublet %s of %s", build.Total(s.Legs), s.What),
			changes: []build.Change{&build.SubletWork{Sublet: s}}})
	}
	for _, who := range b.People {
		list = append(list, lends(b, p, who)...)
	}
	return list
}

// mostSaturdays is how many Saturdays in a row may be asked of a person.
const mostSaturdays = 6

// saturdays offers the Saturdays of a person that would help.
func saturdays(b *build.Build, p *Plan, who build.Person) (lever, bool) {
	days := saturdaysOf(b, p, who)
	if len(days) == 0 {
		return lever{}, false
	}
	return lever{key: "saturdays/" + string(who.ID), price: premium(who, len(days)),
		name:    fmt.Sprintf("%s of %s, %s", plural(len(days), "Saturday"), who.Saturday, who.Name),
		changes: []build.Change{&build.AddOvertime{Person: who.ID, Days: days, Hours: who.Saturday}}}, true
}

// saturdaysOf returns the Saturdays that fall into the longest stretch of a
// person's work that sets the date, unless they come on Saturdays already.
func saturdaysOf(b *build.Build, p *Plan, who build.Person) []unit.Date {
	given := func(o build.Overtime) bool {
		return o.Person == who.ID && o.Day >= p.Now.Date() && weekday(o.Day) == 5
	}
	if who.Saturday == 0 || who.Helps || slices.ContainsFunc(b.Overtime, given) {
		return nil
	}
	s := stretchOf(p, who.ID)
	var days []unit.Date
	for d := s.first; d <= s.last && len(days) < mostSaturdays && s.hours > 0; d++ {
		if weekday(d) == 5 && !closed(b, d) && !isAway(b, who.ID, d) {
			days = append(days, d)
		}
	}
	return days
}

// premium is what so many Saturdays of a person cost on top of the hours.
func premium(who build.Person, days int) unit.Money {
	if who.GivenAll {
		return 0
	}
	return who.Rate.PerHour(unit.Effort(days) * who.Saturday).Percent(int64(who.Premium) * 100)
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// stretch is a run of a person's days of work.
type stretch struct {
	first, last unit.Date
	hours       unit.Effort
}

// Work counts as setting the date when it does so in so many played builds;
// legs no further apart than a few days are one stretch.
const (
	oftenCritical = 0.3
	stretchGap    = 5
)

// stretchOf returns the stretch with the most hours that set the date.
func stretchOf(p *Plan, who build.PersonID) stretch {
	var legs []Leg
	for _, t := range p.Tasks {
		for _, l := range t.Legs {
			if l.Person == who && l.Left > 0 && l.Finish != 0 && t.Critical >= oftenCritical {
				legs = append(legs, l)
			}
		}
	}
	slices.SortStableFunc(legs, func(a, b Leg) int { return cmp.Compare(a.Start, b.Start) })
	var best, run stretch
	for _, l := range legs {
		if run.hours == 0 || l.Start.Date() > run.last+stretchGap {
			run = stretch{first: l.Start.Date()}
		}
		run.last, run.hours = max(run.last, l.Finish.Date()), run.hours+l.Left
		if run.hours > best.hours {
			best = run
		}
	}
	return best
}

// lends offers the hours that a person can lend to another trade they know:
// from the open tasks of that trade, the ones with findings first.
func lends(b *build.Build, p *Plan, who build.Person) []lever {
	var list []lever
	if who.Help == 0 || len(who.Trades) < 2 {
		return nil
	}
	for _, trade := range who.Trades[1:] {
		var moves []build.Move
		rest := who.Help
		for _, m := range b.Moves {
			if m.To == who.Trades[0] && m.From == trade {
				rest -= m.Hours
			}
		}
		for _, t := range p.Tasks {
			if task := b.Task(t.ID); task.State == build.Finished || !task.Findings {
				continue
			}
			for _, l := range t.Legs {
				// Half of a task's open hours at most: somebody must still know it whole.
				if h := min(rest, l.Left/2/unit.Hour*unit.Hour); l.Trade == trade && h > 0 {
					moves = append(moves, build.Move{Task: t.ID, From: trade, To: who.Trades[0], Hours: h})
					rest -= h
				}
			}
		}
		if len(moves) > 0 {
			list = append(list, lever{key: "lend/" + string(who.ID), name: fmt.Sprintf("%s takes %s of %s", who.Name, who.Help-rest, b.Trade(trade).Name),
				changes: []build.Change{&build.MoveWork{Moves: moves}}})
		}
	}
	return list
}
