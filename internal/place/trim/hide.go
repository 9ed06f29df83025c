package trim

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/trim"
)

func (p place) hideRoutes() []web.Route {
	at := "/b/{build}/trim/hide"
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/hides", Who: web.Guest, Handle: p.hides},
		{Pattern: "GET " + at + "/{hide}", Who: web.Guest, Handle: p.hide},
	}
}

// sheetCard is one hide, or the roll, as its card shows it.
type sheetCard struct {
	Hide    build.Hide
	Roll    *build.Roll // nil for a hide
	Drawing drawing
	Laid    float64 // share of the outline that pieces lie on
	Count   int
	Faults  []stage.Fault
}

// title is what the card is of.
func (c sheetCard) title() string {
	if c.Roll != nil {
		return "Roll " + string(c.Roll.ID)
	}
	return "Hide " + string(c.Hide.ID)
}

// card gathers what is on a hide.
func (s sheet) card(h build.Hide) sheetCard {
	c := sheetCard{Hide: h}
	l := s.Build.LayoutOf(h.Material)
	if l != nil {
		c.Faults = stage.VerdictOf(s.Build, h.Material).Faults
	}
	c.Drawing = drawHide(h, stage.Cuts(s.Build, h.Material), l, c.Faults)
	c.measure()
	return c
}

// measure counts what is drawn, and its share of the outline.
func (c *sheetCard) measure() {
	c.Count, c.Laid = len(c.Drawing.Pieces), 0
	if len(c.Drawing.Outline.Outer) == 0 {
		return
	}
	for _, p := range c.Drawing.Pieces {
		c.Laid += p.Shape.Area()
	}
	c.Laid /= c.Drawing.Outline.Area()
}

// rollCard is what lies on a roll, as far as that reaches.
func (s sheet) rollCard(r *build.Roll, placed []build.Placed, faults []stage.Fault) sheetCard {
	c := sheetCard{Roll: r, Faults: faults, Drawing: drawRoll(*r, stage.Cuts(s.Build, r.Material), placed, faults)}
	c.measure()
	return c
}

// cards are what a material is cut from with what a layout has there: its roll,
// or its drawn hides that something lies on or all of them.
func (s sheet) cards(material string, l *build.Layout, v stage.Verdict, all bool) []sheetCard {
	if r := stage.RollOf(s.Build, material); r != nil {
		return []sheetCard{s.rollCard(r, l.Placed, v.Faults)}
	}
	cuts := stage.Cuts(s.Build, material)
	var list []sheetCard
	for _, h := range s.Build.Hides {
		if h.Material != material || h.Refused && all || !h.Outline.Drawn() {
			continue
		}
		c := sheetCard{Hide: h, Faults: v.Faults, Drawing: drawHide(h, cuts, l, v.Faults)}
		if c.measure(); all || c.Count > 0 {
			c.Drawing.Named = true
			list = append(list, c)
		}
	}
	return list
}

// leave draws in what a layout leaves of each hide.
func leave(cards []sheetCard, list []stage.Remnant) {
	for i := range cards {
		for _, r := range list {
			if c := &cards[i]; c.Roll == nil && c.Hide.ID == r.Hide {
				c.Drawing.Left = &r
			}
		}
	}
}

type hidesPage struct {
	sheet
	Cards []sheetCard
	Table table.Table
}

func (p place) hides(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := hidesPage{sheet: s}
	for _, h := range s.Build.Hides {
		page.Cards = append(page.Cards, s.card(h))
	}
	page.Table = page.list()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-hides.csv", page.Table.Records())
	case "json":
		return r.JSON(s.Build.Hides)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d hides", len(page.Cards))}, showHides(page))
}

func (page hidesPage) list() table.Table {
	t := table.Table{ID: "hides", Caption: "Hides", Self: page.At() + "/hides", Empty: "No hide is on the list yet.", Columns: []table.Column{
		{Head: "Hide"}, {Head: "Material", Wide: true}, {Head: "Dye lot"}, {Head: "Area", Unit: "m²", Number: true}, {Head: "Outline", Wide: true},
		{Head: "Marks", Number: true}, {Head: "Pieces on it", Number: true}, {Head: "Laid", Unit: "%", Number: true}}}
	for i, c := range page.Cards {
		fig := gross(c.Hide)
		fig.Text = m2(c.Hide.Area)
		t.Rows = append(t.Rows, table.Row{Quiet: c.Hide.Refused, Cells: []table.Cell{
			table.Link(string(c.Hide.ID), page.hidePath(c.Hide.ID)), table.Text(c.Hide.Material), table.Text(c.Hide.Lot),
			table.Figure("area-"+strconv.Itoa(i), fig), table.Text(drawnWords(c.Hide)),
			table.Text(strconv.Itoa(len(c.Hide.Marks))), table.Text(strconv.Itoa(c.Count)), table.Text(fmt.Sprintf("%.0f", 100*c.Laid))}})
	}
	return t
}

// hidePage is one hide.
type hidePage struct {
	sheet
	sheetCard
	acts
	Marks table.Table
	Loss  stage.Loss
}

func (p place) hide(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	h, err := s.hide(r)
	if err != nil {
		return err
	}
	page := s.hidePage(*h)
	page.Open = r.Query("open")
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-marks-"+string(h.ID)+".csv", page.Marks.Records())
	case "json":
		return r.JSON(h)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "hide " + string(h.ID)}, showHide(page))
}

func (s sheet) hidePage(h build.Hide) hidePage {
	page := hidePage{sheet: s, sheetCard: s.card(h), Loss: stage.LossOf(s.Build, h.ID)}
	page.Drawing.Named = true
	page.Marks = page.marks()
	return page
}

// summary is what is wrong with one of the forms.
func (page hidePage) summary(form string) field.Errors {
	if page.Open != form {
		return nil
	}
	return page.Wrong
}

func markOptions(h build.Hide) []field.Option {
	var list []field.Option
	for _, m := range h.Marks {
		list = append(list, field.Option{Value: m.ID, Label: m.ID + " " + m.Kind})
	}
	return list
}

func takesOptions(picked string) []field.Option {
	return []field.Option{{Label: "nothing", Picked: picked == ""}, {Value: "C", Label: "hidden pieces: C", Picked: picked == "C"},
		{Value: "B", Label: "B and C", Picked: picked == "B"}, {Value: "A", Label: "any piece: only noted", Picked: picked == "A"}}
}

// marks lists the marks of the hide.
func (page hidePage) marks() table.Table {
	h := page.Hide
	t := table.Table{ID: "marks", Caption: "Marks on hide " + string(h.ID), Self: page.hidePath(h.ID), Empty: "No mark is noted.", Columns: []table.Column{
		{Head: "Mark"}, {Head: "Kind"}, {Head: "Size", Unit: "mm"}, {Head: "Centre", Unit: "mm"}, {Head: "May lie on it", Wide: true}, {Head: "Note", Wide: true}}}
	for _, m := range h.Marks {
		b := m.Shape.Polygon().Bounds()
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(m.ID), table.Text(m.Kind), table.Text(fmt.Sprintf("%.0f × %.0f", b.Width(), b.Height())),
			table.Text(fmt.Sprintf("%.0f, %.0f", (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2)), table.Text(strings.TrimSuffix(m.Takes(), " may lie on it")), table.Text(m.Note)}})
	}
	return t
}
