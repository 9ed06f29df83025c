// Package readin is the page on which lists that a shop keeps already are read
// in: a file or pasted text, then a preview of every row with its verdict, then
// the good rows on the person's slip. Package internal/readin does the reading.
package readin

import (
	"fmt"
	"io"
	"strings"

	"fettle/fault"
	"fettle/internal/desk"
	lists "fettle/internal/readin"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// bodyLimit is the most a list may weigh, in bytes.
const bodyLimit = 200 << 20

// Example is a list offered to try the page with.
type Example struct {
	Build string // the build it belongs to
	Name  string // of the file
	Says  string // what it holds
	Data  []byte
}

// Place returns the place with its routes.
func Place(d desk.Desk, examples ...Example) web.Place {
	p := &place{desk: d, examples: examples}
	at := "/b/{build}/read-in"
	return web.Place{Key: "read-in", Path: at, Routes: []web.Route{
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.show},
		{Pattern: "POST " + at, Who: web.Crew, MaxBody: bodyLimit, Handle: p.open},
		{Pattern: "GET " + at + "/preview", Who: web.Crew, Handle: p.preview},
		{Pattern: "POST " + at + "/take", Who: web.Crew, Handle: p.take},
		{Pattern: "GET " + at + "/example.csv", Who: web.Guest, Handle: p.example},
	}}
}

// start is the first page: which list, and where it is.
type start struct {
	Base     string
	Kind     string
	Text     string
	Entry    string
	Examples []Example
	Wrong    field.Errors
}

func (p *place) show(r *web.Request) error {
	if _, err := p.desk.View(r); err != nil {
		return err
	}
	return p.desk.Page(r, sheet("choose a list"), showStart(p.start(r, r.Query("kind"))))
}

func sheet(shown string) web.Sheet { return web.Sheet{Place: "Read in", Shown: shown} }

func (p *place) start(r *web.Request, kind string) start {
	s := start{Base: "/b/" + r.Build(), Kind: kind, Entry: field.NewEntry()}
	if kind == "" {
		s.Kind = string(lists.Findings)
	}
	for _, e := range p.examples {
		if e.Build == r.Build() {
			s.Examples = append(s.Examples, e)
		}
	}
	return s
}

// open reads a list and lays it on the table for its preview.
func (p *place) open(r *web.Request) error {
	if _, err := p.desk.View(r); err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	s := p.start(r, f.Raw("kind"))
	s.Text = f.Raw("text")
	kind := f.Choice("kind", kinds()...)
	list, err := read(f)
	if err != nil {
		f.Fail("file", says(err))
	}
	if s.Wrong = f.Errors; len(s.Wrong) > 0 {
		return r.Invalid(sheet("choose a list"), showStart(s))
	}
	id := p.lay(owner(r), list)
	return r.SeeOther(s.Base + "/read-in/preview?kind=" + kind + "&list=" + id)
}

// read takes the file of a form, or the text that was pasted.
func read(f *web.Form) (lists.Sheet, error) {
	file, head := f.File("file")
	if file != nil {
		defer file.Close()
		return lists.OpenTab(head.Filename, strings.TrimSpace(f.Raw("tab")), file, bodyLimit)
	}
	text := f.Raw("text")
	if strings.TrimSpace(text) == "" {
		return lists.Sheet{}, fault.New(fault.Invalid, "there is no list yet").WithHint("choose a file, or paste the rows with their headings")
	}
	return lists.Open("pasted", io.Reader(strings.NewReader(text)), bodyLimit)
}

func says(err error) string {
	if hint := fault.HintOf(err); hint != "" {
		return fmt.Sprintf("%s: %s", err, hint)
	}
	return err.Error()
}

func kinds() []string {
	var out []string
	for _, k := range lists.Kinds() {
		out = append(out, string(k))
	}
	return out
}

// example sends the build's example list.
func (p *place) example(r *web.Request) error {
	for _, e := range p.examples {
		if e.Build == r.Build() {
			return r.File(e.Name, "text/csv; charset=utf-8", e.Data)
		}
	}
	return fault.New(fault.NotFound, "this build has no example list")
}
