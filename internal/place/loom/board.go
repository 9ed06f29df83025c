package loom

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

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
	"fettle/unit"
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
	Zoom  int
	Drawn boardDrawing
	Faces []facePicture
	Files []boardLink
	Sizes []stage.BoardSize // where they are asked for
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
	page.Zoom = 1
	for _, z := range zooms {
		if r.Query("zoom") == strconv.Itoa(z) {
			page.Zoom = z
		}
	}
	if page.Laid {
		page.Drawn, page.Faces, page.Files = page.draw(), page.faces(), page.files()
		if r.Query("sizes") != "" {
			page.Sizes, page.Fault = stage.BoardSizes(r.Context(), s.Build, s.Loom)
		}
	}
	page.Table = page.places()
	return page, nil
}

// zooms are how large the drawing is shown, by the width of the page.
var zooms = []int{1, 2, 4}

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

// boardPens draw the loom whole, the board and marks fine.
var boardPens = map[string]pdf.Pen{"loom": {Width: 0.6}, "bundles": {Width: 0.15}, "board": {Width: 0.25, Dash: 6}, "pegs": {Width: 0.25}, "connectors": {Width: 0.35}, "splices": {Width: 0.35}, "covers": {Width: 0.15}, "datums": {Width: 0.2}, "labels": {Width: 0.18}}

// boardLink is a file of the board, in words.
type boardLink struct{ Says, Query string }

// files are the board on every paper that it goes on, with how many pages it takes.
func (page boardPage) files() []boardLink {
	list := []boardLink{}
	for _, x := range [][2]string{{"A4", "a4"}, {"A3", "a3"}, {"A0", "a0"}, {"one page", "one"}} {
		on, err := pdf.ParsePaper(x[1])
		if err != nil {
			continue
		}
		if n, err := pdf.Count(page.printed(), on); err == nil && (n > 1 || x[1] == "one") {
			says := "PDF on one page"
			if n > 1 {
				says = fmt.Sprintf("PDF, %d tiles of %s and a map", n, x[0])
			}
			list = append(list, boardLink{says, "form=pdf&paper=" + x[1]})
		}
	}
	return append(list, boardLink{"DXF", "form=dxf"}, boardLink{"SVG", "form=svg"})
}

// printed is the board as it goes on paper: its own edge would only make pages.
func (page boardPage) printed() pdf.Sheet {
	plan := boardPlan(page.Board)
	plan.Outlines = slices.DeleteFunc(plan.Outlines, func(o outline.Outline) bool { return o.Layer == "board" })
	return pdf.Sheet{Title: page.Build.Title + ", loom, board drawing", Plan: plan, Map: true}
}

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
	name := r.Build() + "-loom-board"
	if r.Query("form") == "pdf" {
		return shapeout.Printed(r, name+".pdf", []pdf.Sheet{page.printed()}, boardPens)
	}
	return shapeout.Drawing(r, name, page.printed().Title, boardPlan(page.Board), boardPens)
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
	if w, h, ok := strings.Cut(f.Raw("board"), "x"); ok { // one of whole sheets
		set.BoardWidth, set.BoardHeight = side(w), side(h)
	} else {
		set.BoardWidth, set.BoardHeight = boardSide(f, "width"), boardSide(f, "height")
	}
	act := &build.SetLoom{Settings: set}
	desk.Holds(f, page.Build, "width", act)
	if f.Err() != nil {
		page.Wrong, page.raw = f.Errors, f.Raw
		return r.Invalid(page.web(), showBoard(page))
	}
	return p.desk.Propose(r, page.At()+"/board", act)
}

// side reads a side of a board of whole sheets; what is none of them is none.
func side(text string) unit.Length {
	for _, s := range stage.WholeSheets() {
		for _, mm := range [2]float64{s.Width, s.Height} {
			if text == fmt.Sprintf("%.0f", mm) {
				return unit.Length(mm) * unit.Millimetre
			}
		}
	}
	return 0
}

func (page boardPage) field(name, label, now string) field.Params {
	p := field.Params{Name: name, Label: label, Value: now, Unit: "mm", Mode: "decimal", Short: true, Error: page.Wrong.Of(name)}
	if page.raw != nil {
		p.Value = page.raw(name)
	}
	return p
}
