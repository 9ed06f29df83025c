package trim

import (
	"net/url"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

func (p place) factRoutes() []web.Route {
	at := "/b/{build}/trim/sewn/{what}"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.facts},
		{Pattern: "GET " + at + "/new", Who: web.Crew, Handle: p.fact},
		{Pattern: "GET " + at + "/{id}", Who: web.Guest, Handle: p.fact},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.setFact},
		{Pattern: "POST " + at + "/{id}/drop", Who: web.Crew, Handle: p.dropFact},
	}
}

// factPage is the list of one kind of fact, or the form of one.
type factPage struct {
	sheet
	acts
	Noun   noun
	Table  table.Table
	ID     string
	New    bool
	Inputs []asked
}

func (page factPage) here() string { return page.At() + "/sewn/" + page.Noun.Key }

func (page factPage) one(id string) string { return page.here() + "/" + url.PathEscape(id) }

func (p place) factPage(r *web.Request) (factPage, error) {
	s, err := p.load(r)
	if err != nil {
		return factPage{}, err
	}
	page := factPage{sheet: s}
	page.Noun, err = nounOf(r.Path("what"))
	return page, err
}

func (page factPage) dressed() web.Sheet {
	shown := strings.ToLower(page.Noun.Many)
	if page.ID != "" {
		shown = page.Noun.Key + " " + page.ID
	}
	return web.Sheet{Place: "trim", Shown: shown}
}

// facts is the list of one kind.
func (p place) facts(r *web.Request) error {
	page, err := p.factPage(r)
	if err != nil {
		return err
	}
	rows := page.Noun.list(page.Build)
	page.Table = table.Table{ID: page.Noun.Key + "s", Caption: page.Noun.Many, Self: page.here(), Columns: append([]table.Column{{Head: "No"}}, page.Noun.Columns...)}
	for _, row := range rows {
		page.Table.Rows = append(page.Table.Rows, table.Row{ID: page.Noun.Key + "-" + row.ID, Cells: append([]table.Cell{table.Link(row.ID, page.one(row.ID))}, row.Cells...)})
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-"+page.Noun.Key+"s.csv", page.Table.Records())
	case "json":
		return r.JSON(page.Table.Records())
	}
	return p.desk.Page(r, page.dressed(), showFacts(page))
}

// fact is the form of one, or of a new one.
func (p place) fact(r *web.Request) error {
	page, err := p.factPage(r)
	if err != nil {
		return err
	}
	if page.ID = r.Path("id"); page.ID == "" {
		page.New, page.ID = true, page.Noun.next(page.Build)
	} else if !page.Noun.has(page.Build, page.ID) {
		return fault.New(fault.NotFound, "there is no %s %q", page.Noun.Key, page.ID)
	}
	page.Inputs = page.Noun.form(page.sheet, page.ID)
	return p.desk.Page(r, page.dressed(), showFact(page))
}

// setFact lays one on the slip, new or changed.
func (p place) setFact(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.factPage(r)
	if err != nil {
		return err
	}
	page.New = f.Has("new")
	page.ID = strings.ToUpper(f.Text("id", 1, 12))
	if page.New && page.Noun.has(page.Build, page.ID) {
		f.Fail("id", "is taken: another "+page.Noun.Key+" has it")
	}
	page.Inputs = page.Noun.form(page.sheet, page.ID)
	c := page.Noun.read(f, page.sheet, page.ID)
	if f.Err() == nil {
		tried := page.Build.Clone()
		if err := c.Apply(&tried); err != nil {
			f.Fail(fieldOf(page.Inputs, err), "does not hold: "+err.Error())
		}
	}
	if f.Err() != nil {
		page.acts = acts{Open: "fact", Wrong: f.Errors, typed: f.Raw}
		page.Inputs = asTyped(page.Inputs, f)
		return r.Invalid(page.dressed(), showFact(page))
	}
	return p.desk.Propose(r, page.Base+"/slip", c)
}

// dropFact takes one off the list, through the slip; what others name stays.
func (p place) dropFact(r *web.Request) error {
	page, err := p.factPage(r)
	if err != nil {
		return err
	}
	c := &build.DropSewn{What: page.Noun.Key, ID: r.Path("id")}
	if page.ID = c.ID; !page.Noun.has(page.Build, page.ID) {
		return fault.New(fault.NotFound, "there is no %s %q", page.Noun.Key, page.ID)
	}
	tried := page.Build.Clone()
	if err := c.Apply(&tried); err != nil {
		page.Inputs = page.Noun.form(page.sheet, page.ID)
		page.acts = acts{Open: "drop", Wrong: field.Errors{{Field: "drop", Msg: "cannot be done: " + err.Error()}}}
		return r.Invalid(page.dressed(), showFact(page))
	}
	return p.desk.Propose(r, page.Base+"/slip", c)
}

// asTyped shows what was typed and picked again.
func asTyped(list []asked, f *web.Form) []asked {
	for i := range list {
		in := &list[i]
		in.Value = f.Raw(in.Name)
		for _, options := range [2][]field.Option{in.Pick, in.Tick} {
			for n := range options {
				options[n].Picked = options[n].Value == f.Raw(in.Name) && f.Has(in.Name)
			}
		}
	}
	return list
}

// sizes writes how large a block is.
func sizes(mm ...float64) string {
	words := make([]string, len(mm))
	for i, v := range mm {
		words[i] = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strings.Join(words, " × ")
}
