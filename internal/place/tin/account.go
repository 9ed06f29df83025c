package tin

import (
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// account is the answer to what was given, what it cost, and what reaches the
// cause. Gifts in kind and hours given stand apart and are never added.
type accountSheet struct {
	Cause    string       `json:"cause"`
	Sold     bool         `json:"sold"` // else the sale is what is expected
	Given    unit.Money   `json:"gifts"`
	Sale     unit.Money   `json:"sale"`
	Fee      unit.Money   `json:"fee"`
	Cash     unit.Money   `json:"cash"`
	Net      unit.Money   `json:"net"`
	InKind   unit.Money   `json:"gifts_in_kind_apart"`
	Hours    unit.Effort  `json:"hours_given_apart_h"`
	Sentence string       `json:"sentence"`
	Thanks   []thanks     `json:"to_thank"`
	Hands    []hands      `json:"hours_given"`
	Rows     []accountRow `json:"lines"`
}

// accountRow is a line of the sum with the figure that opens its receipts.
type accountRow struct {
	Sign   string        `json:"sign"`
	Name   string        `json:"name"`
	Amount unit.Money    `json:"amount"`
	Figure figure.Figure `json:"working"`
}

// hands are the hours that one person gave.
type hands struct {
	Name    string      `json:"name"`
	Hours   unit.Effort `json:"hours_h"`
	Helping bool        `json:"helper,omitempty"` // kept, neither planned nor valued
}

// thanks is somebody who is still to be thanked.
type thanks struct {
	ID   string `json:"id"` // gift/… or kind/…
	From string `json:"from"`
	What string `json:"what"`
}

func (s sheet) account() accountSheet {
	price, how := s.price()
	fee := price.Percent(s.Build.Sale.FeePercent)
	a := accountSheet{Cause: s.Build.Cause.Name, Sold: s.Build.Sale.Sold > 0, Given: s.Money.Income, Sale: price, Fee: fee,
		Cash: s.Money.Cash, Net: s.Money.Net.Expected, InKind: s.Money.InKind}
	a.Hands, a.Hours = s.hands()
	a.Thanks = s.toThank()
	a.Sentence = s.sentence(a)
	a.Rows = []accountRow{
		{"", "money given", a.Given, s.givenFigure()},
		{"+", "sale, " + s.Build.Sale.How, a.Sale, figure.Figure{Name: how, Formula: how, With: s.money(price),
			Inputs: []figure.Input{{Name: "sale closes", Value: s.Build.Sale.Closes.Short(), Source: figure.Decided, Note: s.Build.Sale.How}}}},
		{"−", "fee of the sale", fee, figure.Figure{Name: "fee", Formula: "price × fee", With: fmt.Sprintf("%s × %s %% = %s", s.money(price), unit.FormatDecimal(s.Build.Sale.FeePercent, 2, 0), s.money(fee))}},
		{"−", "cash, all that left or leaves the tin", a.Cash, s.Money.CashFig},
		{"=", "to " + a.Cause, a.Net, s.Money.NetFig},
	}
	return a
}

func (s sheet) givenFigure() figure.Figure {
	f := figure.Figure{Name: "money given", Text: s.money(s.Money.Income), Formula: "all gifts of money, received or promised"}
	for i, g := range s.Build.Gifts {
		note := "promised"
		if g.Received {
			note = "received " + g.Day.Short()
		}
		f.Inputs = append(f.Inputs, figure.Input{Name: g.From, Value: s.money(g.Amount), Source: figure.Measured, Note: note})
		if i > 0 {
			f.With += " + "
		}
		f.With += s.money(g.Amount)
	}
	f.With += " = " + f.Text
	return f
}

// hands lists who gave hours: those of the crew that are given, then helpers.
// The sum is that of the crew.
func (s sheet) hands() (list []hands, sum unit.Effort) {
	for _, who := range s.Plan.People {
		if who.Given > 0 {
			list = append(list, hands{Name: who.Name, Hours: who.Given})
			sum += who.Given
		}
	}
	for _, who := range s.Plan.People {
		if p := s.Build.Person(who.ID); p.Helps && who.Booked > 0 {
			list = append(list, hands{Name: who.Name, Hours: who.Booked, Helping: true})
		}
	}
	return list, sum
}

func (s sheet) toThank() []thanks {
	var list []thanks
	for _, g := range s.Build.Gifts {
		if g.Received && !g.Thanked {
			list = append(list, thanks{"gift/" + g.ID, g.From, s.money(g.Amount)})
		}
	}
	for _, g := range s.Build.Kind {
		if !g.Thanked {
			list = append(list, thanks{"kind/" + g.ID, g.From, g.What})
		}
	}
	return list
}

// sentence is what may be said in public, with the amount in the build's own
// currency.
func (s sheet) sentence(a accountSheet) string {
	m := s.Build.Currency.Format
	verb, reaches := "is to be sold by "+s.Build.Sale.How+" and is expected to bring", "would go"
	if a.Sold {
		verb, reaches = "was sold by "+s.Build.Sale.How+" for", "goes"
	}
	return fmt.Sprintf("%s %s %s; with %s given in money, and after the fee of %s and costs of %s, %s %s to %s.",
		s.Build.Title, verb, m(a.Sale), m(a.Given), m(a.Fee), m(a.Cash), m(a.Net), reaches, a.Cause)
}

// records are the account as a file.
func (a accountSheet) records() [][]string {
	rows := [][]string{{"Line", "Amount"}}
	for _, r := range a.Rows {
		amount := r.Amount
		if r.Sign == "−" {
			amount = -amount
		}
		rows = append(rows, []string{r.Name, plain(amount)})
	}
	return append(rows, []string{"gifts in kind, apart, never added", plain(a.InKind)},
		[]string{"hours given, for thanks, no income", unit.FormatDecimal(unit.MulDiv(int64(a.Hours), 100, 60), 2, 0)})
}

// hidden is the account for eyes that see no prices: what reaches the cause
// and whom to thank.
func (a accountSheet) hidden() accountSheet {
	b := accountSheet{Cause: a.Cause, Sold: a.Sold, Net: a.Net, Hours: a.Hours, Hands: a.Hands, Thanks: a.Thanks}
	for _, r := range a.Rows {
		if r.Sign == "=" {
			b.Rows = append(b.Rows, accountRow{Name: r.Name, Amount: r.Amount, Figure: figure.Figure{Name: r.Name, Text: r.Figure.Text}})
		}
	}
	return b
}

func (p place) account(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	a := s.account()
	if s.Hidden {
		a = a.hidden()
		a.Sentence = fmt.Sprintf("%s to %s.", s.Build.Currency.Format(a.Net), a.Cause)
	}
	switch r.As() {
	case "json":
		return r.JSON(a)
	case "csv":
		return r.CSV("account.csv", a.records())
	case "paper":
		return r.Page(web.Sheet{Place: "tin", Shown: "account"}, accountPage(s, a, true))
	}
	return p.desk.Page(r, web.Sheet{Place: "tin", Shown: "account"}, accountPage(s, a, false))
}

// handList is the hours given, for thanks.
func (s sheet) handList(a accountSheet) table.Table {
	t := table.Table{ID: "hands", Caption: "Hours given, for thanks", Empty: "No hours were given.", Columns: []table.Column{
		{Head: "Who", Wide: true}, {Head: "Hours", Unit: "h", Number: true}}}
	for _, h := range a.Hands {
		name := h.Name
		if h.Helping {
			name += ", helping"
		}
		t.Rows = append(t.Rows, table.Row{Quiet: h.Helping, Cells: []table.Cell{table.Text(name), table.Text(unit.FormatDecimal(unit.MulDiv(int64(h.Hours), 100, 60), 2, 0))}})
	}
	t.Foot = []table.Cell{table.Text("Given, kept out of the income"), table.Text(unit.FormatDecimal(unit.MulDiv(int64(a.Hours), 100, 60), 2, 0))}
	return t
}

// receipt shows one payment.
func (p place) receipt(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	y := s.payment(r.Path("payment"))
	if y == nil {
		return fault.New(fault.NotFound, "there is no payment %q", r.Path("payment"))
	}
	if s.Hidden {
		return fault.New(fault.Denied, "prices are kept back on this device")
	}
	return p.desk.Page(r, web.Sheet{Place: "tin", Shown: "payment " + y.ID}, receiptPage(s, *y))
}

// thing leads from a payment to what it was for.
func thing(base string, y build.Payment) (href, name string) {
	switch y.For {
	case "parts":
		return base + "/part/" + y.Ref, y.Ref
	case "outwork":
		return base + "/load/" + y.Ref, y.Ref
	case "line":
		return base + "/tin#lines", y.Ref
	}
	return base + "/tin", "no line"
}
