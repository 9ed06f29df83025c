package plan

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// paid sums the payments for a purpose and reference; an empty ref is any.
func paid(b *build.Build, purpose, ref string) (sum unit.Money, receipts []figure.Input) {
	for _, p := range b.Spent {
		if p.For != purpose || ref != "" && p.Ref != ref {
			continue
		}
		sum += p.Amount
		receipts = append(receipts, figure.Input{Name: p.Day.Short() + " " + p.What, Value: b.Currency.Format(p.Amount),
			Source: figure.Measured, Note: "paid", Link: "payment/" + p.ID})
	}
	return sum, receipts
}

func hoursLine(b *build.Build, p *Plan) Line {
	l := Line{Name: "paid hours", Link: "wall"}
	l.Figure = figure.Figure{Name: "paid hours", Formula: "for each person: (hours booked + hours left − hours given) × rate + overtime premium"}
	for _, who := range p.People {
		if who.Cost == 0 {
			continue
		}
		l.Amount += who.Cost
		given := min(who.Given, who.Booked)
		rate := b.Person(who.ID).Rate
		l.Spent += rate.PerHour(who.Booked - given)
		l.Figure.Inputs = append(l.Figure.Inputs, figure.Input{Name: who.Name, Value: b.Currency.Format(who.Cost),
			Source: figure.Worked, Note: who.Paid.String() + " paid", Link: "person/" + string(who.ID)})
	}
	l.Figure.Text = b.Currency.Format(l.Amount)
	l.Figure.With = l.Figure.Text
	return l
}

func partsLine(b *build.Build) Line {
	l := Line{Name: "parts bought", Link: "stores"}
	var inputs []figure.Input
	for _, p := range b.Parts {
		amount, receipts := paid(b, "parts", string(p.ID))
		if p.Donated && len(receipts) == 0 {
			continue
		}
		if len(receipts) == 0 {
			l.Amount += p.Cost()
			inputs = append(inputs, figure.Input{Name: string(p.ID) + " " + p.Name, Value: b.Currency.Format(p.Cost()), Source: figure.Sheet, Note: "quoted", Link: "part/" + string(p.ID)})
			continue
		}
		l.Amount, l.Spent = l.Amount+amount, l.Spent+amount
		inputs = append(inputs, receipts...)
	}
	l.Figure = figure.Figure{Name: l.Name, Text: b.Currency.Format(l.Amount), Formula: "what was paid for a part, else quantity × quoted price",
		With: b.Currency.Format(l.Spent) + " paid + " + b.Currency.Format(l.Amount-l.Spent) + " quoted", Inputs: inputs}
	return l
}

func outworkLine(b *build.Build) Line {
	l := Line{Name: "outwork", Link: "away"}
	var inputs []figure.Input
	count := func(id, name string, cost unit.Money) {
		amount, receipts := paid(b, "outwork", id)
		if len(receipts) == 0 {
			l.Amount += cost
			inputs = append(inputs, figure.Input{Name: name, Value: b.Currency.Format(cost), Source: figure.Sheet, Note: "quoted", Link: "load/" + id})
			return
		}
		l.Amount, l.Spent = l.Amount+amount, l.Spent+amount
		inputs = append(inputs, receipts...)
	}
	for _, o := range b.Outwork {
		count(string(o.ID), string(o.ID)+" "+o.What, o.Cost)
	}
	for _, s := range b.Sublets {
		l.Amount += s.Price
		inputs = append(inputs, figure.Input{Name: "sublet: " + s.What, Value: b.Currency.Format(s.Price), Source: figure.Sheet, Link: "task/" + string(s.Task)})
	}
	l.Figure = figure.Figure{Name: l.Name, Text: b.Currency.Format(l.Amount), Formula: "what was paid for a load, else its quote, and what is sublet",
		With: b.Currency.Format(l.Spent) + " paid + " + b.Currency.Format(l.Amount-l.Spent) + " quoted", Inputs: inputs}
	return l
}

func costLine(b *build.Build, c build.CostLine) Line {
	amount, receipts := paid(b, "line", c.ID)
	l := Line{Name: c.Name, Amount: max(c.Amount, amount), Spent: amount, Link: "tin"}
	l.Figure = figure.Figure{Name: c.Name, Text: b.Currency.Format(l.Amount), Formula: "the larger of what was planned and what was paid",
		With:   fmt.Sprintf("%s planned, %s paid", b.Currency.Format(c.Amount), b.Currency.Format(amount)),
		Inputs: append([]figure.Input{{Name: "planned", Value: b.Currency.Format(c.Amount), Source: figure.Decided}}, receipts...)}
	return l
}

func otherLine(b *build.Build) Line {
	amount, receipts := paid(b, "other", "")
	return Line{Name: "other payments", Amount: amount, Spent: amount, Link: "tin",
		Figure: figure.Figure{Name: "other payments", Text: b.Currency.Format(amount), Formula: "payments that no line foresaw", With: b.Currency.Format(amount), Inputs: receipts}}
}

func giftLine(b *build.Build, g build.Gift) Line {
	word := "promised"
	if g.Received {
		word = "received"
	}
	return Line{Name: g.From, Amount: g.Amount, Link: "tin",
		Figure: figure.Figure{Name: "gift", Text: b.Currency.Format(g.Amount), Formula: "as " + word, With: g.Day.Short() + " " + b.Currency.Format(g.Amount),
			Inputs: []figure.Input{{Name: g.From, Value: b.Currency.Format(g.Amount), Source: figure.Measured, Note: word}}}}
}

// inKind lists what is given and is not money.
func inKind(b *build.Build, p *Plan) []Line {
	var lines []Line
	note := func(name string, value unit.Money, formula, with, link string) {
		if value > 0 {
			lines = append(lines, Line{Name: name, Amount: value, Link: link, Figure: figure.Figure{Name: name, Text: b.Currency.Format(value),
				Formula: formula, With: with, Inputs: []figure.Input{{Name: name, Value: b.Currency.Format(value), Source: figure.Decided, Link: link}}}})
		}
	}
	for _, who := range p.People {
		note("given hours, "+who.Name, who.Value, "hours given × own rate",
			fmt.Sprintf("%s × %s", who.Given, b.Currency.Format(b.Person(who.ID).Rate)), "person/"+string(who.ID))
	}
	for _, part := range b.Parts {
		if part.Donated {
			note(part.Name, part.Cost(), "quantity × what it would have cost",
				fmt.Sprintf("%d × %s", part.Quantity, b.Currency.Format(part.Price)), "part/"+string(part.ID))
		}
	}
	for _, o := range b.Outwork {
		note("part of "+o.What, o.Donated, "the part of the work that is given", b.Currency.Format(o.Donated), "load/"+string(o.ID))
	}
	for _, g := range b.Kind {
		note(g.What, g.Value, g.Basis, b.Currency.Format(g.Value), "tin")
	}
	return lines
}
