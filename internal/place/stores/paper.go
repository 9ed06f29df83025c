package stores

import (
	"strconv"
	"strings"

	"fettle/internal/web/ui/table"
)

// list is the lines of a purchase order.
func (o purchase) list(s sheet) table.Table {
	t := table.Table{ID: "order", Caption: "We order", Empty: "Nothing from this supplier is due.", Columns: []table.Column{
		{Head: "Our number"}, {Head: "What", Wide: true}, {Head: "Quantity", Number: true}, {Head: "Each", Unit: s.Build.Currency.Symbol, Number: true},
		{Head: "Sum", Unit: s.Build.Currency.Symbol, Number: true}, {Head: "Needed here by"}}}
	bare := func(text string) string { return strings.TrimPrefix(text, s.Build.Currency.Symbol) }
	for _, l := range o.Lines {
		each, sum := bare(s.money(s.Build.Part(l.Part).Price)), bare(s.money(l.Cost))
		if l.Donated {
			each, sum = "given", "given"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(string(l.Part)), table.Text(l.Name), table.Text(strconv.Itoa(l.Count)),
			table.Text(each), table.Text(sum), table.Text(l.NeedBy.Long())}})
	}
	if len(o.Lines) > 0 {
		t.Foot = []table.Cell{table.Text(""), table.Text("In all, as quoted"), table.Text(""), table.Text(""), table.Text(bare(s.money(o.Sum))), table.Text("")}
	}
	return t
}
