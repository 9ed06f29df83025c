package loom

import (
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/internal/desk"
	"fettle/internal/shapeout"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
)

func (p place) boardRoutes() []web.Route {
	at := "/b/{build}/loom/board"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.board},
		{Pattern: "GET " + at + "/drawing", Who: web.Guest, Handle: p.boardFile},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.sizeBoard},
	}
}

// boardPage is the loom laid flat.
type boardPage struct {
	sheet
	Board stage.Board
	Laid  bool
	Fault error
	Drawn boardDrawing
	Table table.Table
	Wrong field.Errors
	raw   func(string) string
}

func (p place) board(r *web.Request) error {
	page, err := p.boardOf(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-board.csv", page.Table.Records())
	case "json":
		return r.JSON(page.Board)
	}
	return p.desk.Page(r, page.web(), showBoard(page))
}

func (page boardPage) web() web.Sheet {
	return web.Sheet{Place: "loom", Shown: "the board, 1:1 on file"}
}

func (p place) boardOf(r *web.Request) (boardPage, error) {
	s, err := p.load(r)
	if err != nil {
		return boardPage{}, err
	}
	page := boardPage{sheet: s}
	page.Board, page.Laid, page.Fault = stage.BoardOf(r.Context(), s.Build, s.Loom)
	if page.Laid {
		page.Drawn = drawBoard(page.Board)
	}
	page.Table = page.places()
	return page, nil
}

// places lists the breakouts and ends with where they lie from the datum.
func (page boardPage) places() table.Table {
	t := table.Table{ID: "places", Caption: "Breakouts and ends, from the datum along the loom", Self: page.At() + "/board", Empty: "Nothing is laid yet.", Columns: []table.Column{
		{Head: "No."}, {Head: "Place", Wide: true}, {Head: "From the datum", Unit: "mm", Number: true}, {Head: "May be off by", Unit: "mm", Number: true}, {Head: "On the board", Unit: "mm"}}}
	for _, x := range page.Board.Places {
		name := page.placeName(x.Node)
		if x.Datum {
			name += ": the datum"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(x.Node), table.Text(name), table.Text(fmt.Sprintf("%.0f", x.From)), table.Text("± " + number(x.Tolerance)), table.Text(fmt.Sprintf("%.0f, %.0f", x.At.X, x.At.Y))}})
	}
	return t
}

// mostPage is the longest side of a page of PDF in mm.
const mostPage = 5000

// onePage tells whether the board goes on one page.
func (page boardPage) onePage() bool {
	return page.Board.Width < mostPage && page.Board.Height < mostPage
}

// boardPens draw the loom whole, the board and marks fine.
var boardPens = map[string]pdf.Pen{"loom": {Width: 0.6}, "board": {Width: 0.25, Dash: 6}, "pegs": {Width: 0.25}, "connectors": {Width: 0.35}, "splices": {Width: 0.35}, "covers": {Width: 0.18}, "datums": {Width: 0.25, Dash: 3}, "labels": {Width: 0.18}}

// boardFile answers with the board at true size: PDF tiles with a bar of
// 100 mm on each, DXF or SVG.
func (p place) boardFile(r *web.Request) error {
	page, err := p.boardOf(r)
	if err != nil {
		return err
	}
	if !page.Laid {
		return fault.New(fault.NotFound, "no route is drawn, so there is nothing to lay on the board")
	}
	return shapeout.Drawing(r, r.Build()+"-loom-board", page.Build.Title+", loom, board drawing", boardPlan(page.Board), boardPens)
}

// boardPlan is the drawing as lines on layers.
func boardPlan(b stage.Board) outline.Plan {
	var plan outline.Plan
	for _, l := range b.Lines {
		plan.Outlines = append(plan.Outlines, outline.Outline{Layer: l.Layer, Closed: l.Closed, Points: l.Points})
	}
	for _, t := range b.Texts {
		plan.Labels = append(plan.Labels, outline.Label{Layer: t.Layer, Text: t.Text, At: t.At, Height: t.Height})
	}
	return plan
}

// sizeBoard says how large the board is.
func (p place) sizeBoard(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.boardOf(r)
	if err != nil {
		return err
	}
	set := page.Build.Loom.Settings
	set.BoardWidth, set.BoardHeight = boardSide(f, "width"), boardSide(f, "height")
	act := &build.SetLoom{Settings: set}
	desk.Holds(f, page.Build, "width", act)
	if f.Err() != nil {
		page.Wrong, page.raw = f.Errors, f.Raw
		return r.Invalid(page.web(), showBoard(page))
	}
	return p.desk.Propose(r, page.At()+"/board", act)
}

func (page boardPage) field(name, label, now string) field.Params {
	p := field.Params{Name: name, Label: label, Value: now, Unit: "mm", Mode: "decimal", Short: true, Error: page.Wrong.Of(name)}
	if page.raw != nil {
		p.Value = page.raw(name)
	}
	return p
}
