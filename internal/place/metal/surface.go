package metal

import (
	"fmt"
	"net/url"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/surfacein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

func (p place) surfaceRoutes() []web.Route {
	at := "/b/{build}/metal/surface"
	return []web.Route{
		{Pattern: "GET " + at + "s", Who: web.Guest, Handle: p.surfaces},
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.newSurface},
		{Pattern: "POST " + at, Who: web.Crew, MaxBody: surfacein.FileLimit + 1<<20, Handle: p.takeSurface},
		{Pattern: "GET " + at + "/{surface}", Who: web.Guest, Handle: p.panelFlat},
		{Pattern: "GET " + at + "/{surface}/file", Who: web.Guest, Handle: p.panelFile},
		{Pattern: "POST " + at + "/{surface}/keep", Who: web.Crew, Handle: p.keepPanel},
		{Pattern: "POST " + at + "/{surface}/relief", Who: web.Crew, Handle: p.lookForCuts},
	}
}

func (s scene) surfacePath(id build.SurfaceID) string {
	return s.At() + "/surface/" + url.PathEscape(string(id))
}

// surfacesPage are the surfaces that panels are made by, and the form by which
// one is taken in.
type surfacesPage struct {
	scene
	foldActs
	Table table.Table
}

func (s scene) surfacesPage() surfacesPage {
	t := table.Table{ID: "surfaces", Caption: "Panels to be made, as scanned or modelled", Self: s.At() + "/surfaces", Empty: "No surface of a panel is taken in yet: a scan of the other side, mirrored, or a model. Its flat shape, and where it is stretched, shrunk or folded, follow.", Columns: []table.Column{
		{Head: "Surface"}, {Head: "What it is", Wide: true}, {Head: "Panel"}, {Head: "Read from", Wide: true}, {Head: "Area", Unit: "m²", Number: true}, {Head: "Faces", Number: true}}}
	for _, one := range s.Build.SurfacesFor(build.ForMetal) {
		panel := table.Text("")
		if one.Panel != "" {
			panel = table.Link(string(one.Panel), s.At()+"/panel/"+url.PathEscape(string(one.Panel)))
		}
		t.Rows = append(t.Rows, table.Row{ID: string(one.ID), Cells: []table.Cell{table.Link(string(one.ID), s.surfacePath(one.ID)), table.Text(one.Name), panel, table.Text(one.File), table.Text(fmt.Sprintf("%.3f", one.Area.M2())), table.Text(fmt.Sprint(one.Faces))}})
	}
	return surfacesPage{scene: s, Table: t}
}

func (p place) surfaces(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := s.surfacesPage()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-panels.csv", page.Table.Records())
	case "json":
		return r.JSON(s.Build.SurfacesFor(build.ForMetal))
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "panels to be made"}, showSurfaces(page))
}

func (p place) newSurface(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "a panel to be made"}, showSurfaceForm(s.surfacesPage()))
}

// takeSurface reads a surface, keeps it in the vault and lays the fact on the
// slip.
func (p place) takeSurface(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	one := surfacein.Take(r, p.desk.Vault, f, build.ForMetal)
	one.Panel = build.PanelID(f.Raw("panel"))
	change := &build.SetSurface{Surface: one}
	desk.Holds(f, s.Build, "panel", change)
	if f.Err() == nil {
		return p.desk.Propose(r, s.surfacePath(one.ID), change)
	}
	page := s.surfacesPage()
	page.foldActs = foldActs{Open: "surface", Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(web.Sheet{Place: "metal", Shown: "a panel to be made"}, showSurfaceForm(page))
}

func (s scene) nextSurface() string {
	return desk.NextID("U%d", len(s.Build.Surfaces), func(id string) bool { return s.Build.Surface(build.SurfaceID(id)) != nil })
}

// panelsToMake are the panels that a surface can be of, those to be made first.
func (s scene) panelsToMake(picked string) []field.Option {
	list := []field.Option{{Value: "", Label: "none on the list"}}
	for _, making := range []bool{true, false} {
		for _, p := range s.Build.Panels {
			if (p.Decision == build.Make) == making {
				list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.FullName(), Picked: string(p.ID) == picked})
			}
		}
	}
	return list
}
