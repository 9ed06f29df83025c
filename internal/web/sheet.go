package web

import (
	"strconv"

	"github.com/a-h/templ"

	"fettle/internal/web/static"
	"fettle/internal/web/ui/sheet"
	"fettle/unit"
)

// Sheet is what a place says about the page it shows. Only Place and Shown are
// usual; the rest is filled in from the build when left empty.
type Sheet struct {
	Place    string    // key of the place whose plate is lit
	Shown    string    // what is drawn here, such as "45 findings"
	Build    string    // short name
	Vehicle  string    // as written on the drawing
	Revision int64     // journal number of the facts shown
	Day      unit.Date // the day of the facts shown
	Person   string    // who looks
	Units    string
	Neutral  bool     // a page that judges colour: grey surround, no tint
	Shell    string   // the shared script; "shell.js" when empty, "light.js" for a page that must not fetch parts of itself anew
	Scripts  []string // islands beside the shared script, such as "van.js"
}

func (r *Request) sheet(sh Sheet) (sheet.Data, error) {
	var t Title
	if build := r.Build(); build != "" {
		var err error
		if t, err = r.s.cfg.Builds.Title(r.Context(), build); err != nil {
			return sheet.Data{}, err
		}
	}
	return r.dress(fill(sh, t, r.person.Name), t), nil
}

func fill(sh Sheet, t Title, person string) Sheet {
	sh.Build = or(sh.Build, t.Build)
	sh.Vehicle = or(sh.Vehicle, t.Vehicle)
	sh.Units = or(sh.Units, t.Units)
	sh.Person = or(sh.Person, person)
	if sh.Revision == 0 {
		sh.Revision = t.Revision
	}
	if sh.Day == 0 {
		sh.Day = t.Day
	}
	return sh
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// dress adds what belongs to the server rather than to the place: plates,
// theme, addresses of style and script, the bar that offers to put back.
func (r *Request) dress(sh Sheet, t Title) sheet.Data {
	d := sheet.Data{
		Vehicle: sh.Vehicle, Build: sh.Build, Shown: sh.Shown, Day: sh.Day, Person: sh.Person, Units: sh.Units,
		Theme: r.Theme(), Neutral: sh.Neutral, Back: r.r.URL.RequestURI(), Style: static.Href("fettle.css"),
		Scripts: []string{static.Href(or(sh.Shell, "shell.js"))}, Undo: r.takeKept(), SignedIn: r.canSignOut(),
	}
	if d.SignedIn && r.person.Role == Owner {
		d.People = "/people"
	}
	if sh.Build != "" {
		d.Work = r.work(sh.Build)
		d.Revision = strconv.FormatInt(sh.Revision, 10)
		d.Live = "/b/" + sh.Build + "/live?after=" + d.Revision
	}
	for _, name := range sh.Scripts {
		d.Scripts = append(d.Scripts, static.Href(name))
	}
	d.Plates = r.plates(sh, t)
	for _, p := range d.Plates {
		if p.Current {
			d.Place = p.Label
		}
	}
	d.Place = or(d.Place, sh.Place)
	return d
}

// work is the address of the page of long work, where there is one.
func (r *Request) work(build string) string {
	for _, p := range r.s.cfg.Places {
		if p.Key == "jobs" {
			return inBuild(p.Path, build)
		}
	}
	return ""
}

// plates are those that need no build, and all when there is one.
func (r *Request) plates(sh Sheet, t Title) []sheet.Plate {
	var out []sheet.Plate
	for _, p := range r.s.cfg.Places {
		if p.Label == "" || sh.Build == "" {
			continue
		}
		out = append(out, sheet.Plate{
			Key: p.Key, Label: or(t.Labels[p.Key], p.Label), Href: inBuild(p.Path, sh.Build),
			Current: p.Key == sh.Place, Helper: p.Helper,
		})
	}
	return out
}

func drawn(d sheet.Data, body []templ.Component) templ.Component {
	return sheet.Page(d, templ.Join(body...))
}
