package tin

import (
	"fettle/figure"
	"fettle/internal/web/ui/table"
)

// shown is the figure of a line of the sum, with its amount as text.
func (s sheet) shown(row accountRow) figure.Figure {
	f := row.Figure
	f.Text = s.money(row.Amount)
	if f.Name == "" {
		f.Name = row.Name
	}
	return f
}

// at is the account in another form.
func (s sheet) at(form string) string {
	href := s.Base + "/tin/account?as=" + form
	if s.Hidden {
		href += "&prices=hide"
	}
	return href
}

// accountLines is the cash of the account; each amount opens its receipts.
func (s sheet) accountLines() table.Table {
	t := table.Table{ID: "account-lines", Caption: "What the cash was for", Columns: []table.Column{{Head: "Line", Wide: true}, s.column("Amount"), {Head: "Receipts", Number: true}}}
	for i, l := range s.Money.Lines {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(l.Name), s.amount("account-"+number(i), l.Amount, l.Figure), table.Text(s.receipts(l.Figure))}})
	}
	t.Foot = []table.Cell{table.Text("Cash"), s.file(s.Money.Cash), table.Text("")}
	return t
}

// receipts counts the receipts behind a line.
func (s sheet) receipts(f figure.Figure) string {
	n := 0
	for _, in := range f.Inputs {
		if in.Source == figure.Measured {
			n++
		}
	}
	if n == 0 {
		return "–"
	}
	return number(n - 1)
}

// kindList is what was given in kind, short, for the account.
func (s sheet) kindList() table.Table {
	t := s.kinds()
	t.ID = "account-kinds"
	t.Columns = []table.Column{t.Columns[0], t.Columns[2]}
	for i := range t.Rows {
		t.Rows[i].Cells = []table.Cell{t.Rows[i].Cells[0], t.Rows[i].Cells[2]}
	}
	t.Foot = []table.Cell{t.Foot[0], t.Foot[2]}
	return t
}
