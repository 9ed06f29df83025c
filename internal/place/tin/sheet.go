package tin

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/internal/web/ui/chart"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/plan"
	"fettle/unit"
)

// sheet is what the pages of the tin know.
type sheet struct {
	Base   string // /b/pedlar
	Name   string // short name of the build
	Build  *build.Build
	Plan   *plan.Plan
	Money  plan.Money
	Drifts []plan.Drift
	Today  unit.Date
	Now    unit.Moment
	Crew   bool // may act
	Hidden bool // amounts are kept back
	Pence  bool // bare amounts have two decimals, all alike
}

// form is which form of the page is open, and what is wrong in it.
type form struct {
	Open  string
	Wrong field.Errors
	Paper bool
}

func (p place) load(r *web.Request) (sheet, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return sheet{}, err
	}
	s := sheet{Base: "/b/" + r.Build(), Name: r.Build(), Build: &view.Build, Plan: pl, Money: pl.Money, Today: view.Now.Date(), Now: view.Now,
		Crew: r.Person().Role >= account.Crew, Hidden: r.Query("prices") == "hide"}
	s.Drifts = plan.Drifts(s.Build, pl)
	return s, nil
}

// data is the tin as a program reads it.
type data struct {
	Money  plan.Money   `json:"money"`
	Drifts []plan.Drift `json:"drifts"`
}

func (s sheet) data() any {
	if s.Hidden {
		return map[string]any{"net": s.Money.Net.Expected, "aim": s.Money.Aim}
	}
	return data{s.Money, s.Drifts}
}

func (s sheet) money(m unit.Money) string {
	if s.Hidden {
		return "–"
	}
	return s.Build.Currency.Format(m)
}

// bare writes an amount under a heading that names the currency.
func (s sheet) bare(m unit.Money) string {
	text := unit.Currency{}.Format(m)
	switch {
	case s.Hidden:
		return "–"
	case s.Pence && m%100 == 0:
		return text + ".00"
	}
	return text
}

// net is what reaches the cause, with its working.
func (s sheet) net() figure.Figure {
	f := s.Money.NetFig
	if s.Hidden {
		f.Formula, f.With, f.Inputs = "", "", nil
	}
	return f
}

// reach puts the net beside the aim into a word.
func (s sheet) reach() (mark.Meaning, string) {
	n, aim := s.Money.Net, s.Money.Aim
	switch {
	case s.Build.Sale.Sold > 0 && n.Expected >= aim:
		return mark.Safe, "over the aim"
	case n.Low >= aim:
		return mark.Safe, "over the aim even at the low price"
	case n.Expected >= aim:
		return mark.Tight, "over the aim at the expected price"
	case n.High >= aim:
		return mark.Slipping, "over the aim only at the high price"
	}
	return mark.Lost, "under the aim at every price"
}

// range says what the net is at each price, beside the aim.
func (s sheet) span() string {
	n := s.Money.Net
	if s.Build.Sale.Sold > 0 {
		return "sold; aim " + s.Build.Currency.Format(s.Money.Aim)
	}
	if s.Hidden {
		return "aim " + s.Build.Currency.Format(s.Money.Aim)
	}
	return fmt.Sprintf("%s at the low price, %s at the high; aim %s", s.money(n.Low), s.money(n.High), s.money(s.Money.Aim))
}

// agreed puts cash beside the budget into a word and what to do.
func (s sheet) agreed() (mark.Meaning, string, string) {
	switch over := s.Money.Over; {
	case s.Money.Budget == 0:
		return mark.Tight, "no budget is agreed", "Agree one with whoever answers for the money."
	case over > 0:
		return mark.Slipping, s.money(over) + " over", "A signed change is due: agree a new budget today."
	case over == 0:
		return mark.Tight, "exactly what was agreed", ""
	default:
		return mark.Safe, s.money(-over) + " under", ""
	}
}

// pound is what a pound of the sale brings the cause.
func (s sheet) pound() figure.Figure {
	price, how := s.price()
	f := figure.Figure{Name: "of each " + s.Build.Currency.Symbol + "1 of the sale", Formula: "what reaches the cause ÷ " + how,
		Text:    fmt.Sprintf("%s%d.%02d", s.Build.Currency.Symbol, s.Money.Net.Percent/100, max(s.Money.Net.Percent%100, 0)),
		With:    fmt.Sprintf("%s ÷ %s = %d %%", s.money(s.Money.Net.Expected), s.money(price), s.Money.Net.Percent),
		Caution: fmt.Sprintf("One more %s of the price brings all of it but the fee: %s %%.", s.Build.Currency.Symbol, unit.FormatDecimal(10_000-s.Build.Sale.FeePercent, 2, 0))}
	return f
}

func (s sheet) price() (unit.Money, string) {
	if s.Build.Sale.Sold > 0 {
		return s.Build.Sale.Sold, "price it was sold for"
	}
	return s.Build.Sale.Expected, "expected price"
}

// shortest returns the week still to come at whose end the tin is emptiest,
// where that is less than nothing.
func (s sheet) shortest() *plan.Week {
	var worst *plan.Week
	for i, w := range s.Money.Weeks {
		if w.Monday+6 >= s.Today && w.Tin < 0 && (worst == nil || w.Tin < worst.Tin) {
			worst = &s.Money.Weeks[i]
		}
	}
	return worst
}

// bars draws an amount of every week.
func (s sheet) bars(title string, of func(plan.Week) unit.Money) chart.Bars {
	b := chart.Bars{Title: title, Unit: s.Build.Currency.Symbol}
	for _, w := range s.Money.Weeks {
		m := of(w)
		b.All = append(b.All, chart.Bar{Label: w.Monday.Time().Format("2 Jan"), Value: float64(m) / 100, Text: s.Build.Currency.Format(m), Over: m < 0})
	}
	return b
}

// of returns what is wrong with a field of the form that is open.
func (f form) of(open, name string) string {
	if f.Open != open {
		return ""
	}
	return f.Wrong.Of(name)
}

// id is the ID of a field: its name in the form that is open, so that the
// summary of what is wrong leads to it; elsewhere the form's name before it,
// since several forms have a field of one name.
func (f form) id(open, name string) string {
	if f.Open == open {
		return name
	}
	return open + "-" + name
}
