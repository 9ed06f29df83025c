package tin

import (
	"fettle/figure"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	"fettle/unit"
)

// amount is a cell with an amount that opens its working.
func (s sheet) amount(id string, m unit.Money, f figure.Figure) table.Cell {
	if s.Hidden {
		return table.Text("–")
	}
	f.Text = s.bare(m)
	return table.Show(plain(m), working.Figure(id, working.Inline, f))
}

// plain writes an amount as a file holds it.
func plain(m unit.Money) string { return unit.FormatDecimal(int64(m), 2, 0) }

func (s sheet) column(head string) table.Column {
	return table.Column{Head: head, Unit: s.Build.Currency.Symbol, Number: true}
}

// lines is the cash line by line: planned, spent, left.
func (s sheet) lines() table.Table {
	t := table.Table{ID: "lines", Caption: "Cash, line by line", Self: s.Base + "/tin", Paper: s.Base + "/tin?as=paper", Empty: "No cost is planned.",
		Columns: []table.Column{{Head: "Line", Wide: true}, s.column("In all"), s.column("Spent"), s.column("Left")}}
	for _, l := range s.Money.Lines {
		s.Pence = s.Pence || l.Amount%100 != 0 || l.Spent%100 != 0
	}
	for i, l := range s.Money.Lines {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Link(l.Name, s.Base+"/"+l.Link),
			s.amount("line-"+number(i), l.Amount, l.Figure), s.file(l.Spent), s.file(l.Amount - l.Spent)}})
	}
	t.Foot = []table.Cell{table.Text("Cash"), s.amount("line-cash", s.Money.Cash, s.Money.CashFig), s.file(s.Money.Spent), s.file(s.Money.Cash - s.Money.Spent)}
	return t
}

// file is a cell with an amount that has no working of its own: it is part of
// the one beside it.
func (s sheet) file(m unit.Money) table.Cell {
	if s.Hidden {
		return table.Text("–")
	}
	return table.Show(plain(m), bareAmount(s.bare(m)))
}

// weeks is the money that moves, week by week.
func (s sheet) weeks() table.Table {
	t := table.Table{ID: "weeks", Caption: "Week by week", Empty: "No money moves.", Columns: []table.Column{
		{Head: "Week of"}, s.column("Out"), s.column("In"), s.column("In the tin at its end")}}
	for _, w := range s.Money.Weeks {
		s.Pence = s.Pence || w.Out%100 != 0 || w.In%100 != 0
	}
	for _, w := range s.Money.Weeks {
		t.Rows = append(t.Rows, table.Row{Quiet: w.Monday+6 < s.Today, Cells: []table.Cell{table.Text(w.Monday.Short()), s.file(w.Out), s.file(w.In), s.file(w.Tin)}})
	}
	return t
}

// gifts is the money given.
func (s sheet) gifts() table.Table {
	t := table.Table{ID: "gifts", Caption: "Money given", Empty: "Nothing was given yet.", Columns: []table.Column{
		{Head: "From", Wide: true}, {Head: "Day"}, s.column("Amount"), {Head: "State"}, {Head: "Thanked"}}}
	for i, g := range s.Build.Gifts {
		state := "promised"
		if g.Received {
			state = "received"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(g.From), table.Text(g.Day.Short()),
			s.amount("gift-"+g.ID, g.Amount, s.Money.Gifts[i].Figure), table.Text(state), s.thanks("gift", g.ID, g.From, g.Thanked, g.Received)}})
	}
	t.Foot = []table.Cell{table.Text("Money given"), table.Text(""), s.file(s.Money.Income), table.Text(""), table.Text("")}
	return t
}

// thanks says whether somebody was thanked, or offers to say so.
func (s sheet) thanks(kind, id, from string, thanked, due bool) table.Cell {
	switch {
	case thanked:
		return table.Text("yes")
	case due && s.Crew:
		return table.Show("not yet", thankForm(s.Base, kind, id, from))
	case due:
		return table.Text("not yet")
	}
	return table.Text("")
}

// kinds is what was given and is no money.
func (s sheet) kinds() table.Table {
	t := table.Table{ID: "kinds", Caption: "Gifts in kind, apart", Empty: "Nothing was given in kind.", Columns: []table.Column{
		{Head: "What", Wide: true}, {Head: "Reckoned as", Wide: true}, s.column("Worth")}}
	for i, l := range s.Money.InKinds {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(l.Name), table.Text(l.Figure.Formula), s.amount("kind-"+number(i), l.Amount, l.Figure)}})
	}
	t.Foot = []table.Cell{table.Text("Worth in all, never added"), table.Text(""), s.amount("kind-all", s.Money.InKind, s.Money.GivenFig)}
	return t
}
