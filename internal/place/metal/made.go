package metal

import (
	"fmt"
	"net/url"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/internal/flatwork"
	"fettle/internal/surfacein"
	"fettle/internal/web"
	relief "fettle/internal/web/ui/surface"
	stage "fettle/stage/metal"
	"fettle/unit"
)

// madePage is a panel that is made from a surface, beside its sheet laid flat.
type madePage struct {
	scene
	foldActs
	Surface build.Surface
	Mesh    mesh.Mesh
	Ask     stage.PanelAsk
	Cuts    string      // as the field has them
	Over    unit.Length // left over outside the panel's edge
	Side    relief.Named
	Panel   *stage.Panel
	Class   []relief.Class
	Places  []stage.PanelPlace
	Work    flatwork.Work // where it is laid flat as a job
	Search  flatwork.Work // for relief cuts
	Trouble string
	asked   func(name string) string // a field of what is asked as it was typed
}

// trimOver is what is left over about a panel that is formed by hand, where
// nothing else is asked.
const trimOver = 12 * unit.Millimetre

// read reads what is asked of a surface from its form.
func (page *madePage) read(f *web.Form) {
	page.Ask = stage.PanelAsk{Grade: "DC04", Gauge: unit.Millimetre, Mirror: f.Raw("mirror") == "yes"}
	if of := page.Build.Panel(page.Surface.Panel); of != nil && of.Gauge > 0 {
		page.Ask.Gauge = of.Gauge
	}
	if f.Raw("grade") != "" {
		page.Ask.Grade = f.Choice("grade", stage.Grades()...)
	}
	if f.Raw("gauge") != "" {
		page.Ask.Gauge = unit.Length(f.Decimal("gauge", 3, 100, mostGauge))
	}
	page.Over = trimOver
	if f.Raw("over") != "" {
		page.Over = unit.Length(f.Decimal("over", 3, 0, 100_000))
	}
	page.Ask.Cuts, page.Cuts = surfacein.Cuts(f, "cuts"), strings.TrimSpace(f.Raw("cuts"))
	page.foldActs, page.asked = foldActs{Open: "panel", Wrong: f.Errors}, f.Raw
}

// askedPanel is what is asked of a surface, before it is laid flat.
func (p place) askedPanel(r *web.Request, f *web.Form) (madePage, error) {
	s, err := p.scene(r)
	if err != nil {
		return madePage{}, err
	}
	one := s.Build.Surface(build.SurfaceID(r.Path("surface")))
	if one == nil || one.Use != build.ForMetal {
		return madePage{}, fault.New(fault.NotFound, "no panel is made by a surface %q", r.Path("surface"))
	}
	page := madePage{scene: s, Surface: *one, Side: relief.Side(f.Raw("side"))}
	page.read(f)
	page.Mesh, err = surfacein.Open(r.Context(), p.desk.Vault, *one)
	return page, err
}

// madePage is the panel laid flat as asked, with the search for relief cuts.
func (p place) madePage(r *web.Request, f *web.Form) (madePage, error) {
	page, err := p.askedPanel(r, f)
	if err != nil {
		return page, err
	}
	if page.Search, err = flatwork.Get(p.desk, r, f.Raw("search")); err != nil || f.Err() != nil {
		return page, err
	}
	return page, p.lay(r, &page)
}

// lay lays the panel flat as asked, at once or as a job; what does not let
// itself be laid flat is the page's trouble, no fault.
func (p place) lay(r *web.Request, page *madePage) error {
	problem, err := stage.PanelProblem(page.Mesh, page.Ask)
	if err != nil {
		page.Trouble = err.Error()
		return nil
	}
	page.Mesh = problem.Surface
	if page.Search.Answer != nil {
		page.Search = page.Search.For(stage.PanelOrder(problem, true))
	}
	answer, work, err := flatwork.Laid(p.desk, r, stage.PanelOrder(problem, false), len(page.Mesh.Points), "panel "+string(page.Surface.ID)+" laid flat")
	switch page.Work = work; {
	case err != nil && fault.KindOf(err) == fault.Internal:
		return err
	case err != nil:
		page.Trouble = err.Error()
	case answer != nil && answer.Result != nil:
		page.tell(stage.PanelOf(problem, *answer.Result))
	}
	return nil
}

// tell takes a panel that is laid flat, and works out what is said of it.
func (page *madePage) tell(laid stage.Panel) {
	page.Panel, page.Places = &laid, laid.Places(3)
	page.Class = make([]relief.Class, len(laid.Result.Faces))
	for i := range page.Class {
		page.Class[i] = formedAs(laid.Ratio(i), laid.Near(i))
	}
}

// size is a size as its field has it: as it was typed where that is wrong.
func (page madePage) size(name string, v unit.Length) string {
	if page.Wrong.Of(name) != "" {
		return page.asked(name)
	}
	return mm(v)
}

// query is what is asked, as the address has it.
func (page madePage) query() url.Values {
	v := url.Values{"grade": {page.Ask.Grade}, "gauge": {page.size("gauge", page.Ask.Gauge)}, "over": {page.size("over", page.Over)}}
	if page.Ask.Mirror {
		v.Set("mirror", "yes")
	}
	if page.Cuts != "" {
		v.Set("cuts", page.Cuts)
	}
	return v
}

// address is the page with what was asked, and some of it otherwise.
func (page madePage) address(below, name, value string) string {
	v := page.query()
	v.Set("side", page.Side.Key)
	if page.Search.Asked() {
		v.Set("search", page.Search.Key)
	}
	v.Set(name, value)
	return page.surfacePath(page.Surface.ID) + below + "?" + v.Encode()
}

func (page madePage) sidePath(side string) string { return page.address("", "side", side) }

// withCut is the page with one more cut.
func (page madePage) withCut(path string) string {
	return page.address("", "cuts", strings.TrimSpace(page.Cuts+"\n"+path))
}

// fileOf is the address of the flat panel in a form.
func (page madePage) fileOf(form string) string { return page.address("/file", "form", form) }

func (p place) panelFlat(r *web.Request) error {
	page, err := p.madePage(r, r.Asked())
	if err != nil {
		return err
	}
	if r.As() == "json" {
		said := map[string]any{"surface": page.Surface, "trouble": page.Trouble}
		if page.Panel != nil {
			said["forming"], said["bends"], said["figures"], said["places"], said["cuts"] = page.Panel.Forming, page.Panel.Bends, page.Panel.Figures(), page.Places, page.Panel.Joints()
		}
		return r.JSON(said)
	}
	if r.Partial() {
		return r.Fragment(panelTold(page), relief.Data(page.board(), false))
	}
	return p.desk.Page(r, page.dressed(), showPanelFlat(page))
}

func (page madePage) dressed() web.Sheet {
	return web.Sheet{Place: "metal", Shown: "panel " + string(page.Surface.ID) + " laid flat", Scripts: []string{relief.Script}}
}

// sum says in a sentence what came of it.
func (page madePage) sum() string {
	switch {
	case page.Trouble != "":
		return "It is not laid flat: " + page.Trouble
	case page.Work.Open():
		return "It is being laid flat; the picture before stays meanwhile."
	case page.Panel == nil && page.Work.Asked():
		return "It could not be laid flat."
	case page.Panel == nil:
		return "Nothing is laid flat yet."
	}
	words := "In one piece. "
	if n := len(page.Panel.Outlines()); n > 1 {
		words = fmt.Sprintf("In %d pieces. ", n)
	}
	return words + page.Panel.Says()
}
