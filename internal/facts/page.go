package facts

import (
	"net/url"
	"strings"

	"github.com/a-h/templ"

	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/ways"
)

// page is the list of one kind of fact, or the form of one.
type page struct {
	Base
	Key, One, Many, Says, Title string
	Named, Only, Final          bool
	Frame, Help                 templ.Component
	Label, Here                 string
	Kinds                       []ways.Way
	Table                       table.Table
	ID                          string
	New                         bool
	Inputs                      []field.Ask
	Wrong                       field.Errors
}

func (p page) one(id string) string { return p.Here + "/" + url.PathEscape(id) }

// idLabel is what the number is called.
func (p page) idLabel() string {
	if p.Named {
		return "Name"
	}
	return "Number"
}

func (p page) dressed(place string) web.Sheet {
	shown := strings.ToLower(p.Many)
	if p.ID != "" && !p.Only {
		shown = strings.ToLower(p.Title) + " " + p.ID
	}
	return web.Sheet{Place: place, Shown: shown}
}

// open sets a page up for the kind that the request names.
func (m Room[S]) open(r *web.Request) (page, Kind[S], S, error) {
	s, err := m.Load(r)
	if err != nil {
		return page{}, Kind[S]{}, s, err
	}
	k, err := m.kind(r.Path("what"))
	if err != nil {
		return page{}, k, s, err
	}
	base := m.Of(s)
	at := base.Path + m.Tail
	p := page{Base: base, Key: k.Key, One: k.One, Many: k.Many, Says: k.Says, Title: k.Title(), Named: k.Named, Only: k.Only, Final: k.Final, Frame: m.Frame(s), Label: m.Label, Here: at + "/" + k.Key}
	if m.Help != nil {
		p.Help = m.Help(k.Key)
	}
	for _, other := range m.Kinds() {
		p.Kinds = append(p.Kinds, ways.Way{Href: at + "/" + other.Key, Label: other.Many})
	}
	return p, k, s, nil
}

// list is the list of one kind.
func (m Room[S]) list(r *web.Request) error {
	p, k, _, err := m.open(r)
	if err != nil {
		return err
	}
	head := "No"
	if k.Named {
		head = "Name"
	}
	p.Table = table.Table{ID: k.Key + "s", Caption: k.Many, Self: p.Here, Columns: append([]table.Column{{Head: head, Wide: k.Named}}, k.Columns...)}
	for _, row := range k.List(p.Build) {
		p.Table.Rows = append(p.Table.Rows, table.Row{ID: k.Key + "-" + row.ID, Cells: append([]table.Cell{table.Link(row.ID, p.one(row.ID))}, row.Cells...)})
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-"+k.Key+"s.csv", p.Table.Records())
	case "json":
		return r.JSON(p.Table.Records())
	}
	return m.Desk.Page(r, p.dressed(m.Place), showList(p))
}

// one is the form of one, or of a new one, which may begin like another.
func (m Room[S]) one(r *web.Request) error {
	p, k, s, err := m.open(r)
	if err != nil {
		return err
	}
	like := r.Path("id")
	if p.ID = like; p.ID == "" {
		p.New, p.ID, like = true, k.Next(p.Build), r.Asked().Raw("like")
	} else if !k.Has(p.Build, p.ID) {
		return fault.New(fault.NotFound, "there is no %s %q", k.Word(), p.ID)
	}
	p.Inputs = k.Form(s, like)
	return m.Desk.Page(r, p.dressed(m.Place), showOne(p))
}
