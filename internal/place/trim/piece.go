package trim

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
)

func (p place) pieceRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/trim/pieces", Who: web.Guest, Handle: p.pieces}}
}

type piecesPage struct {
	sheet
	Table table.Table
}

func (p place) pieces(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := piecesPage{s, s.pieceList()}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-pieces.csv", page.Table.Records())
	case "json":
		return r.JSON(s.Build.Pieces)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d pieces", len(s.Build.Pieces))}, showPieces(page))
}

// pieceList is every piece by material.
func (s sheet) pieceList() table.Table {
	t := table.Table{ID: "pieces", Caption: "Pieces, at cut size", Self: s.At() + "/pieces", Empty: "No piece is on the list yet.", Columns: []table.Column{
		{Head: "Piece"}, {Head: "Name", Wide: true}, {Head: "Shape"}, {Head: "Size", Unit: "mm"}, {Head: "Copies", Number: true}, {Head: "All", Unit: "m²", Number: true},
		{Head: "Grade"}, {Head: "Tight along"}, {Head: "Seen on", Wide: true}}}
	for _, p := range s.Build.Pieces {
		t.Rows = append(t.Rows, table.Row{ID: "piece-" + string(p.ID), Group: p.Material, Cells: []table.Cell{
			table.Link(string(p.ID), s.piecePath(p.ID)), table.Show(strings.TrimSuffix(p.Name+"; "+mateWords(p), "; "), nameAndMate(p)), table.Show(shapeWords(p), thumb(p)),
			table.Text(fmt.Sprintf("%.0f × %.0f", p.Width.Mm(), p.Height.Mm())), table.Text(strconv.Itoa(p.Quantity)), table.Text(m2(p.Area())),
			table.Text(p.Grade), table.Text(axisWords(p.Axis)), table.Text(p.Face)}})
	}
	return t
}

func shapeWords(p build.Piece) string {
	if p.Shape.Drawn() {
		return fmt.Sprintf("%d corners", len(p.Shape.Outer))
	}
	return "rectangle"
}

func axisWords(a build.Axis) string {
	if !a.Known() {
		return "any way"
	}
	return fmt.Sprintf("%g° ± %g°", a.Angle, a.Tolerance)
}

func mateWords(p build.Piece) string {
	switch {
	case p.Handed && p.Quantity > 1:
		return "left and right, one hide"
	case p.Pair != "":
		return string(p.Pair) + ", one hide"
	case p.Group != "":
		return p.Group + ", one hide"
	}
	return ""
}
