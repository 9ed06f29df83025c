package trim

import (
	"cmp"
	"fmt"
	"net/url"
	"slices"
	"strconv"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/trim"
)

func (p place) patternRoutes() []web.Route {
	at := "/b/{build}/trim/pattern"
	return []web.Route{
		{Pattern: "GET " + at + "s", Who: web.Guest, Handle: p.patternSet},
		{Pattern: "GET " + at + "s/file", Who: web.Guest, Handle: p.patternFile},
		{Pattern: "GET " + at + "/{piece}", Who: web.Guest, Handle: p.pattern},
		{Pattern: "GET " + at + "/{piece}/file", Who: web.Guest, Handle: p.patternFile},
	}
}

func (s sheet) patternPath(id build.PieceID) string {
	return s.At() + "/pattern/" + url.PathEscape(string(id))
}

// setPage is the pattern set.
type setPage struct {
	sheet
	Sheets []stage.PatternSheet
	Table  table.Table
	Bare   []build.Piece // without a pattern
}

func (p place) patternSet(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := setPage{sheet: s}
	if page.Sheets, err = stage.PatternSheets(s.Build); err != nil {
		return err
	}
	for _, one := range s.Build.Pieces {
		if s.Build.Pattern(one.ID) == nil {
			page.Bare = append(page.Bare, one)
		}
	}
	page.Table = page.list()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-pattern-set.csv", page.Table.Records())
	case "json":
		return r.JSON(page.Sheets)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d patterns", len(page.Sheets))}, showSet(page))
}

// byMaterial are the patterns that count, those of one material together, in the
// order in which materials first come.
func (page setPage) byMaterial() []stage.PatternSheet {
	first := map[string]int{}
	for i, one := range page.Sheets {
		if _, ok := first[one.Piece.Material]; !ok {
			first[one.Piece.Material] = i
		}
	}
	list := slices.Clone(page.Sheets)
	slices.SortStableFunc(list, func(a, b stage.PatternSheet) int {
		return cmp.Compare(first[a.Piece.Material], first[b.Piece.Material])
	})
	return list
}

// list is every pattern that counts, by material.
func (page setPage) list() table.Table {
	t := table.Table{ID: "patterns", Caption: "Patterns, net and at cut size", Self: page.At() + "/patterns", Empty: "No piece has a pattern yet.", Columns: []table.Column{
		{Head: "Piece"}, {Head: "Name", Wide: true}, {Head: "Revision", Number: true}, {Head: "Copies", Number: true}, {Head: "Sewn", Unit: "m²", Number: true}, {Head: "Cut", Unit: "m²", Number: true}, {Head: "Its seams", Unit: "mm", Wide: true}}}
	for i, one := range page.byMaterial() {
		cut, sewn := one.Figures()
		cut.Text, sewn.Text = fmt.Sprintf("%.4f", one.Drawn.Area), fmt.Sprintf("%.4f", one.Drawn.Sewn)
		t.Rows = append(t.Rows, table.Row{Group: one.Piece.Material, Cells: []table.Cell{
			table.Link(one.Drawn.Piece, page.patternPath(one.Piece.ID)), table.Show(one.Piece.Name+"; "+page.fromWords(one.Pattern), withSmall(one.Piece.Name, page.fromWords(one.Pattern))), table.Text(strconv.Itoa(one.Pattern.Revision)), table.Text(strconv.Itoa(one.Piece.Quantity)),
			table.Figure(fmt.Sprintf("sewn-%d", i), sewn), table.Figure(fmt.Sprintf("cut-%d", i), cut), table.Text(fitWords(one))}})
	}
	return t
}

// fromWords says where a pattern came from, and whether that has moved on.
func (s sheet) fromWords(p build.Pattern) string {
	switch p.Source.Kind {
	case build.FromSurface:
		words := "surface " + string(p.Source.Surface)
		if one := s.Build.Surface(p.Source.Surface); one != nil && one.Scan != p.Source.Scan {
			words += ", an older scan: lay it flat again"
		}
		return words
	case build.FromPhoto:
		return "a photo"
	case build.FromFile:
		return p.Source.File
	}
	return "entered by hand"
}

func fitWords(one stage.PatternSheet) string {
	words := ""
	for i, f := range one.Fits {
		if i > 0 {
			words += "; "
		}
		words += fmt.Sprintf("%s %.0f", f.Seam, f.A)
		if !f.Fits {
			words += " does not fit"
		}
	}
	return words
}

// sheetsOf is the pattern that the request names, drawn; of a handed piece both
// hands.
func (s sheet) sheetsOf(r *web.Request) ([]stage.PatternSheet, error) {
	id := build.PieceID(r.Path("piece"))
	all, err := stage.PatternSheets(s.Build)
	if err != nil {
		return nil, err
	}
	all = slices.DeleteFunc(all, func(one stage.PatternSheet) bool { return one.Piece.ID != id })
	if len(all) > 0 {
		return all, nil
	}
	if s.Build.Piece(id) == nil {
		return nil, fault.New(fault.NotFound, "there is no piece %q", id)
	}
	return nil, fault.New(fault.NotFound, "piece %s has no pattern yet", id).WithHint("Enter its sewn line, or lay a surface flat and keep it as its pattern.")
}
