package look

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	shade "fettle/stage/look"
)

// boardPage is the looks side by side.
type boardPage struct {
	scene
	Looks  []measured
	Drawn  []pictures
	Views  []build.View
	View   string
	Line   *build.Colour // the coachline
	Table  table.Table
	Paints []build.Product // that colours come from
	Entry  string
	Later  bool // the dates are fetched by the page
}

// atOnce is how many looks are planned while the page waits: each takes about a
// quarter of a second.
const atOnce = 3

// measures reckons every look up.
func (p place) measures(r *web.Request, s scene, line *build.Colour, dates bool) ([]measured, error) {
	list := make([]measured, len(s.Build.Looks))
	for i := range s.Build.Looks {
		m, err := p.measure(r, s, &s.Build.Looks[i], dates)
		if err != nil {
			return nil, err
		}
		m.lined(s, line)
		list[i] = m
	}
	return list, nil
}

// dated answers with the table of all looks, dates and odds included.
func (p place) dated(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	looks, err := p.measures(r, s, nil, true)
	if err != nil {
		return err
	}
	return r.Fragment(sideBySide(compared(s, looks)))
}

func (p place) board(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := boardPage{scene: s, Views: s.Build.Views, View: r.Query("view"), Line: s.coachline(r.Query("line")), Entry: field.NewEntry()}
	if page.View == "" && len(page.Views) > 0 {
		page.View = page.Views[0].ID
	}
	dates := len(s.Build.Looks) <= atOnce || r.As() != "page" || r.Query("now") != "" || r.Refresh()
	if page.Looks, err = p.measures(r, s, page.Line, dates); err != nil {
		return err
	}
	page.Later, page.Table = !dates, compared(s, page.Looks)
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-looks.csv", page.Table.Records())
	case "json":
		return r.JSON(told(page.Looks))
	}
	for _, m := range page.Looks {
		page.Drawn = append(page.Drawn, p.pictures(s, m, page.View))
	}
	for _, one := range s.Build.Products {
		if one.Use.ShowsColour() {
			page.Paints = append(page.Paints, one)
		}
	}
	return p.desk.Page(r, p.sheet(fmt.Sprintf("%d looks side by side", len(page.Looks))), showBoard(page))
}

// lines are the colours that a coachline can be drawn in.
func (b boardPage) lines() []field.Option {
	list := []field.Option{{Value: "none", Label: "no line", Picked: b.Line == nil}}
	for _, c := range b.Build.Colours {
		list = append(list, field.Option{Value: string(c.ID), Label: c.Name, Picked: b.Line != nil && b.Line.ID == c.ID})
	}
	return list
}

// compared is the table of all looks: a row a measure, a column a look.
func compared(s scene, looks []measured) table.Table {
	t := table.Table{ID: "looks", Caption: "What each look takes", Self: s.At(), Columns: []table.Column{{Head: "", Wide: true}, {Head: "Unit"}}}
	for _, m := range looks {
		head := m.Look.Name
		if m.Look.Chosen {
			head += ", chosen"
		}
		t.Columns = append(t.Columns, table.Column{Head: head, Number: true})
	}
	row := func(group, name, unit string, cell func(i int, m measured) table.Cell) {
		one := table.Row{Group: group, Cells: []table.Cell{table.Text(name), table.Text(unit)}}
		for i, m := range looks {
			one.Cells = append(one.Cells, cell(i, m))
		}
		t.Rows = append(t.Rows, one)
	}
	surfaces(looks, row)
	paints(s, looks, row)
	row("Work and money", "In the booth, all paint", "h", func(i int, m measured) table.Cell {
		text := m.least(fmt.Sprintf("%.1f", m.Account.Booth.H()))
		return table.Show(text, numbered(fmt.Sprintf("booth-%d", i), m.Account.Figure, text))
	})
	row("Work and money", "Tins for all of it, with the spare", s.Build.Currency.Symbol, func(i int, m measured) table.Cell {
		text := m.least(bare(s.Build.Currency, m.Account.Cost))
		return table.Show(text, numbered(fmt.Sprintf("cost-%d", i), m.Account.Figure, text))
	})
	row("Work and money", "Tins still to buy", s.Build.Currency.Symbol, func(_ int, m measured) table.Cell {
		return table.Text(m.least(bare(s.Build.Currency, m.Account.Buy)))
	})
	dates(looks, row)
	return t
}

type rowOf = func(group, name, unit string, cell func(i int, m measured) table.Cell)

func surfaces(looks []measured, row rowOf) {
	if len(looks) == 0 {
		return
	}
	for k, z := range looks[0].Account.Zones { // all looks have all zones, in one order
		row("Surface", z.Name, "m²", func(_ int, m measured) table.Cell {
			return table.Text(fmt.Sprintf("%.2f", m.Account.Zones[k].Area.M2()))
		})
	}
	row("Surface", "All zones, as panels and wheels add up", "m²", func(_ int, m measured) table.Cell {
		return table.Text(fmt.Sprintf("%.2f", m.Account.Area.M2()))
	})
}

func paints(s scene, looks []measured, row rowOf) {
	for _, p := range s.Build.Products {
		if !slices.ContainsFunc(looks, func(m measured) bool { return m.paint(p.ID) != nil }) {
			continue
		}
		row("Ready to spray", p.Name, "l", func(i int, m measured) table.Cell {
			one := m.paint(p.ID)
			if one == nil {
				return table.Text("none")
			}
			text := fmt.Sprintf("%.2f", one.Volume.L())
			return table.Show(text, numbered(fmt.Sprintf("litres-%s-%d", p.ID, i), one.Figure, text))
		})
	}
	lacking(looks, row)
	row("Ready to spray", "All of it", "l", func(i int, m measured) table.Cell {
		text := m.least(fmt.Sprintf("%.2f", m.Account.Litres.L()))
		return table.Show(text, numbered(fmt.Sprintf("litres-all-%d", i), m.Account.Figure, text))
	})
}

// lacking has a row for each colour that some look has no paint of.
func lacking(looks []measured, row rowOf) {
	var names []string
	lacks := func(m measured, name string) bool {
		return slices.ContainsFunc(m.Account.Unknown, func(l shade.Lack) bool { return l.Name == name })
	}
	for _, m := range looks {
		for _, l := range m.Account.Unknown {
			if !slices.Contains(names, l.Name) {
				names = append(names, l.Name)
			}
		}
	}
	for _, name := range names {
		row("Ready to spray", name+", no paint of it yet", "l", func(_ int, m measured) table.Cell {
			if lacks(m, name) {
				return table.Text("not known")
			}
			return table.Text("none")
		})
	}
}

// least marks a sum that leaves out paint of which nothing is known.
func (m measured) least(text string) string {
	if len(m.Account.Unknown) > 0 {
		return "at least " + text
	}
	return text
}

func dates(looks []measured, row rowOf) {
	if len(looks) == 0 || looks[0].Plan == nil {
		return
	}
	row("Date", "Half the builds by", "", func(_ int, m measured) table.Cell { return table.Text(m.Plan.Dates.P50.Short()) })
	row("Date", "Four in five by", "", func(_ int, m measured) table.Cell { return table.Text(m.Plan.Dates.P80.Short()) })
	row("Date", "Odds of "+looks[0].Plan.Promise.Ready.Long(), "%", func(_ int, m measured) table.Cell {
		return table.Text(fmt.Sprintf("%.0f", 100*m.Plan.Odds.Ready))
	})
}

// toldLook is a look as JSON has it.
type toldLook struct {
	shade.Account
	Seen  []shade.ZoneFace        `json:"seen"`
	Edges map[string][]shade.Edge `json:"edges"`
	P50   string                  `json:"p50"`
	P80   string                  `json:"p80"`
	Ready float64                 `json:"ready"`
	Stops []string                `json:"stops,omitempty"`
}

func told(looks []measured) []toldLook {
	list := make([]toldLook, len(looks))
	for i, m := range looks {
		t := toldLook{Account: m.Account, Seen: m.Zones, Edges: map[string][]shade.Edge{},
			P50: m.Plan.Dates.P50.String(), P80: m.Plan.Dates.P80.String(), Ready: m.Plan.Odds.Ready}
		for _, e := range m.Edges {
			t.Edges[e.Name] = e.Seen
		}
		for _, stop := range m.Stops {
			t.Stops = append(t.Stops, stop.Says(m.Build)+". "+stop.Do(m.Build))
		}
		list[i] = t
	}
	return list
}
