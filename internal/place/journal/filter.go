package journal

import (
	"net/url"
	"slices"
	"strconv"

	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// filter is which entries are shown; empty fields show all.
type filter struct {
	Person, Kind, Of string
	Day              unit.Date
	Before           int64 // entries before this number
}

func filterOf(r *web.Request) filter {
	f := filter{Person: r.Query("person"), Kind: r.Query("kind"), Of: r.Query("of")}
	f.Day, _ = unit.ParseDate(r.Query("day"))
	f.Before, _ = strconv.ParseInt(r.Query("before"), 10, 64)
	return f
}

// of returns the rows that the filter lets through.
func (f filter) of(rows []row) []row {
	var list []row
	for _, one := range rows {
		if (f.Person == "" || one.Person == f.Person) && (f.Kind == "" || one.Kind == f.Kind) &&
			(f.Day == 0 || unit.DateOf(one.At) == f.Day) && (f.Of == "" || slices.Contains(one.Of, f.Of)) {
			list = append(list, one)
		}
	}
	return list
}

// page returns the rows of one page, and the query of the next one.
func (f filter) page(rows []row) ([]row, string) {
	start := 0
	if f.Before > 0 {
		start = max(slices.IndexFunc(rows, func(one row) bool { return one.Seq < f.Before }), 0)
	}
	rows = rows[start:]
	if len(rows) <= onePage {
		return rows, ""
	}
	f.Before = rows[onePage-1].Seq
	return rows[:onePage], f.query("")
}

// query writes the filter as it stands after a question mark, in a form such
// as csv.
func (f filter) query(as string) string {
	v := url.Values{}
	set := func(name, value string) {
		if value != "" {
			v.Set(name, value)
		}
	}
	set("person", f.Person)
	set("kind", f.Kind)
	set("of", f.Of)
	set("day", f.Day.String())
	set("as", as)
	if f.Before > 0 && as == "" {
		v.Set("before", strconv.FormatInt(f.Before, 10))
	}
	if len(v) == 0 {
		return ""
	}
	return "?" + v.Encode()
}

func (f filter) whole() bool { return f.Person == "" && f.Kind == "" && f.Of == "" && f.Day == 0 }

// table is the rows as a file and a paper hold them.
func (s sheet) table(rows []row) table.Table {
	t := table.Table{ID: "entries", Caption: "Journal", Empty: "No entry.", Columns: []table.Column{
		{Head: "Entry", Number: true}, {Head: "When"}, {Head: "Who"}, {Head: "Device"}, {Head: "Kind"}, {Head: "What", Wide: true}, {Head: "Note", Wide: true}, {Head: "Taken back by"}}}
	for _, one := range rows {
		back := ""
		if one.Undone {
			back = one.By + " " + one.When.Format("2006-01-02 15:04")
		}
		t.Rows = append(t.Rows, table.Row{Quiet: one.Undone, Cells: []table.Cell{
			table.Text(strconv.FormatInt(one.Seq, 10)), table.Text(one.At.Format("2006-01-02 15:04")), table.Text(one.Person), table.Text(one.device()),
			table.Text(one.Kind), table.Text(one.Says), table.Text(one.Note), table.Text(back)}})
	}
	return t
}
