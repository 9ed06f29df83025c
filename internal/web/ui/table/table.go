// Package table draws lists: numbers right-aligned in tabular figures with the
// unit in the heading, a caption, and links to the same list as paper, as a
// file and as JSON.
package table

import (
	"github.com/a-h/templ"

	"fettle/figure"
	"fettle/internal/web/ui/working"
)

// Column is a column of a table.
type Column struct {
	Head   string
	Unit   string // stands in the heading, not in the cells
	Number bool   // right-aligned, tabular
	Wide   bool   // may break into lines; others stay on one
}

// Cell is one cell. Text is what a file holds; Show, when set, is drawn instead.
type Cell struct {
	Text string
	Href string
	Show templ.Component
}

// Row is a row with its cells in the order of the columns.
type Row struct {
	ID    string // becomes the row's id, for links; may be empty
	Group string // a heading stands before the first row of a new group; may be empty
	Cells []Cell
	Quiet bool // done with: drawn lighter
}

// Table is a list.
type Table struct {
	ID      string // unique on the page
	Caption string
	Columns []Column
	Rows    []Row
	Foot    []Cell // sums; may be empty
	Self    string // address of the page, to which ?as=csv and the like are added; empty for no links
	Paper   string // address of the printable sheet; empty to print the page itself
	Empty   string // what to say when there are no rows
}

// Text makes a plain cell.
func Text(s string) Cell { return Cell{Text: s} }

// Link makes a cell that leads somewhere.
func Link(s, href string) Cell { return Cell{Text: s, Href: href} }

// Show makes a cell that is drawn by a component and written to files as text.
func Show(text string, c templ.Component) Cell { return Cell{Text: text, Show: c} }

// Figure is a cell of a number that opens its working. The id is unique on the
// page.
func Figure(id string, f figure.Figure) Cell {
	return Show(f.Text, working.Figure(id, working.Inline, f))
}

// Records are the rows as a file holds them, headings first.
func (t Table) Records() [][]string {
	head := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		head[i] = c.full()
	}
	out := [][]string{head}
	for _, r := range t.Rows {
		cells := make([]string, len(r.Cells))
		for i, c := range r.Cells {
			cells[i] = c.Text
		}
		out = append(out, cells)
	}
	return out
}

func (c Column) full() string {
	if c.Unit == "" {
		return c.Head
	}
	return c.Head + ", " + c.Unit
}

func (c Column) class() string {
	switch {
	case c.Number:
		return "right num"
	case c.Wide:
		return "wide"
	}
	return ""
}

// opens tells whether a group heading stands before row i.
func (t Table) opens(i int) bool {
	return t.Rows[i].Group != "" && (i == 0 || t.Rows[i-1].Group != t.Rows[i].Group)
}
