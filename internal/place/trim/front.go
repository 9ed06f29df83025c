package trim

import (
	"fmt"
	"strconv"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	stage "fettle/stage/trim"
	"fettle/takeoff"
	"fettle/unit"
)

func (p place) frontRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/trim", Who: web.Guest, Handle: p.show}}
}

// front is what every material takes and what is there of it.
type front struct {
	sheet
	Needs  []stage.Need
	Checks []takeoff.Check
	Table  table.Table
}

func (p place) show(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f := front{sheet: s, Needs: stage.Needs(s.Build), Checks: stage.Checks(s.Build)}
	f.Table = f.needs()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-trim-needs.csv", f.Table.Records())
	case "json":
		return r.JSON(map[string]any{"needs": f.Needs, "checks": f.Checks, "layouts": s.Build.Layouts})
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d materials, %d hides", len(f.Needs), len(s.Build.Hides))}, frontPage(f))
}

// needs is the table of materials.
func (f front) needs() table.Table {
	t := table.Table{ID: "needs", Caption: "What the pieces take, by material", Self: f.At(), Empty: "No piece is on the list yet.", Columns: []table.Column{
		{Head: "Material", Wide: true}, {Head: "Pieces", Number: true}, {Head: "Not laid yet", Number: true}, {Head: "Net", Unit: "m²", Number: true},
		{Head: "Takes", Wide: true}, {Head: "There", Wide: true}, {Head: "By grade", Unit: "m²", Wide: true}}}
	for i, n := range f.Needs {
		fig := n.Figure
		fig.Text = m2(n.Net)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Link(n.Material, f.layPath(n.Material)), table.Text(strconv.Itoa(n.Pieces)), table.Text(f.unlaid(n)),
			table.Show(m2(n.Net), working.Figure("net-"+strconv.Itoa(i), working.Inline, fig)), f.takes(i, n), table.Text(f.there(n)), table.Text(grades(n.Grades))}})
	}
	return t
}

func m2(a unit.Area) string { return fmt.Sprintf("%.2f", a.M2()) }

func grades(list []stage.GradeArea) string {
	text := ""
	for i, g := range list {
		if i > 0 {
			text += ", "
		}
		text += g.Grade + " " + m2(g.Area)
	}
	return text
}

// takes is what to have of a material, with its working.
func (f front) takes(i int, n stage.Need) table.Cell {
	id := "takes-" + strconv.Itoa(i)
	fig := n.Figure
	switch {
	case n.Roll != "":
		fig.Text = fmt.Sprintf("%.2f m, buy %d m", n.Length.Mm()/1000, n.Metres)
	case n.Have > 0:
		fig.Text = fmt.Sprintf("%.0f %%", 100*n.Used)
		return table.Show(fig.Text+" of what they can give", withWords(id, fig, "of what "+hidesWord(n.Have)+" can give"))
	default:
		return table.Text("not by hide or metre")
	}
	return table.Figure(id, fig)
}

func (f front) there(n stage.Need) string {
	switch {
	case n.Roll != "" && n.Have == 0:
		return "none on the list"
	case n.Roll != "":
		return fmt.Sprintf("%d m on the list", n.Have)
	case n.Have == 0:
		return ""
	}
	text := hidesWord(n.Have)
	for i, lot := range stage.Lots(f.Build, n.Material) {
		text += [...]string{", lot ", " and "}[min(i, 1)] + lot
	}
	return text
}

func hidesWord(n int) string {
	if n == 1 {
		return "1 hide"
	}
	return fmt.Sprintf("%d hides", n)
}

func piecesWord(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}

// unlaid counts the copies that the kept plan does not place.
func (f front) unlaid(n stage.Need) string {
	left := n.Pieces
	if l := f.Build.LayoutOf(n.Material); l != nil {
		left -= len(l.Placed)
	}
	if left == n.Pieces {
		return "all " + strconv.Itoa(left)
	}
	return strconv.Itoa(left)
}

// drawnWords says of a hide whether it can be laid on.
func drawnWords(h build.Hide) string {
	switch {
	case h.Refused:
		return "refused: " + h.Why
	case !h.Outline.Drawn():
		return "not drawn yet"
	}
	return fmt.Sprintf("drawn to within %s", h.OutlineError)
}

// gross is the drawn area beside the tannery's.
func gross(h build.Hide) figure.Figure {
	f := figure.Figure{Name: "area of hide " + string(h.ID), Text: h.Area.String(), Formula: "as the tannery measured it",
		Inputs: []figure.Input{{Name: "tannery", Value: h.Area.String(), Source: figure.Sheet}}}
	if h.Outline.Drawn() {
		f.Inputs = append(f.Inputs, figure.Input{Name: "outline as drawn", Value: h.Outline.Area().String(), Source: figure.Measured, Note: "line to within " + h.OutlineError.String()})
		f.With = fmt.Sprintf("%s by the tannery, %s as drawn: %+.1f %%", h.Area, h.Outline.Area(), 100*(h.Outline.Area().M2()/h.Area.M2()-1))
	}
	return f
}
