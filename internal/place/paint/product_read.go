package paint

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
)

// typedSheet is a maker's sheet as its form shows it: names of fields to texts.
type typedSheet struct {
	Text  map[string]string
	Zones map[string]bool
	Over  map[string]bool
}

// fill writes a product as its form is typed.
func fill(p build.Product) typedSheet {
	t := typedSheet{Text: map[string]string{"id": string(p.ID), "name": p.Name, "use": string(p.Use), "colour": string(p.Colour), "task": string(p.Task),
		"recoat": p.Recoat, "caution": p.Caution, "missed": p.Missed.Words, "sheet": p.Sheet, "sheet_day": p.SheetDay.String(),
		"ratio": ratioTyped(p), "extra_of": string(p.Extra.Of), "cup": p.Viscosity.Cup, "solvent": string(p.Solvent)},
		Zones: map[string]bool{}, Over: map[string]bool{}}
	for _, g := range numbers {
		for _, n := range g.List {
			t.Text[n.Name] = show(n.at(&p))
		}
	}
	for i, m := range p.Mix {
		t.Text[part(i, "parts")] = show(&m)
	}
	for i := range p.Parts {
		t.Text[part(i, "name")] = p.Parts[i].Name
		for _, n := range partNumbers {
			t.Text[part(i, n.Name)] = show(n.at(&p.Parts[i]))
		}
		if p.Parts[i].Graded {
			t.Text[part(i, "graded")] = "yes"
		}
	}
	for i, g := range p.Grades {
		t.Text[grade(i, "name")], t.Text[grade(i, "from")], t.Text[grade(i, "to")] = g.Name, plainNumber(g.From), plainNumber(g.To)
	}
	for _, z := range p.Zones {
		t.Zones[string(z)] = true
	}
	for _, o := range p.Over {
		t.Over[string(o)] = true
	}
	return t
}

func part(i int, name string) string { return fmt.Sprintf("part-%d-%s", i+1, name) }

func grade(i int, name string) string { return fmt.Sprintf("grade-%d-%s", i+1, name) }

// retyped is what a person typed, to show it again.
func retyped(f *web.Form, t typedSheet) typedSheet {
	for name := range t.Text {
		t.Text[name] = f.Raw(name)
	}
	for i := range mixParts {
		for _, n := range append([]string{"name", "parts", "graded"}, partNames()...) {
			t.Text[part(i, n)] = f.Raw(part(i, n))
		}
	}
	for i := range gradeRows {
		for _, n := range []string{"name", "from", "to"} {
			t.Text[grade(i, n)] = f.Raw(grade(i, n))
		}
	}
	t.Zones, t.Over = ticked(f, "zones"), ticked(f, "over")
	return t
}

func partNames() []string {
	var list []string
	for _, n := range partNumbers {
		list = append(list, n.Name)
	}
	return list
}

func ticked(f *web.Form, name string) map[string]bool {
	all := map[string]bool{}
	for _, v := range f.All(name) {
		all[v] = true
	}
	return all
}

// read makes a product of what was typed in place of old; what is wrong stands
// in the form.
func (s sheet) read(f *web.Form, old build.Product) build.Product {
	p := build.Product{ID: build.ProductID(slug(f)), Name: f.Text("name", 2, 80), Use: build.Use(f.Raw("use")), Colour: build.ColourID(f.Raw("colour")),
		Task: build.TaskID(f.Raw("task")), Recoat: f.Text("recoat", 0, 200), Caution: f.Text("caution", 0, 400),
		Sheet: f.Text("sheet", 0, 120), SheetDay: f.Date("sheet_day"), Solvent: build.SolventClassID(f.Raw("solvent"))}
	p.Missed.Words = f.Text("missed", 0, 200)
	for _, g := range numbers {
		for _, n := range g.List {
			take(f, n.Name, n.Places, n.Least, n.Most, n.at(&p))
			if n.Needed && f.Errors.Of(n.Name) == "" && show(n.at(&p)) == "" {
				f.Fail(n.Name, "is none: the sheet gives it")
			}
		}
	}
	for _, z := range s.Build.Zones {
		if ticked(f, "zones")[string(z.ID)] {
			p.Zones = append(p.Zones, z.ID)
		}
	}
	for _, o := range s.Build.Products {
		if ticked(f, "over")[string(o.ID)] {
			p.Over = append(p.Over, o.ID)
		}
	}
	readViscosity(f, &p)
	rows := readRatio(f, &p, old)
	readParts(f, &p, rows)
	keepExtra(&p, old, rows)
	readGrades(f, &p)
	return p
}

// slug is the short name of a product: as typed, or made of its name.
func slug(f *web.Form) string {
	text := f.Raw("id")
	if strings.TrimSpace(text) == "" {
		text = f.Raw("name")
	}
	return slugOf(text)
}

func slugOf(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return (c < 'a' || c > 'z') && (c < '0' || c > '9') })
	return strings.Join(words, "-")
}

// readParts reads the rows of the mix up to the last that is used. A row in
// between that is empty is a part the mix has none of. A ratio that was typed
// has said the parts of its rows already.
func readParts(f *web.Form, p *build.Product, ratio map[int]float64) {
	used := 0
	for i := range mixParts {
		if ratio[i] > 0 || rowUsed(f, i) {
			used = i + 1
		}
	}
	told := false
	for i := range used {
		var m build.MixPart
		amount := 0.0
		if ratio == nil {
			take(f, part(i, "parts"), 4, 0, 1000, &amount)
		} else {
			amount = ratio[i]
		}
		m.Name = f.Text(part(i, "name"), 0, 80)
		for _, n := range partNumbers {
			take(f, part(i, n.Name), n.Places, 0, n.Most, n.at(&m))
		}
		m.Graded = f.Has(part(i, "graded"))
		if wrong := f.Errors.Of(part(i, "parts")); wrong == "" && amount == 0 && (i == 0 || m.Name != "" || f.Raw(part(i, "parts")) != "") {
			f.Fail(part(i, "parts"), "is none: give how many parts, or leave the whole row empty where the mix has none of it")
		}
		told = told || m != build.MixPart{}
		p.Mix, p.Parts = append(p.Mix, amount), append(p.Parts, m)
	}
	if !told {
		p.Parts = nil
	}
}

func readGrades(f *web.Form, p *build.Product) {
	for i := range gradeRows {
		if strings.TrimSpace(f.Raw(grade(i, "name"))+f.Raw(grade(i, "from"))+f.Raw(grade(i, "to"))) == "" {
			continue
		}
		p.Grades = append(p.Grades, build.Grade{Name: f.Text(grade(i, "name"), 1, 40),
			From: float64(f.Decimal(grade(i, "from"), 1, 10*coldest, 10*hottest)) / 10, To: float64(f.Decimal(grade(i, "to"), 1, 10*coldest, 10*hottest)) / 10})
		if g := p.Grades[len(p.Grades)-1]; f.Err() == nil && g.To < g.From {
			f.Fail(grade(i, "to"), "is colder than where the grade begins, "+plainNumber(g.From)+" °C")
		}
	}
}

// refused puts what the build itself says against a sheet beside its field.
func refused(b *build.Build, change build.Change, f *web.Form) {
	_, err := build.ApplyAll(*b, []build.Change{change})
	if err == nil {
		return
	}
	name := "name"
	for _, try := range []struct{ in, field string }{{"times", "recoat_to"}, {"extra", "ratio"}, {"viscosity", "cup"}, {"solvent_class", "solvent"}, {"mix", part(0, "parts")}, {"grades", grade(0, "name")}, {"zones", "zones"},
		{"over", "over"}, {"needed_for", "task"}, {"use", "use"}, {"colour", "colour"}} {
		if strings.Contains(err.Error(), try.in) {
			name = try.field
			break
		}
	}
	text := "cannot be: " + err.Error()
	if words := fault.HintOf(err); words != "" {
		text += "; " + words
	}
	f.Fail(name, text)
}

// rowsOf are the numbers of rows from 1.
func rowsOf(n int) []string {
	list := make([]string, n)
	for i := range n {
		list[i] = strconv.Itoa(i + 1)
	}
	return list
}
