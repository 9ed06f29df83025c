package trim

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/geom/meshfile"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// surfaceForm is the form by which a surface is taken in.
type surfaceForm struct {
	sheet
	acts
	Surface build.Surface
}

// fileUnits are the units that a file can be said to be in.
func fileUnits(picked string) []field.Option {
	list := []field.Option{{Value: "", Label: "as the file says", Hint: "else millimetres"}, {Value: "1", Label: "millimetres"}, {Value: "10", Label: "centimetres"}, {Value: "1000", Label: "metres"}, {Value: "25.4", Label: "inches"}}
	for i := range list {
		list[i].Picked = list[i].Value == picked
	}
	return list
}

func (s sheet) nextSurface() build.SurfaceID {
	for n := len(s.Build.Surfaces) + 1; ; n++ {
		if id := build.SurfaceID(fmt.Sprintf("S%d", n)); s.Build.Surface(id) == nil {
			return id
		}
	}
}

func (p place) blankSurface(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := surfaceForm{sheet: s, Surface: build.Surface{ID: s.nextSurface()}}
	if old := s.Build.Surface(build.SurfaceID(r.Query("again"))); old != nil {
		page.Surface = *old
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "a surface"}, showSurfaceForm(page))
}

// takeSurface reads a surface, puts small faults right, keeps it in the vault
// and lays the fact on the slip.
func (p place) takeSurface(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	one := build.Surface{ID: build.SurfaceID(strings.ToUpper(f.Text("id", 1, 12))), Name: f.Text("name", 1, 80), Note: f.Text("note", 0, 400), Use: build.ForTrim}
	m := readSurface(f, &one)
	if f.Err() == nil {
		p.keepMesh(r, f, &one, m)
	}
	c := &build.SetSurface{Surface: one}
	desk.Holds(f, s.Build, "file", c)
	if f.Err() != nil {
		page := surfaceForm{sheet: s, acts: acts{Open: "surface", Wrong: f.Errors, typed: f.Raw}, Surface: one}
		return r.Invalid(web.Sheet{Place: "trim", Shown: "a surface"}, showSurfaceForm(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", c)
}

// readSurface reads the file of a form; what stands against it is said beside
// its field.
func readSurface(f *web.Form, one *build.Surface) mesh.Mesh {
	scale := map[string]float64{"": 0, "1": 1, "10": 10, "1000": 1000, "25.4": 25.4}[f.Choice("unit", "", "1", "10", "1000", "25.4")]
	file, head := f.File("file")
	if file == nil {
		f.Fail("file", "is not chosen")
		return mesh.Mesh{}
	}
	defer file.Close()
	data, err := io.ReadAll(file)
	if err != nil {
		f.Fail("file", "could not be read: "+err.Error())
		return mesh.Mesh{}
	}
	read, err := meshfile.Read(head.Filename, data, scale, mesh.Limits{})
	if err != nil {
		f.Fail("file", "is not taken: "+err.Error())
		return mesh.Mesh{}
	}
	if read.Doubt != nil {
		f.Fail("unit", "is in doubt. "+read.Doubt.String())
		return mesh.Mesh{}
	}
	m, _, did := read.Model.Mesh.Repair(mesh.RepairOptions{Weld: true})
	for _, found := range m.Check() {
		if found.What.Stops() || found.What == mesh.Apart {
			f.Fail("file", "cannot be laid flat yet: "+found.String())
			return m
		}
		one.Repairs = append(one.Repairs, found.String())
	}
	one.File, one.Scale = head.Filename, read.Unit
	one.Repairs = append([]string{fmt.Sprintf("Unit: %s; %.0f × %.0f × %.0f mm.", read.Known, read.Size.X, read.Size.Y, read.Size.Z)}, one.Repairs...)
	for _, d := range did {
		one.Repairs = append(one.Repairs, d.String()+".")
	}
	one.Vertices, one.Faces, one.Area = len(m.Points), len(m.Faces), unit.Area(m.Area())
	return m
}

// keepMesh puts a mesh into the vault.
func (p place) keepMesh(r *web.Request, f *web.Form, one *build.Surface, m mesh.Mesh) {
	if p.desk.Vault == nil {
		f.Fail("file", "cannot be kept: this server keeps no scans")
		return
	}
	kept, err := p.desk.Vault.Put(r.Context(), bytes.NewReader(mesh.Pack(m)), meshLimit)
	if err != nil {
		f.Fail("file", "was not kept: "+err.Error())
		return
	}
	one.Scan = build.ScanHash(kept.Hash)
}
