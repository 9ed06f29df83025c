package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

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
