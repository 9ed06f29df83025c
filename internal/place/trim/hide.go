package trim

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	stage "fettle/stage/trim"
)

func (p place) hideRoutes() []web.Route {
	at := "/b/{build}/trim/hide"
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/hides", Who: web.Guest, Handle: p.hides},
		{Pattern: "GET " + at + "/{hide}", Who: web.Guest, Handle: p.hide},
	}
}

// hideCard is one hide as its card shows it.
type hideCard struct {
	Hide    build.Hide
	Drawing drawing
	Laid    float64 // share of the outline that pieces lie on
	Count   int
	Faults  []stage.Fault
}

// card gathers what is on a hide.
func (s sheet) card(h build.Hide) hideCard {
	c := hideCard{Hide: h}
	l := s.Build.LayoutOf(h.Material)
	if l != nil {
		c.Faults = stage.VerdictOf(s.Build, h.Material).Faults
	}
	c.Drawing = drawHide(h, stage.Cuts(s.Build, h.Material), l, c.Faults)
	c.Count = len(c.Drawing.Pieces)
	if h.Outline.Drawn() {
		for _, p := range c.Drawing.Pieces {
			c.Laid += p.Shape.Area()
		}
		c.Laid /= c.Drawing.Outline.Area()
	}
	return c
}

type hidesPage struct {
	sheet
	Cards []hideCard
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
			table.Show(fig.Text, working.Figure("area-"+strconv.Itoa(i), working.Inline, fig)), table.Text(drawnWords(c.Hide)),
			table.Text(strconv.Itoa(len(c.Hide.Marks))), table.Text(strconv.Itoa(c.Count)), table.Text(fmt.Sprintf("%.0f", 100*c.Laid))}})
	}
	return t
}

// hidePage is one hide.
type hidePage struct {
	sheet
	hideCard
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
	page := hidePage{sheet: s, hideCard: s.card(h), Loss: stage.LossOf(s.Build, h.ID)}
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
