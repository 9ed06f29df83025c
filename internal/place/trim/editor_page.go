package trim

import (
	"net/url"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
)

// editorScript is the island; lightShell is the shared script without what
// fetches parts of a page anew, since the draft on this page is the person's own.
const (
	editorScript = "layout.js"
	lightShell   = "light.js"
)

func (p place) editorRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/lay/{material}/hand", Who: web.Guest, Handle: p.bench},
		{Pattern: "POST /b/{build}/trim/lay/{material}/hand", Who: web.Crew, Handle: p.handed},
	}
}

// handPath is where a material is laid by hand.
func handPath(build, material string) string {
	return "/b/" + build + "/trim/lay/" + url.PathEscape(material) + "/hand"
}

// laidOut is the bench of the material that the request names.
func (p place) laidOut(r *web.Request) (sheet, editor, error) {
	s, err := p.load(r)
	if err != nil {
		return s, editor{}, err
	}
	material := r.Path("material")
	e := editorOf(s.Build, material, handPath(r.Build(), material))
	e.Crew = r.Person().Role >= account.Crew
	e.Draft += "/" + r.Person().Code
	switch {
	case len(e.Copies) == 0:
		err = fault.New(fault.NotFound, "no piece is cut from %q", material)
	case len(e.Sheets) == 0:
		err = fault.New(fault.Invalid, "no hide of %s is drawn yet", material).WithHint("Draw its outline first: by hand, from a file or from a photo.")
	}
	return s, e, err
}

func (p place) benchSheet(e editor) web.Sheet {
	return web.Sheet{Place: "trim", Shown: e.Title, Shell: lightShell, Scripts: []string{editorScript}}
}

func (p place) bench(r *web.Request) error {
	_, e, err := p.laidOut(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, p.benchSheet(e), showEditor(&e))
}

// handed takes what was laid by hand: to check it, or to keep it through the
// knock-on. What the exact checker refuses is not kept.
func (p place) handed(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, e, err := p.laidOut(r)
	if err != nil {
		return err
	}
	material := r.Path("material")
	do := f.Choice("do", "check", "keep")
	if do == "keep" && f.Raw("base") != e.Base {
		f.Fail("layout", "was changed by somebody else since this page was opened. Yours stands below: keep it again if it is the better one")
	}
	e.read(f)
	if f.Err() == nil {
		if err := e.judge(s.Build, material); err != nil {
			if fault.KindOf(err) != fault.Invalid {
				return err
			}
			f.Fail("layout", err.Error())
		}
	}
	switch {
	case f.Err() != nil:
		e.Wrong, e.Fresh = f.Errors, true
		return r.Invalid(p.benchSheet(e), showEditor(&e))
	case do == "check":
		return p.desk.Page(r, p.benchSheet(e), showEditor(&e))
	case len(e.Found) > 0:
		return r.Invalid(p.benchSheet(e), showEditor(&e))
	}
	return p.desk.Propose(r, "/b/"+r.Build()+"/slip", e.changes(s.Build, material)...)
}
