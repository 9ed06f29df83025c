package stores

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// heading names the groups of the whole list.
var heading = map[string]string{"late": "To order: the last day has passed", "due": "To order today", "later": "To order later", "on order": "On order", "here": "Here"}

// whole is every part in one list, for files and paper.
func (s sheet) whole() table.Table {
	t := table.Table{ID: "parts", Caption: "Parts", Empty: "No part is wanted.", Columns: []table.Column{
		{Head: "Part"}, {Head: "Name", Wide: true}, {Head: "State"}, {Head: "Quantity", Number: true}, {Head: "Cost", Unit: s.Build.Currency.Symbol, Number: true},
		{Head: "Lead", Unit: "working days", Number: true}, {Head: "Last order day"}, {Head: "Ordered"}, {Head: "There"},
		{Head: "Needed"}, {Head: "For"}, {Head: "Because"}, {Head: "Supplier"}}}
	for _, l := range s.in("late", "due", "later", "on order", "here") {
		cost := "given"
		switch {
		case s.Hidden:
			cost = "–"
		case !l.Donated:
			cost = unit.FormatDecimal(int64(l.Cost), 2, 0)
		}
		there := l.There
		if l.When == "late" || l.When == "due" || l.When == "later" {
			there = 0
		}
		t.Rows = append(t.Rows, table.Row{Group: heading[l.When], Cells: []table.Cell{
			table.Text(string(l.Part)), table.Text(l.Name), table.Text(string(l.State)), table.Text(strconv.Itoa(l.Count)), table.Text(cost),
			table.Text(strconv.Itoa(l.Lead)), table.Text(l.OrderBy.String()), table.Text(l.Ordered.String()), table.Text(there.String()),
			table.Text(l.NeedBy.String()), table.Text(string(l.Task)), table.Text(because(l.Because)), table.Text(l.Supplier)}})
	}
	return t
}

func because(ids []build.FindingID) string {
	words := make([]string, len(ids))
	for i, id := range ids {
		words[i] = string(id)
	}
	return strings.Join(words, " ")
}

// dueList is what to order today, the late ones first, each to tick.
func (s sheet) dueList() table.Table {
	t := s.wanted("due", "Order today", s.in("late", "due"))
	t.Self = s.Base + "/stores"
	if s.Crew {
		t.Columns = append([]table.Column{{Head: "Order"}}, t.Columns...)
		for i, l := range s.in("late", "due") {
			t.Rows[i].Cells = append([]table.Cell{table.Show("", tick("order", string(l.Part), l.Name))}, t.Rows[i].Cells...)
		}
	}
	t.Empty = "Nothing is due today."
	if later := s.in("later"); len(later) > 0 {
		t.Empty = fmt.Sprintf("Nothing is due today. The next last day is %s, for %s %s.", later[0].OrderBy.Long(), later[0].Part, later[0].Name)
	}
	return t
}

// laterList is what may wait.
func (s sheet) laterList() table.Table {
	t := s.wanted("later", "Later", s.in("later"))
	t.Empty = "Everything that is wanted is on order."
	return t
}

func (s sheet) wanted(id, caption string, lines []line) table.Table {
	t := table.Table{ID: "list-" + id, Caption: caption, Columns: []table.Column{
		{Head: "Part", Wide: true}, {Head: "Last order day"}, {Head: "Lead", Unit: "days", Number: true},
		{Head: "Cost", Unit: s.Build.Currency.Symbol, Number: true}, {Head: "Needed for", Wide: true}, {Head: "Because of"}}}
	for _, l := range lines {
		t.Rows = append(t.Rows, table.Row{ID: "row-" + string(l.Part), Cells: []table.Cell{
			table.Show(string(l.Part)+" "+l.Name, partName(s.Base, l)),
			table.Show(l.OrderBy.String(), lastDay(l)), table.Text(strconv.Itoa(l.Lead)), table.Text(s.price(l)),
			table.Show(string(l.Task), neededFor(s, l)), table.Show(because(l.Because), findings(s.Base, l.Because))}})
	}
	return t
}

func (s sheet) price(l line) string {
	if l.Donated {
		return "given"
	}
	return strings.TrimPrefix(s.money(l.Cost), s.Build.Currency.Symbol)
}

// inList is goods in: what should come today.
func (s sheet) inList() table.Table {
	t := s.ordered("in", "Goods in today", s.dueIn())
	t.Empty = "Nothing was promised for today."
	if next := soonest(s.coming()); next != nil {
		t.Empty = fmt.Sprintf("Nothing was promised for today. Next: %s %s on %s.", next.Part, next.Name, next.There.Long())
	}
	if s.Crew {
		t.Columns = append([]table.Column{{Head: "Came in"}}, t.Columns...)
		for i, l := range s.dueIn() {
			t.Rows[i].Cells = append([]table.Cell{table.Show("", tick("receive", string(l.Part), l.Name))}, t.Rows[i].Cells...)
		}
	}
	return t
}

func soonest(lines []line) *line {
	var first *line
	for i := range lines {
		if d := lines[i].There; d != 0 && (first == nil || d < first.There) {
			first = &lines[i]
		}
	}
	return first
}

// comingList is what is on its way.
func (s sheet) comingList() table.Table {
	t := s.ordered("coming", "On order", s.coming())
	t.Empty = "Nothing is on its way."
	return t
}

func (s sheet) ordered(id, caption string, lines []line) table.Table {
	t := table.Table{ID: "list-" + id, Caption: caption, Columns: []table.Column{
		{Head: "Part", Wide: true}, {Head: "From"}, {Head: "Ordered"}, {Head: "There"}, {Head: "Needed for", Wide: true}, {Head: "In time"}}}
	for _, l := range lines {
		meaning, word := inTime(l)
		t.Rows = append(t.Rows, table.Row{ID: "row-" + string(l.Part), Cells: []table.Cell{
			table.Show(string(l.Part)+" "+l.Name, partName(s.Base, l)), table.Text(l.Supplier), table.Text(l.Ordered.Time().Format("2 Jan")),
			table.Show(l.There.String(), there(l)), table.Show(string(l.Task), neededFor(s, l)), table.Show(word, mark.Show(meaning, word))}})
	}
	return t
}

// inTime puts the slack of a part that is on order into a word.
func inTime(l line) (mark.Meaning, string) {
	switch {
	case l.State == build.Late:
		return mark.Slipping, "said to be late"
	case l.Taken == build.Begun && l.Slack < 0:
		return mark.Slipping, string(l.Task) + " waits for it"
	case l.Slack < 0:
		return mark.Lost, fmt.Sprintf("%d days late", -l.Slack)
	case l.Slack <= 1:
		return mark.Tight, "just in time"
	}
	return mark.Safe, fmt.Sprintf("%d days to spare", l.Slack)
}

// orderBy puts the last order day into a word.
func orderBy(l line) (mark.Meaning, string) {
	if l.When == "late" {
		return mark.Slipping, "passed"
	}
	return mark.Tight, "today"
}

// hereList is what has come in.
func (s sheet) hereList() table.Table {
	t := table.Table{ID: "list-here", Caption: "Here", Empty: "Nothing has come in yet.", Columns: []table.Column{
		{Head: "Part", Wide: true}, {Head: "From"}, {Head: "Came in"}, {Head: "Cost", Unit: s.Build.Currency.Symbol, Number: true}, {Head: "For", Wide: true}}}
	for _, l := range s.in("here") {
		t.Rows = append(t.Rows, table.Row{ID: "row-" + string(l.Part), Cells: []table.Cell{
			table.Show(string(l.Part)+" "+l.Name, partName(s.Base, l)), table.Text(l.Supplier), table.Text(l.There.Short()),
			table.Text(s.price(l)), table.Show(string(l.Task), neededFor(s, l))}})
	}
	return t
}

// hideList is the hides of the trim shop.
func (s sheet) hideList() table.Table {
	t := table.Table{ID: "list-hides", Caption: "Hides", Empty: "No hide is on the list.", Columns: []table.Column{
		{Head: "Hide"}, {Head: "Material", Wide: true}, {Head: "Dye lot"}, {Head: "Area", Unit: "m²", Number: true},
		{Head: "Usable", Unit: "m²", Number: true}, {Head: "Price", Unit: s.Build.Currency.Symbol, Number: true}, {Head: "State"}}}
	for _, h := range s.Build.Hides {
		state := "kept"
		if h.Refused {
			state = "refused"
		}
		area := float64(h.Area) / 1e6
		t.Rows = append(t.Rows, table.Row{Quiet: h.Refused, Cells: []table.Cell{
			table.Text(string(h.ID)), table.Text(h.Material), table.Text(h.Lot), table.Text(fmt.Sprintf("%.2f", area)),
			table.Text(fmt.Sprintf("%.2f", area*h.Usable)), table.Text(strings.TrimPrefix(s.money(h.Price), s.Build.Currency.Symbol)), table.Text(state)}})
	}
	return t
}

// litres is the paint to buy, each product with its working.
func (s sheet) litres() table.Table {
	t := table.Table{ID: "list-paint", Caption: "Paint, ready to spray", Empty: "No paint is on the list.", Columns: []table.Column{
		{Head: "Product", Wide: true}, {Head: "Litres", Number: true}, {Head: "Needed for", Wide: true}, {Head: "Recoat, as the sheet says", Wide: true}}}
	for i, f := range s.Plan.Litres {
		product := s.Build.Products[i]
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(product.Name),
			table.Figure("paint-"+string(product.ID), f),
			table.Link(string(product.Task), s.Base+"/task/"+string(product.Task)), table.Text(product.Recoat)}})
	}
	return t
}
