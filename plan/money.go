package plan

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// Money is what the build costs, what it brings and what reaches the cause.
type Money struct {
	Cash     unit.Money    `json:"cash"`    // all that will leave the tin
	Spent    unit.Money    `json:"spent"`   // has left it, or is owed for hours worked
	Budget   unit.Money    `json:"budget"`  // agreed
	Over     unit.Money    `json:"over"`    // Cash less Budget; negative is room left
	Income   unit.Money    `json:"income"`  // money given
	InKind   unit.Money    `json:"in_kind"` // shown apart, never added
	Net      Net           `json:"net"`
	Aim      unit.Money    `json:"aim"`
	Lines    []Line        `json:"lines"`
	Gifts    []Line        `json:"gifts"`
	InKinds  []Line        `json:"gifts_in_kind"`
	Weeks    []Week        `json:"weeks"`
	CashFig  figure.Figure `json:"cash_working"`
	NetFig   figure.Figure `json:"net_working"`
	GivenFig figure.Figure `json:"in_kind_working"`
}

// Net is what reaches the cause at each price.
type Net struct {
	Low      unit.Money `json:"low"`
	Expected unit.Money `json:"expected"`
	High     unit.Money `json:"high"`
	Percent  int        `json:"percent_of_sale"` // of the expected price that reaches the cause
}

// Line is one line of the account, with its working.
type Line struct {
	Name   string        `json:"name"`
	Amount unit.Money    `json:"amount"`
	Spent  unit.Money    `json:"spent,omitempty"`
	Link   string        `json:"link,omitempty"`
	Figure figure.Figure `json:"working"`
}

func moneyOf(n *net, p *Plan) Money {
	b := n.build
	m := Money{Budget: b.Budget.Agreed, Aim: b.Cause.Aim}
	m.Lines = append(m.Lines, hoursLine(b, p), partsLine(b), outworkLine(b))
	for _, c := range b.Costs {
		m.Lines = append(m.Lines, costLine(b, c))
	}
	if other := otherLine(b); other.Amount != 0 {
		m.Lines = append(m.Lines, other)
	}
	for _, l := range m.Lines {
		m.Cash, m.Spent = m.Cash+l.Amount, m.Spent+l.Spent
	}
	m.Over = m.Cash - m.Budget
	for _, g := range b.Gifts {
		m.Gifts = append(m.Gifts, giftLine(b, g))
		m.Income += g.Amount
	}
	m.InKinds = inKind(b, p)
	for _, l := range m.InKinds {
		m.InKind += l.Amount
	}
	m.Net = netOf(b, m)
	m.figures(b)
	m.Weeks = weeksOf(n, p)
	return m
}

func netOf(b *build.Build, m Money) Net {
	at := func(price unit.Money) unit.Money {
		return m.Income + price - price.Percent(b.Sale.FeePercent) - m.Cash
	}
	net := Net{Low: at(b.Sale.Low), Expected: at(b.Sale.Expected), High: at(b.Sale.High)}
	price := b.Sale.Expected
	if b.Sale.Sold > 0 {
		price = b.Sale.Sold
		net = Net{Low: at(price), Expected: at(price), High: at(price)}
	}
	if price > 0 {
		net.Percent = int(unit.MulDiv(int64(net.Expected), 100, int64(price)))
	}
	return net
}

func (m *Money) figures(b *build.Build) {
	money := b.Currency.Format
	m.CashFig = figure.Figure{Name: "cash", Text: money(m.Cash), Formula: "paid hours + parts bought + outwork + other costs", With: sum(b, m.Lines) + " = " + money(m.Cash)}
	price, how := b.Sale.Expected, "expected price"
	if b.Sale.Sold > 0 {
		price, how = b.Sale.Sold, "price it was sold for"
	}
	fee := price.Percent(b.Sale.FeePercent)
	m.NetFig = figure.Figure{
		Name: "what reaches " + b.Cause.Name, Text: money(m.Net.Expected),
		Formula: "money given + " + how + " − fee − cash; gifts in kind are never added",
		With:    fmt.Sprintf("%s + %s − %s − %s = %s", money(m.Income), money(price), money(fee), money(m.Cash), money(m.Net.Expected)),
		Inputs: []figure.Input{
			{Name: how, Value: money(price), Source: figure.Decided, Note: b.Sale.How},
			{Name: "fee", Value: unit.FormatDecimal(b.Sale.FeePercent, 2, 0) + " %", Source: figure.Decided},
			{Name: "low and high price", Value: money(b.Sale.Low) + " to " + money(b.Sale.High), Source: figure.Decided},
		},
		Caution: "What may be said in public about gifts and sales is a matter for the treasurer and local law.",
	}
	m.GivenFig = figure.Figure{Name: "gifts in kind", Text: money(m.InKind), Formula: "each at what it would have cost; shown apart, never added to the net", With: sum(b, m.InKinds) + " = " + money(m.InKind)}
	for _, l := range m.Lines {
		m.CashFig.Inputs = append(m.CashFig.Inputs, figure.Input{Name: l.Name, Value: money(l.Amount), Source: figure.Worked, Link: l.Link})
	}
	for _, l := range m.InKinds {
		m.GivenFig.Inputs = append(m.GivenFig.Inputs, figure.Input{Name: l.Name, Value: money(l.Amount), Source: figure.Decided, Note: l.Figure.Formula, Link: l.Link})
	}
}

func sum(b *build.Build, lines []Line) string {
	text := ""
	for i, l := range lines {
		if i > 0 {
			text += " + "
		}
		text += b.Currency.Format(l.Amount)
	}
	return text
}
