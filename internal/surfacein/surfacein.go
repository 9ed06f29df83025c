// Package surfacein takes scanned or modelled surfaces in from a form, keeps
// them in the vault and gives them back.
package surfacein

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/meshfile"
	"fettle/internal/vault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// FileLimit is the most a file of a surface may weigh, in bytes; mostMesh is
// what the vault gives back at most.
const (
	FileLimit = 128 << 20
	mostMesh  = 256 << 20
)

// Accept are the files that are read, as a file field takes them.
const Accept = ".stl,.obj,.ply,.glb,.gltf,.3mf"

// Units are the units that a file can be said to be in.
func Units(picked string) []field.Option {
	return field.Pick([]field.Option{{Value: "", Label: "as the file says", Hint: "else millimetres"}, {Value: "1", Label: "millimetres"}, {Value: "10", Label: "centimetres"}, {Value: "1000", Label: "metres"}, {Value: "25.4", Label: "inches"}}, picked)
}

// Take reads the form of a surface, and keeps its mesh in the vault where all of
// it is right; what is wrong is said beside its field.
func Take(r *web.Request, v vault.Vault, f *web.Form, use build.SurfaceUse) build.Surface {
	one := build.Surface{ID: build.SurfaceID(strings.ToUpper(f.Text("id", 1, 12))), Name: f.Text("name", 1, 80), Note: f.Text("note", 0, 400), Use: use}
	if m := Read(f, &one); f.Err() == nil {
		Keep(r, v, f, &one, m)
	}
	return one
}

// Read reads the file of a form and fills in what was read of it; what stands against it is said beside
// its field.
func Read(f *web.Form, one *build.Surface) mesh.Mesh {
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

// Keep puts a mesh into the vault.
func Keep(r *web.Request, v vault.Vault, f *web.Form, one *build.Surface, m mesh.Mesh) {
	if v == nil {
		f.Fail("file", "cannot be kept: this server keeps no scans")
		return
	}
	kept, err := v.Put(r.Context(), bytes.NewReader(mesh.Pack(m)), mostMesh)
	if err != nil {
		f.Fail("file", "was not kept: "+err.Error())
		return
	}
	one.Scan = build.ScanHash(kept.Hash)
}

// Open gives back the mesh of a surface, in mm.
func Open(ctx context.Context, v vault.Vault, one build.Surface) (mesh.Mesh, error) {
	if v == nil {
		return mesh.Mesh{}, fault.New(fault.NotFound, "this server keeps no scans")
	}
	file, _, err := v.Open(ctx, string(one.Scan))
	if err != nil {
		return mesh.Mesh{}, fault.Within(err, "the scan of surface "+string(one.ID))
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, mostMesh))
	if err != nil {
		return mesh.Mesh{}, fault.Wrap(fault.Internal, err, "read the scan")
	}
	return mesh.Unpack(data)
}
