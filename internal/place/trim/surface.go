package trim

import (
	"fmt"
	"net/url"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/internal/surfacein"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
)

func (p place) surfaceRoutes() []web.Route {
	at := "/b/{build}/trim/surface"
	return []web.Route{
		{Pattern: "GET /b/{build}/trim/surfaces", Who: web.Guest, Handle: p.surfaces},
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.blankSurface},
		{Pattern: "POST " + at, Who: web.Crew, MaxBody: surfacein.FileLimit + 1<<20, Handle: p.takeSurface},
		{Pattern: "GET " + at + "/{surface}", Who: web.Guest, Handle: p.surface},
		{Pattern: "POST " + at + "/{surface}/keep", Who: web.Crew, Handle: p.keepFlat},
		{Pattern: "POST " + at + "/{surface}/lay", Who: web.Crew, Handle: p.layLong},
		{Pattern: "POST " + at + "/{surface}/propose", Who: web.Crew, Handle: p.proposeCuts},
	}
}

func (s sheet) surfacePath(id build.SurfaceID) string {
	return s.At() + "/surface/" + url.PathEscape(string(id))
}

// surfacesPage lists the surfaces that are laid flat for trim.
type surfacesPage struct {
	sheet
	Count int
	Table table.Table
}

func (p place) surfaces(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := surfacesPage{sheet: s}
	t := table.Table{ID: "surfaces", Caption: "Surfaces, as scanned or modelled", Self: s.At() + "/surfaces", Empty: "No surface is taken in yet.", Columns: []table.Column{
		{Head: "Surface"}, {Head: "What it is", Wide: true}, {Head: "Read from", Wide: true}, {Head: "Area", Unit: "m²", Number: true}, {Head: "Faces", Number: true}, {Head: "Patterns from it", Wide: true}}}
	list := s.Build.SurfacesFor(build.ForTrim)
	page.Count = len(list)
	for _, one := range list {
		t.Rows = append(t.Rows, table.Row{ID: "surface-" + string(one.ID), Cells: []table.Cell{table.Link(string(one.ID), s.surfacePath(one.ID)), table.Text(one.Name), table.Text(one.File),
			table.Text(m2(one.Area)), table.Text(strconv.Itoa(one.Faces)), table.Text(s.patternsFrom(one))}})
	}
	page.Table = t
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-surfaces.csv", t.Records())
	case "json":
		return r.JSON(list)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d surfaces", page.Count)}, showSurfaces(page))
}

// patternsFrom names the pieces whose pattern comes from a surface, and says
// which are of an older scan.
func (s sheet) patternsFrom(one build.Surface) string {
	var list []string
	for _, piece := range s.Build.Pieces {
		p := s.Build.Pattern(piece.ID)
		if p == nil || p.Source.Surface != one.ID {
			continue
		}
		words := string(piece.ID)
		if p.Source.Scan != one.Scan {
			words += " (of an older scan)"
		}
		list = append(list, words)
	}
	return strings.Join(list, ", ")
}

// surfaceOf is the surface that the request names, with its mesh in mm.
func (p place) surfaceOf(r *web.Request, s sheet) (build.Surface, mesh.Mesh, error) {
	one := s.Build.Surface(build.SurfaceID(r.Path("surface")))
	if one == nil {
		return build.Surface{}, mesh.Mesh{}, fault.New(fault.NotFound, "there is no surface %q", r.Path("surface"))
	}
	m, err := surfacein.Open(r.Context(), p.desk.Vault, *one)
	return *one, m, err
}

// readWords says in a line what was read of a surface.
func readWords(one build.Surface) string {
	words := fmt.Sprintf("%d vertices, %d faces, %s", one.Vertices, one.Faces, one.Area)
	if one.File != "" {
		words = one.File + ": " + words
	}
	return words
}
