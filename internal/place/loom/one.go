package loom

import (
	"context"
	"fmt"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
	"fettle/unit"
)

func (p place) oneRoutes() []web.Route {
	at := "/b/{build}/loom/circuit"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.newOne},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.setOne},
		{Pattern: "GET " + at + "/{id}", Who: web.Guest, Handle: p.one},
		{Pattern: "POST " + at + "/{id}/drop", Who: web.Crew, Handle: p.dropOne},
	}
}

// onePage is one circuit with everything about it.
type onePage struct {
	sheet
	Circuit build.Circuit
	New     bool
	Found   []stage.Row
	Told    []told // heat and short circuit of its runs
	Way     table.Table
	Fuse    *stage.FuseLoad
	Others  []build.Circuit // on its fuse
	formed
}

func (p place) newOne(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := onePage{sheet: s, New: true, Circuit: build.Circuit{ID: s.nextCircuit(), Duty: "cont", DropLimit: usualDrop}}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "a circuit"}, showOne(page))
}

func (s sheet) nextCircuit() string {
	for n := len(s.Build.Circuits) + 1; ; n++ {
		if id := fmt.Sprintf("C%02d", n); s.Build.Circuit(id) == nil {
			return id
		}
	}
}

func (p place) one(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c := s.Build.Circuit(r.Path("id"))
	if c == nil {
		return fault.New(fault.NotFound, "there is no circuit %q", r.Path("id"))
	}
	page := s.onePage(r.Context(), *c)
	if r.As() == "json" {
		return r.JSON(map[string]any{"circuit": c, "worked_out": page.Found})
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "circuit " + c.ID}, showOne(page))
}

// onePage is a circuit with all that follows for it.
func (s sheet) onePage(ctx context.Context, c build.Circuit) onePage {
	page := onePage{sheet: s, Circuit: c, Found: s.of(c.ID)}
	for _, x := range s.judged(ctx, c.ID) {
		page.Told = append(page.Told, s.heat(x), s.short(x))
	}
	if len(page.Found) > 0 {
		page.Way = s.wayTable(c)
		page.Fuse, page.Others = s.neighbours(c)
	}
	return page
}

// setOne lays a circuit on the slip.
func (p place) setOne(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c, changes := s.typedOne(f)
	desk.Holds(f, s.Build, "id", changes...)
	if f.Err() != nil {
		page := onePage{sheet: s, Circuit: c, New: true}
		if kept := s.Build.Circuit(c.ID); kept != nil {
			page = s.onePage(r.Context(), *kept)
		}
		page.Circuit, page.formed = c, typed(f)
		return r.Invalid(web.Sheet{Place: "loom", Shown: "a circuit"}, showOne(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

// typedOne reads the form of a circuit: what is not in it stays as it is.
func (s sheet) typedOne(f *web.Form) (build.Circuit, []build.Change) {
	var c build.Circuit
	id := strings.ToUpper(f.Text("id", 1, 12))
	if kept := s.Build.Circuit(id); kept != nil {
		c = *kept
	}
	c.ID, c.Name, c.From, c.To = id, f.Text("name", 1, 80), f.Text("from", 1, 80), f.Text("to", 1, 80)
	c.Length = unit.Length(f.Decimal("length", 3, 1, mostMetres*1000)) * unit.Millimetre
	c.Load = float64(f.Decimal("load", 2, 0, mostAmps*100)) / 100
	c.DropLimit = float64(f.Decimal("limit", 2, 1, 100*100)) / 100
	c.Duty, c.Colour = f.Choice("duty", field.Values(duties)...), f.Text("colour", 0, 20)
	c.Pair, c.Section, c.Label, c.Unfused = f.Text("pair", 0, 40), f.Text("section", 0, 20), f.Text("label", 0, 40), f.Text("unfused", 0, 120)
	c.Feed = f.Has("feed")
	fuse, amps, err := readFuse(s.Build, f.Raw("fuse"))
	if err != nil {
		f.Fail("fuse", err.Error())
	}
	c.Fuse, c.FuseA = fuse, amps
	var changes []build.Change
	if kept := s.Build.Loom.Fuse(fuse); kept != nil && kept.Amps != amps {
		anew := *kept
		anew.Amps = amps
		changes = append(changes, &build.SetFuse{Fuse: anew})
	}
	return c, append(changes, &build.SetCircuit{Circuit: c})
}

func (p place) dropOne(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.DropWired{What: "circuit", ID: r.Path("id")})
}

func (page onePage) duties() []field.Option {
	list := make([]field.Option, len(duties))
	for i, o := range duties {
		o.Picked = o.Value == page.value("duty", page.Circuit.Duty)
		list[i] = o
	}
	return list
}

func orEmpty(v float64) string {
	if v == 0 {
		return ""
	}
	return number(v)
}
