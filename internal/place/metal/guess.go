package metal

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// way is one way to put a finding right, with what it takes.
type way struct {
	Remedy build.PanelState
	Legs   []build.Leg
	Hours  figure.Figure
	Cost   figure.Figure
	Days   figure.Figure
}

// remedies are the ways to choose from.
func remedies() []build.PanelState {
	return []build.PanelState{build.Repair, build.Replace, build.Make}
}

// waysOf guesses what each remedy takes of each trade. part is the price of
// what would be bought; 0 is not known.
func waysOf(b *build.Build, r rates.Rates, task build.TaskID, s build.Size, part unit.Money) []way {
	var out []way
	for _, remedy := range remedies() {
		total, fig := r.Hours(remedy, s)
		w := way{Remedy: remedy, Legs: split(b, task, total), Hours: fig}
		price := unit.Money(0)
		if remedy == build.Replace {
			price = part
		}
		w.Cost, w.Days = costOf(b, w.Legs, price), daysOf(b, w.Legs)
		out = append(out, w)
	}
	return out
}

// halfHour is the step in which hours are shared out.
const halfHour = 30 * unit.Minute

// split shares hours out among the trades that usually do a task, in the
// proportion of the task's own hours, to the half hour; the first of them has
// what is over. Trades with less than an eighth are left out.
func split(b *build.Build, task build.TaskID, total unit.Effort) []build.Leg {
	t := b.Task(task)
	if t == nil || len(t.Legs) == 0 {
		return nil
	}
	usual := slices.Clone(t.Legs)
	slices.SortStableFunc(usual, func(a, b build.Leg) int { return cmp.Compare(b.Hours, a.Hours) })
	all := build.Total(usual)
	rest := total
	var out []build.Leg
	for i, l := range usual {
		share := unit.Effort(math.Round(float64(total)*float64(l.Hours)/float64(all)/float64(halfHour))) * halfHour
		if i > 0 && (l.Hours*8 < all || share == 0) {
			continue
		}
		out = append(out, build.Leg{Trade: l.Trade, Hours: share})
		rest -= share
	}
	out[0].Hours += rest
	return out
}

// handOf returns the person whose own trade it is, or one who can help.
func handOf(b *build.Build, trade build.TradeID) *build.Person {
	for i := range b.People {
		if p := &b.People[i]; len(p.Trades) > 0 && p.Trades[0] == trade {
			return p
		}
	}
	for i := range b.People {
		if b.People[i].Does(trade) {
			return &b.People[i]
		}
	}
	return nil
}

// costOf is what leaves the tin for a remedy: paid hours and a part.
func costOf(b *build.Build, legs []build.Leg, part unit.Money) figure.Figure {
	f := figure.Figure{Name: "cost", Formula: "hours × rate of each hand that is paid + the part"}
	sum := part
	var with []string
	for _, l := range legs {
		p := handOf(b, l.Trade)
		if p == nil {
			continue
		}
		note, cost := "rate of "+p.Name, p.Rate.PerHour(l.Hours)
		if p.GivenAll {
			note, cost = p.Name+" gives the hours", 0
		}
		sum += cost
		with = append(with, fmt.Sprintf("%s %s × %s", l.Trade, l.Hours, b.Currency.Format(paid(p))))
		f.Inputs = append(f.Inputs, figure.Input{Name: "an hour of " + string(l.Trade), Value: b.Currency.Format(paid(p)), Source: figure.Decided, Note: note})
	}
	if part > 0 {
		with = append(with, b.Currency.Format(part))
		f.Inputs = append(f.Inputs, figure.Input{Name: "part", Value: b.Currency.Format(part), Source: figure.Sheet})
	}
	f.Text = b.Currency.Format(sum)
	f.With = strings.Join(with, " + ") + " = " + f.Text
	return f
}

func paid(p *build.Person) unit.Money {
	if p.GivenAll {
		return 0
	}
	return p.Rate
}

// daysOf is how long the busiest hand is at it.
func daysOf(b *build.Build, legs []build.Leg) figure.Figure {
	f := figure.Figure{Name: "working days", Formula: "hours ÷ hours of that hand's working day, of the hand who needs longest"}
	most := 0.0
	for _, l := range legs {
		p := handOf(b, l.Trade)
		if p == nil {
			continue
		}
		day := dayOf(p)
		f.Inputs = append(f.Inputs, figure.Input{Name: "a day of " + string(l.Trade), Value: fmt.Sprintf("%.1f h", day), Source: figure.Decided, Note: p.Name})
		if d := l.Hours.H() / day; d > most {
			most = d
			f.With = fmt.Sprintf("%s %s ÷ %.1f h", l.Trade, l.Hours, day)
		}
	}
	f.Text = fmt.Sprintf("%.1f days", most)
	f.With += " = " + f.Text
	return f
}

// dayOf returns the hours of a person's mean working day.
func dayOf(p *build.Person) float64 {
	days := 0
	for _, h := range p.Week {
		if h > 0 {
			days++
		}
	}
	return p.PerWeek().H() / float64(max(days, 1))
}

// breakEven says in words when buying pays.
func breakEven(b *build.Build, ways []way, price unit.Money, lead int) string {
	repair, replace := ways[0], ways[1]
	hours, swap := build.Total(repair.Legs), build.Total(replace.Legs)
	hand := handOf(b, firstTrade(repair.Legs))
	if hand == nil || hand.Rate == 0 {
		return "No rate is known for this work, so buying and repairing cannot be weighed in money."
	}
	if price == 0 {
		worth := hand.Rate.PerHour(max(hours-swap, 0))
		if worth == 0 {
			return fmt.Sprintf("Repair in %s, or fit a bought part in %s: repairing is the cheaper whatever the part costs.", hours, swap)
		}
		return fmt.Sprintf("A bought part saves %s: it pays as long as it costs less than %s.", hours-swap, b.Currency.Format(worth))
	}
	at := swap + unit.Hours(float64(price)/float64(hand.Rate))
	text := fmt.Sprintf("Buying at %s pays once the repair takes more than %.1f h", b.Currency.Format(price), at.H())
	if lead > 0 {
		text += fmt.Sprintf(", and the part takes %d working days to come", lead)
	}
	return text + fmt.Sprintf("; the repair is guessed at %s.", hours)
}

func firstTrade(legs []build.Leg) build.TradeID {
	if len(legs) == 0 {
		return ""
	}
	return legs[0].Trade
}

// quoted finds a part on the list that would replace the panel: its own, or
// that of the other side, whose price and lead it shares.
func quoted(b *build.Build, p *build.Panel) (part *build.Part, own bool) {
	other := map[string]string{"L": "R", "R": "L"}[p.Side]
	for i := range b.Parts {
		name := strings.ToLower(b.Parts[i].Name)
		switch name {
		case strings.ToLower(p.Name), strings.ToLower(p.Name + " " + p.Side):
			return &b.Parts[i], true
		case strings.ToLower(p.Name + " pair"):
			return &b.Parts[i], true
		case strings.ToLower(p.Name + " " + other):
			part = &b.Parts[i]
		}
	}
	return part, false
}
