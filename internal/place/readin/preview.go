package readin

import (
	"fmt"
	"net/url"
	"strconv"

	"fettle/build"
	lists "fettle/internal/readin"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

// look is a list with what every row would do.
type look struct {
	Base    string
	ID      string
	Kind    lists.Kind
	List    lists.Sheet
	Result  lists.Result
	Fields  []choice
	All     bool // only if all rows are good
	Unit    string
	Month   bool
	Query   url.Values
	Entry   string
	Rows    table.Table
	Missing []string
}

// choice is a field of the kind with the column it is read from.
type choice struct {
	Name, What string
	Need       bool
	At         int // from 1; 0 is none
}

func (p *place) preview(r *web.Request) error {
	l, err := p.look(r, r.HTTP().URL.Query())
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(l.Result)
	}
	if r.As() == "csv" {
		return r.CSV("rows.csv", l.Rows.Records())
	}
	return p.desk.Page(r, sheet(fmt.Sprintf("%d of %d rows are good", l.Result.Good, len(l.Result.Rows))), showLook(l))
}

// look works out what the list on the table would do, with a person's choices.
func (p *place) look(r *web.Request, q url.Values) (look, error) {
	l := look{Base: "/b/" + r.Build(), ID: q.Get("list"), Kind: lists.Kind(q.Get("kind")), All: q.Get("all") != "", Unit: q.Get("unit"),
		Month: q.Get("month-first") != "", Query: q, Entry: field.NewEntry()}
	var err error
	if l.List, err = p.onTable(owner(r), l.ID); err != nil {
		return l, err
	}
	b, _, err := p.desk.Drafted(r)
	if err != nil {
		return l, err
	}
	mapping := lists.Match(l.Kind, l.List.Heads)
	if q.Has("chosen") {
		if mapping, err = mapping.Choose(choicesOf(l.Kind, q)); err != nil {
			return l, err
		}
	}
	l.Result = lists.Plan(b, l.Kind, l.List, mapping, lists.Options{MonthFirst: l.Month, AllOrNothing: l.All, Unit: l.Unit, Found: foundNow(&b)})
	l.Missing = l.Result.Mapping.Missing
	l.Fields = fields(l.Kind, mapping)
	l.Rows = rowTable(l)
	return l, nil
}

// choicesOf reads which column a person chose for each field.
func choicesOf(kind lists.Kind, q url.Values) map[string]string {
	out := map[string]string{}
	for _, f := range lists.Fields(kind) {
		if !q.Has("map-" + f.Name) {
			continue
		}
		out[f.Name] = q.Get("map-" + f.Name)
		if out[f.Name] == "0" {
			out[f.Name] = ""
		}
	}
	return out
}

func fields(kind lists.Kind, m lists.Mapping) []choice {
	var out []choice
	for _, f := range lists.Fields(kind) {
		c := choice{Name: f.Name, What: f.What, Need: f.Need}
		for _, col := range m.Columns {
			if col.Field == f.Name && col.Of == "" {
				c.At = col.At + 1
			}
		}
		out = append(out, c)
	}
	return out
}

// mostShown is how many rows a page shows; the file of all rows has them all.
const mostShown = 500

func rowTable(l look) table.Table {
	t := table.Table{ID: "rows", Caption: caption(l.Result), Self: l.Base + "/read-in/preview?" + l.Query.Encode(), Empty: "The list has headings but no rows.",
		Columns: []table.Column{{Head: "Line", Number: true}, {Head: "Verdict"}, {Head: "What it does, or why not", Wide: true}, {Head: "As read", Wide: true}}}
	for _, status := range []lists.Status{lists.Bad, lists.Good, lists.Skipped} {
		for _, row := range l.Result.Rows {
			if row.Status != status {
				continue
			}
			t.Rows = append(t.Rows, table.Row{ID: "line-" + strconv.Itoa(row.Line), Group: string(row.Status), Quiet: status == lists.Skipped,
				Cells: []table.Cell{table.Text(strconv.Itoa(row.Line)), table.Text(string(row.Status)), table.Text(verdict(row)), table.Text(row.Text)}})
		}
	}
	return t
}

// shownOf cuts a long table for the page.
func shownOf(t table.Table) table.Table {
	t.Rows = t.Rows[:min(len(t.Rows), mostShown)]
	return t
}

func caption(r lists.Result) string {
	text := fmt.Sprintf("%d good, %d bad", r.Good, r.Bad)
	if r.Skipped > 0 {
		text += fmt.Sprintf(", %d skipped", r.Skipped)
	}
	return text
}

// verdict says what a row does, or what is wrong with it and what to do.
func verdict(row lists.Row) string {
	text := row.Says
	if row.Status != lists.Good {
		text = row.Reason
		if row.Field != "" {
			text = row.Field + ": " + text
		}
		if row.Hint != "" {
			text += "; " + row.Hint
		}
	}
	for _, n := range row.Notes {
		text += " (" + n + ")"
	}
	return text
}

// take lays the good rows on the person's slip.
func (p *place) take(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	q, err := url.ParseQuery(f.Raw("query"))
	if err != nil {
		q = url.Values{}
	}
	l, err := p.look(r, q)
	if err != nil {
		return err
	}
	if len(l.Result.Changes) == 0 {
		return p.desk.Page(r, sheet("no good rows"), showLook(l))
	}
	next := map[lists.Kind]string{lists.Findings: "/metal", lists.Panels: "/metal/panels", lists.Parts: "/slip", lists.Hours: "/slip"}[l.Kind]
	return p.desk.Propose(r, l.Base+next, l.Result.Changes...)
}

// foundNow says when findings of today were found, where no column says so.
func foundNow(b *build.Build) string {
	for _, t := range b.Tasks {
		if t.Stage == "strip" && t.Outwork != "" && t.State == build.Finished {
			return "blast"
		}
	}
	return "strip"
}
