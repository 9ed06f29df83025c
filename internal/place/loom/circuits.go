package loom

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
)

func (p place) circuitRoutes() []web.Route {
	at := "/b/{build}/loom"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.circuits},
		{Pattern: "POST " + at + "/circuits", Who: web.Crew, Handle: p.setCircuits},
		{Pattern: "POST " + at + "/try", Who: web.Crew, Handle: p.tryCircuits},
	}
}

// line is a circuit in the list: what is typed of it, and what follows.
type line struct {
	Group   string // it stands under
	Circuit build.Circuit
	Typed   map[string]string // by column
	Found   []stage.Row       // worked out: of its wires, where it has a net
}

// worst is the run that loses most of what it may.
func (l line) worst() (row stage.Row) {
	for i, r := range l.Found {
		if i == 0 || r.DropV*row.DropMaxV > row.DropV*r.DropMaxV {
			row = r
		}
	}
	return row
}

// listPage is the circuits to work down.
type listPage struct {
	sheet
	Lines   []line
	View    listView
	Flagged int               // of all lines
	Fresh   map[string]string // the last row, as typed
	Sent    map[string]string // what the page that was sent shows of its lines, see line.print
	Errors  field.Errors
	Table   table.Table
}

func (p place) circuits(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	if s.Wrong == nil {
		p.led.put(s.Mark, s.Loom)
	}
	page := s.list().seen(viewOf(r.Asked()))
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-circuits.csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"circuits": s.Build.Circuits, "loom": s.Loom})
	}
	return p.desk.Page(r, page.web(), showCircuits(page))
}

func (page listPage) web() web.Sheet {
	return web.Sheet{Place: "loom", Shown: plural(len(page.Lines), "circuit"), Scripts: []string{rowsScript}}
}

// list sets the page up from the facts.
func (s sheet) list() listPage {
	page := listPage{sheet: s}
	for _, c := range s.Build.Circuits {
		l := line{Circuit: c, Typed: typedOf(c)}
		l.Found = s.of(c.ID)
		page.Lines = append(page.Lines, l)
	}
	page.Table = page.table()
	return page
}

// columns are the fields of a line, as they stand from left to right.
var columns = []string{"length", "load", "duty", "colour", "fuse"}

// typedOf is a circuit as its fields have it.
func typedOf(c build.Circuit) map[string]string {
	return map[string]string{"length": number(c.Length.Mm() / 1000), "load": number(c.Load), "duty": c.Duty, "colour": c.Colour, "fuse": fuseText(c)}
}

func fuseText(c build.Circuit) string {
	if c.FuseA == 0 {
		return c.Fuse
	}
	return c.Fuse + " " + number(c.FuseA)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

// table is the list for files and paper.
func (page listPage) table() table.Table {
	t := table.Table{ID: "circuits", Caption: "Circuits", Self: page.here(), Columns: []table.Column{
		{Head: "No."}, {Head: "Circuit", Wide: true}, {Head: "From", Wide: true}, {Head: "To", Wide: true}, {Head: "Length", Unit: "m", Number: true},
		{Head: "Load", Unit: "A", Number: true}, {Head: "Duty"}, {Head: "Colour"}, {Head: "Fuse"}, {Head: "Section", Unit: "mm²", Number: true},
		{Head: "Decided by"}, {Head: "Drop", Unit: "V", Number: true}, {Head: "Allowed", Unit: "V", Number: true}, {Head: "Labels", Wide: true}}}
	for _, l := range page.Lines {
		c := l.Circuit
		cells := []table.Cell{table.Text(c.ID), table.Text(c.Name), table.Text(c.From), table.Text(c.To), table.Text(l.Typed["length"]), table.Text(l.Typed["load"]),
			table.Text(dutyWord(c.Duty)), table.Text(c.Colour), table.Text(l.Typed["fuse"])}
		if len(l.Found) > 0 {
			f := l.worst()
			cells = append(cells, table.Text(f.Section), table.Text(string(f.Rule)), table.Text(volts(f.DropV)), table.Text(volts(f.DropMaxV)), table.Text(page.labelWord(c.ID)))
		}
		t.Rows = append(t.Rows, table.Row{Group: l.Group, Cells: cells})
	}
	return t
}

func volts(v float64) string { return fmt.Sprintf("%.2f", v) }

var duties = []field.Option{{Value: "cont", Label: "for long"}, {Value: "int", Label: "now and then"}, {Value: "short", Label: "seconds"}}

func dutyWord(duty string) string {
	for _, o := range duties {
		if o.Value == duty {
			return o.Label
		}
	}
	return duty
}

// section is the chosen section with its working.
func section(r stage.Row) figure.Figure {
	f := r.Working
	f.Text = r.Section
	return f
}

// fails says what the chosen size breaks.
func fails(r stage.Row) string {
	words := make([]string, len(r.Fails))
	for i, f := range r.Fails {
		words[i] = string(f)
	}
	return strings.Join(words, ", ")
}
