package trim

import (
	"errors"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// traceScript is the island that traces by touch and by key.
const traceScript = "trace.js"

// tracePage is a photo of a hide with what is traced on it. Without script its
// fields are typed.
type tracePage struct {
	sheet
	subject
	Hash          string
	Width, Height int
	Wrong         field.Errors
	typed         func(name string) string
	Traced        traced
	Worked        *worked
}

// first are the fields as a new page has them.
var first = map[string]string{"with": byRectangle, "tape": "2", "renew": "yes"}

// value is a field as it was typed, or as it begins.
func (page tracePage) value(name string) string {
	if page.typed != nil {
		return page.typed(name)
	}
	return first[name]
}

// draft names what a tablet keeps of this page.
func (page tracePage) draft() string {
	return page.At() + "/" + page.draftKey() + "/" + page.Hash
}

func (page tracePage) path() string { return page.Photo + "/" + page.Hash }

func (page tracePage) picture() string { return page.Base + "/photo/" + page.Hash + "?edge=3200" }

func (p place) tracePage(r *web.Request) (tracePage, error) {
	page, err := p.photoPage(r)
	if err != nil {
		return tracePage{}, err
	}
	t := tracePage{sheet: page.sheet, subject: page.subject, Hash: r.Path("hash")}
	for _, ph := range page.Photos {
		if string(ph.Hash) == t.Hash {
			t.Width, t.Height, err = p.sizeOf(r, t.Hash)
			return t, err
		}
	}
	return t, fault.New(fault.NotFound, "there is no such photo of %s", page.name())
}

func (page tracePage) dressed() web.Sheet {
	return web.Sheet{Place: "trim", Shown: page.name() + " from a photo", Shell: lightShell, Scripts: []string{traceScript}}
}

func (p place) trace(r *web.Request) error {
	page, err := p.tracePage(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, page.dressed(), showTrace(page))
}

// traced takes what was traced: to work it out, or to lay it on the slip.
func (p place) traced(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.tracePage(r)
	if err != nil {
		return err
	}
	page.typed = f.Raw
	do := f.Choice("do", "work", "use")
	page.Traced = readTraced(f, page.Width, page.Height)
	if f.Err() == nil {
		w, err := page.work(f, build.PersonID(r.Person().Code))
		if m, is := errors.AsType[misfit](err); is {
			f.Fail(m.Field, m.says())
		} else if err != nil {
			return err
		}
		page.Worked = &w
	}
	if f.Err() == nil {
		desk.Holds(f, page.Build, "outline", page.Worked.Changes...)
	}
	switch {
	case f.Err() != nil:
		page.Wrong, page.Worked = f.Errors, nil
		return r.Invalid(page.dressed(), showTrace(page))
	case do == "work":
		return p.desk.Page(r, page.dressed(), showTrace(page))
	}
	return p.desk.Propose(r, page.Base+"/slip", page.Worked.Changes...)
}

// drawn are the rings that the form says, as far as they can be read, to show
// over the photo where no script does it.
func (page tracePage) rings(name string) [][]geom.Point {
	text := page.value(name)
	if name == "faults" || name == "zones" {
		var places []string
		for line := range strings.Lines(text) {
			if _, after, found := strings.Cut(line, ":"); found {
				places = append(places, after)
			}
		}
		text = strings.Join(places, "\n\n")
	}
	rings, err := readLines(text)
	if err != nil {
		return nil
	}
	return rings
}
