package paint

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
)

func (p place) limitRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/paint/limits", Who: web.Guest, Handle: p.showLimits},
		{Pattern: "POST /b/{build}/paint/limits", Who: web.Crew, Handle: p.setLimits},
	}
}

// spareClasses are the empty rows of the form, mostClasses all of its rows.
const spareClasses, mostClasses = 3, 40

// limitsPage is the owner's table of solvent limits with its form.
type limitsPage struct {
	sheet
	Typed typedLimits
	Wrong field.Errors
}

// typedLimits is a table as it is typed.
type typedLimits struct {
	Title, Note string
	Rows        []typedClass
}

type typedClass struct{ ID, Name, Most, Note, Staged string }

// showLimits answers with the table; ?from=1 fills the form from an example.
func (p place) showLimits(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV("solvent-limits.csv", s.limits().Records())
	case "json":
		return r.JSON(s.Build.Solvent)
	}
	page := limitsPage{sheet: s, Typed: fillLimits(s.Build.Solvent)}
	if n, err := strconv.Atoi(r.Asked().Raw("from")); err == nil && n >= 1 && n <= len(stage.ExampleLimits()) {
		example := stage.ExampleLimits()[n-1]
		example.Note = "" // whose rule it is, the owner says
		page.Typed = fillLimits(example)
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "solvent limits"}, limitsSheet(page))
}

func fillLimits(t build.SolventLimits) typedLimits {
	typed := typedLimits{Title: t.Title, Note: t.Note}
	for _, c := range t.Classes {
		row := typedClass{ID: string(c.ID), Name: c.Name, Most: plainNumber(c.Most), Note: c.Note}
		if c.Staged {
			row.Staged = "yes"
		}
		typed.Rows = append(typed.Rows, row)
	}
	return typed.spared()
}

// spared is the same table with empty rows at its end.
func (t typedLimits) spared() typedLimits {
	t.Rows = append(t.Rows, make([]typedClass, spareClasses)...)
	return t
}

// setLimits keeps the table.
func (p place) setLimits(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	page := limitsPage{sheet: s, Typed: retypedLimits(f)}
	change := &build.SetSolventLimits{Limits: readLimits(f, page.Typed)}
	if f.Err() == nil {
		if _, err := build.ApplyAll(*s.Build, []build.Change{change}); err != nil {
			f.Fail("title", "cannot be kept: "+err.Error())
		}
	}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		page.Typed = page.Typed.spared()
		return r.Invalid(web.Sheet{Place: "paint", Shown: "solvent limits"}, limitsSheet(page))
	}
	return p.desk.Keep(r, entry, change.Say(s.Build), s.Base+"/paint/limits", change)
}

func class(i int, name string) string { return fmt.Sprintf("class-%d-%s", i+1, name) }

// retypedLimits is what a person typed, rows of nothing left out at the end.
func retypedLimits(f *web.Form) typedLimits {
	t := typedLimits{Title: f.Raw("title"), Note: f.Raw("note")}
	for i := range mostClasses {
		t.Rows = append(t.Rows, typedClass{f.Raw(class(i, "id")), f.Raw(class(i, "name")), f.Raw(class(i, "most")), f.Raw(class(i, "note")), f.Raw(class(i, "staged"))})
	}
	for len(t.Rows) > 0 && t.Rows[len(t.Rows)-1] == (typedClass{}) {
		t.Rows = t.Rows[:len(t.Rows)-1]
	}
	return t
}

// readLimits makes a table of what was typed. A row without a name and a limit
// is taken away; a class keeps its ID when it is named anew.
func readLimits(f *web.Form, typed typedLimits) build.SolventLimits {
	t := build.SolventLimits{Title: f.Text("title", 2, 120), Note: f.Text("note", 4, 600)}
	taken := map[build.SolventClassID]bool{}
	for _, row := range typed.Rows {
		taken[build.SolventClassID(row.ID)] = true
	}
	for i, row := range typed.Rows {
		if strings.TrimSpace(row.Name+row.Most) == "" {
			continue
		}
		c := build.SolventClass{ID: build.SolventClassID(row.ID), Name: f.Text(class(i, "name"), 2, 80), Note: f.Text(class(i, "note"), 0, 200),
			Staged: row.Staged != "", Most: float64(f.Decimal(class(i, "most"), 1, 10, 20_000)) / 10}
		if c.ID == "" {
			c.ID = freeClass(c.Name, taken)
			taken[c.ID] = true
		}
		t.Classes = append(t.Classes, c)
	}
	return t
}

// freeClass is an ID made of a name that no class has.
func freeClass(name string, taken map[build.SolventClassID]bool) build.SolventClassID {
	base := slugOf(name)
	if base == "" {
		base = "class"
	}
	for n, id := 2, base; ; n++ {
		if !taken[build.SolventClassID(id)] {
			return build.SolventClassID(id)
		}
		id = base + "-" + strconv.Itoa(n)
	}
}

// limits is the owner's table, with the products in each class.
func (s sheet) limits() table.Table {
	t := table.Table{ID: "limits", Caption: s.Build.Solvent.Title, Self: s.Base + "/paint/limits", Empty: "No table of limits is written yet.", Columns: []table.Column{
		{Head: "Class", Wide: true}, {Head: "Limit", Unit: "g/l", Number: true}, {Head: "In words", Wide: true}, {Head: "Paint in it, ready to spray", Wide: true}}}
	for _, c := range s.Build.Solvent.Classes {
		t.Rows = append(t.Rows, table.Row{ID: "class-" + string(c.ID), Cells: []table.Cell{table.Text(c.Name), table.Text(plainNumber(c.Most)), table.Text(classNote(c)), s.inClass(c.ID)}})
	}
	return t
}

func classNote(c build.SolventClass) string {
	if c.Staged {
		return strings.Trim("base and clear taken as one topcoat; "+c.Note, "; ")
	}
	return c.Note
}

// inClass names the products of a class with how they stand; each leads to its
// sheet, which has the working.
func (s sheet) inClass(id build.SolventClassID) table.Cell {
	var words, paths []string
	for _, p := range s.Build.Products {
		if p.Solvent == id {
			words, paths = append(words, s.standing(p)), append(paths, s.productPath(p.ID))
		}
	}
	return table.Show(strings.Join(words, "; "), classProducts(words, paths))
}

// standing says how a product stands beside the limit of its class.
func (s sheet) standing(p build.Product) string {
	l, ok := stage.LimitOf(s.Build, p)
	if !ok {
		return p.Name + ", solvent not known"
	}
	name := p.Name
	if l.Class.Staged && p.Use != build.SingleStage {
		name += ", as one topcoat,"
	}
	return fmt.Sprintf("%s %.0f g/l, %s %s", name, l.VOC, l.Figure.Text, strings.Fields(l.Figure.Name)[0])
}

// limitWords says on paper how a mix stands beside the limit of its class, or
// nothing where that is not known.
func limitWords(s sheet, p build.Product) string {
	l, ok := stage.LimitOf(s.Build, p)
	if !ok {
		return ""
	}
	return fmt.Sprintf("Solvent %.0f g/l, %s %s of %s g/l for %s: %s.", l.VOC, l.Figure.Text, l.Figure.Name, plainNumber(l.Class.Most), l.Class.Name, stage.OwnersText)
}

// beside compares a product with every class of the table: which it is in is
// for the owner to say.
func (s sheet) beside(p build.Product) table.Table {
	t := table.Table{ID: "beside", Caption: s.Build.Solvent.Title, Columns: []table.Column{{Head: "Class", Wide: true}, {Head: "Limit", Unit: "g/l", Number: true}, {Head: "This mix", Wide: true}}}
	for _, c := range s.Build.Solvent.Classes {
		p.Solvent = c.ID
		word := "not known"
		if l, ok := stage.LimitOf(s.Build, p); ok {
			word = l.Figure.Text + " " + strings.Fields(l.Figure.Name)[0]
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(c.Name), table.Text(plainNumber(c.Most)), table.Text(word)}})
	}
	return t
}

// example is a table to begin from.
func example(i int, t build.SolventLimits) table.Table {
	out := table.Table{ID: fmt.Sprintf("example-%d", i+1), Caption: t.Title, Columns: []table.Column{{Head: "Class", Wide: true}, {Head: "Limit", Unit: "g/l", Number: true}, {Head: "In words", Wide: true}}}
	for _, c := range t.Classes {
		out.Rows = append(out.Rows, table.Row{Cells: []table.Cell{table.Text(c.Name), table.Text(plainNumber(c.Most)), table.Text(classNote(c))}})
	}
	return out
}
