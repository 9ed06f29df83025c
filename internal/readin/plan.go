package readin

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
)

// Options are what a list does not say by itself.
type Options struct {
	MonthFirst   bool          // 6/10/2026 is 10 June
	AllOrNothing bool          // one bad row holds back every change
	Unit         string        // of bare sizes: mm (default), cm, m, in or ft
	Decimal      byte          // the decimal mark, ',' or '.'; 0 finds it out
	Found        string        // when findings were found, where no column says so
	Trade        build.TradeID // of hours of a finding without a trade
	Task         build.TaskID  // where no column or panel names the task
}

// Status is the verdict on a row.
type Status string

// The verdicts.
const (
	Good    Status = "good"
	Bad     Status = "bad"
	Skipped Status = "skipped"
)

// Row is the verdict on one row of the list.
type Row struct {
	Line   int      `json:"line"`
	Text   string   `json:"text"` // the row as it was read, cut to a line
	Status Status   `json:"status"`
	Says   string   `json:"says,omitempty"`   // of a good row: what its change does
	Reason string   `json:"reason,omitempty"` // of a bad or skipped row
	Field  string   `json:"field,omitempty"`  // of a bad row: the field at fault
	Hint   string   `json:"hint,omitempty"`   // what to do
	Notes  []string `json:"notes,omitempty"`  // what was taken for granted
}

// Result is what a list would do.
type Result struct {
	Changes []build.Change // in the order of the rows; they apply one after another
	Rows    []Row
	Good    int
	Bad     int
	Skipped int
	Held    bool    // AllOrNothing held the changes back
	Mapping Mapping // as used: headings that name nobody are among Unused
	Notes   []Note
}

// Plan turns rows into changes. Each is applied to a copy of b in order, so
// that what a row breaks shows up on that row and not when the list is kept.
func Plan(b build.Build, kind Kind, s Sheet, m Mapping, o Options) Result {
	m.Kind = kind
	p := newPlanner(b, s, m, o)
	res := Result{Mapping: p.m, Notes: slices.Concat(s.Notes, p.notes)}
	for i, cells := range s.Rows {
		row, change := p.row(s.Lines[i], cells)
		switch row.Status {
		case Good:
			res.Good++
			res.Changes = append(res.Changes, change)
		case Bad:
			res.Bad++
		default:
			res.Skipped++
		}
		res.Rows = append(res.Rows, row)
	}
	if o.AllOrNothing && res.Bad > 0 {
		res.Held, res.Changes = true, nil
	}
	return res
}

// planner holds what all rows share: the copy that changes are tried on, and
// what is known by name.
type planner struct {
	work  build.Build
	m     Mapping
	o     Options
	n     numeral
	cols  map[string]Column
	notes []Note
	names names
	lines map[string]int          // "finding F32" -> the line of this list that brought it
	same  map[string]string       // what a thing says -> its number, to find doubles
	next  map[string]int          // highest number in use by prefix
	ends  map[string]int64        // person and day -> end of the last line without a start
	parts map[build.PartID]string // names of parts that this list brought
	read  func(*rowReader) (c build.Change, keep func())
}

func newPlanner(b build.Build, s Sheet, m Mapping, o Options) *planner {
	if o.Unit == "" {
		o.Unit = "mm"
	}
	if o.Decimal == 0 && s.Separator != "workbook" {
		o.Decimal = decimalMark(s.Rows)
	}
	p := &planner{work: b.Clone(), o: o, n: numeral{mark: o.Decimal, group: ","}, cols: map[string]Column{},
		lines: map[string]int{}, same: map[string]string{}, next: map[string]int{}, ends: map[string]int64{},
		parts: map[build.PartID]string{}}
	p.names = newNames(&p.work)
	p.m = p.keepKnown(m)
	for _, c := range p.m.Columns {
		if c.Of == "" {
			p.cols[c.Field] = c
		}
	}
	switch m.Kind {
	case Panels:
		p.read = p.panel
	case Findings:
		p.findOut(s)
		p.read = p.finding
	case Parts:
		p.read = p.part
	case Hours:
		p.read = p.hours
	}
	p.learn(s)
	return p
}

// keepKnown drops columns that only looked like the initials of a trade or a
// person, and makes the others name theirs by number.
func (p *planner) keepKnown(m Mapping) Mapping {
	columns := make([]Column, 0, len(m.Columns))
	for _, c := range m.Columns {
		if c.Of != "" {
			id, _, ok := p.names.of(m.Kind, c.Of)
			if !ok && !c.Sure {
				continue
			}
			if ok {
				c.Of = id
			}
		}
		columns = append(columns, c)
	}
	m.Columns = columns
	m.settle()
	return m
}

// row reads one row, tries its change and, where it holds, keeps in mind what
// it brings.
func (p *planner) row(line int, cells []string) (Row, build.Change) {
	r := &rowReader{p: p, cells: cells, Row: Row{Line: line, Text: rowText(cells)}}
	if why := r.idle(); why != "" {
		r.Status, r.Reason = Skipped, why
		return r.Row, nil
	}
	if p.read == nil {
		r.fail("", invalid("there is no kind of list called %q", p.m.Kind))
		return r.Row, nil
	}
	for _, field := range p.m.Missing {
		if field == "person" { // who worked can stand with the hours
			continue
		}
		r.fail(field, invalid("the list has no column for %s", field).WithHint("say which heading holds it"))
	}
	if r.Status == Bad {
		return r.Row, nil
	}
	c, keep := p.read(r)
	if r.Status == Bad {
		return r.Row, nil
	}
	says := c.Say(&p.work)
	if err := p.try(c); err != nil {
		r.fail(p.written(fieldOf(err)), err)
		return r.Row, nil
	}
	r.Status, r.Says = Good, says
	keep()
	return r.Row, c
}

// try applies a change to the copy. What a row adds to a list is taken off
// again, so that a long list does not slow down with every row: rows depend on
// each other only by their numbers, which the planner watches itself, and by
// the decisions of panels, which stay.
func (p *planner) try(c build.Change) error {
	w := &p.work
	panels, findings, parts, hours := w.Panels, w.Findings, w.Parts, w.Hours
	err := c.Apply(w)
	w.Panels, w.Findings, w.Parts, w.Hours = panels, findings, parts, hours
	return err
}

// fieldOf returns the field that a fault of the build means, from the last
// part of its place: "finding F32, width_mm" means width.
func fieldOf(err error) string {
	f, ok := errors.AsType[*fault.Fault](err)
	if !ok {
		return ""
	}
	last := f.Where[strings.LastIndex(f.Where, ", ")+1:]
	last = strings.TrimSpace(last)
	for _, unit := range []string{"_mm", "_h", "_days", "_m2"} {
		last = strings.TrimSuffix(last, unit)
	}
	for _, n := range [...]struct{ theirs, ours string }{{"panels", "panel"}, {"unit_price", "price"}, {"needed_for", "task"},
		{"metal_task", "task"}, {"panel_decision", "decision"}, {"worked", "hours"}, {"areas", "area"}} {
		if last == n.theirs {
			return n.ours
		}
	}
	if strings.HasPrefix(last, "line ") {
		return "hours"
	}
	if slices.ContainsFunc(Kinds(), func(k Kind) bool { return slices.Contains(fieldNames(k), last) }) {
		return last
	}
	return ""
}

// written returns the field of the list that a field of the build was read
// from: a width may stand in a column of sizes or of diameters.
func (p *planner) written(field string) string {
	if _, ok := p.cols[field]; ok || field != "width" && field != "height" && field != "count" {
		return field
	}
	for _, other := range []string{"size", "diameter"} {
		if _, ok := p.cols[other]; ok {
			return other
		}
	}
	return field
}

// rowText joins the cells of a row for people, at most 160 characters.
func rowText(cells []string) string {
	var b strings.Builder
	for i, c := range cells {
		if i > 0 {
			b.WriteString(" | ")
		}
		b.WriteString(c[:min(len(c), 160)])
		if b.Len() > 160 {
			break
		}
	}
	text := []rune(strings.ToValidUTF8(strings.Join(strings.Fields(b.String()), " "), ""))
	if len(text) > 160 {
		return string(text[:159]) + "…"
	}
	return string(text)
}

// lineOrBuild says where a thing that is there already came from.
func (p *planner) lineOrBuild(thing string) string {
	if line, ok := p.lines[thing]; ok {
		return fmt.Sprintf("%s is on line %d already", thing, line)
	}
	return thing + " is in the build already"
}
