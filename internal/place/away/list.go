package away

import (
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
)

// order is the loads as they matter: away first, then to pack, then back.
func (s sheet) order() []card {
	var out, home, here []card
	for _, c := range s.cards() {
		switch {
		case c.out():
			out = append(out, c)
		case c.home():
			home = append(home, c)
		default:
			here = append(here, c)
		}
	}
	return append(append(out, home...), here...)
}

func (c card) group() string {
	switch {
	case c.out():
		return "Away"
	case c.home():
		return "To send"
	}
	return "Back"
}

// list is every load with its dates and its room.
func (s sheet) list() table.Table {
	t := table.Table{ID: "loads", Caption: "Loads", Self: s.Base + "/away", Paper: s.Base + "/away?as=paper", Columns: []table.Column{
		{Head: "Load", Wide: true}, {Head: "Out"}, {Head: "Turn-round"}, {Head: "Likely back"}, {Head: "Needed"},
		{Head: "Room"}, {Head: "Pieces", Number: true}, {Head: "Cost", Unit: s.Build.Currency.Symbol, Number: true}}}
	for _, c := range s.order() {
		meaning, word := c.room()
		t.Rows = append(t.Rows, table.Row{ID: "row-" + string(c.ID), Group: c.group(), Cells: []table.Cell{
			table.Show(string(c.ID)+" "+c.What, loadName(s.Base, c)), table.Show(c.Out.String(), shortDay(c.Out)),
			table.Figure("turn-"+string(c.ID), c.Figure),
			table.Show(c.Back.String(), shortDay(c.Back)), table.Show(c.NeedBy.String(), shortDay(c.NeedBy)),
			table.Show(word, mark.Show(meaning, word)), table.Text(strconv.Itoa(c.Pieces)),
			table.Text(strings.TrimPrefix(s.money(c.Cost), s.Build.Currency.Symbol))}})
	}
	return t
}

// needing lists the tasks a missing piece can be needed for: those that wait
// for the load first.
func (s sheet) needing(c card) []field.Option {
	var list []field.Option
	for i, t := range c.Waits {
		list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: i == 0})
	}
	for _, t := range s.Build.Tasks {
		known := false
		for _, w := range c.Waits {
			known = known || w.ID == t.ID
		}
		if !known && t.State != build.Finished && t.ID != c.Facts.Task {
			list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name})
		}
	}
	return list
}

// bags lists the bags that are out, to say which one is short.
func (s sheet) bags() []field.Option {
	list := []field.Option{{Value: "", Label: "in no bag"}}
	for _, x := range s.bagsOut() {
		list = append(list, field.Option{Value: string(x.ID), Label: strings.TrimSpace(string(x.ID) + " " + x.What)})
	}
	return list
}
