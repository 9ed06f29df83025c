package meshfile_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/meshfile"
)

// bowl is a wavy sheet of 500 by 300 mm.
func bowl() mesh.Model {
	var m mesh.Mesh
	const n = 12
	for j := range n + 1 {
		for i := range n + 1 {
			x, y := 500*float64(i)/n, 300*float64(j)/n
			m.Points = append(m.Points, mesh.Vec{X: x, Y: y, Z: 40 * math.Sin(x/100) * math.Cos(y/90)})
		}
	}
	for j := range n {
		for i := range n {
			v := int32(j*(n+1) + i)
			m.Faces = append(m.Faces, mesh.Face{v, v + 1, v + n + 2}, mesh.Face{v, v + n + 2, v + n + 1})
		}
	}
	return mesh.Model{Mesh: m, Unit: 1}
}

func written(t testing.TB, name string, m mesh.Model) []byte {
	var out bytes.Buffer
	if err := meshfile.Write(&out, name, m); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

var written5 = []struct {
	name   string
	format meshfile.Format
	known  meshfile.Known
}{
	{"a.stl", meshfile.STL, meshfile.Assumed}, {"a.OBJ", meshfile.OBJ, meshfile.Assumed}, {"a.ply", meshfile.PLY, meshfile.Assumed},
	{"a.glb", meshfile.GLTF, meshfile.Stated}, {"a.3mf", meshfile.ThreeMF, meshfile.Stated},
}

func TestRoundTrip(t *testing.T) {
	m := bowl()
	for _, c := range written5 {
		for _, name := range []string{c.name, "without an ending", "wrong.ply"} {
			f, err := meshfile.Read(name, written(t, c.name, m), 0, mesh.Limits{})
			if err != nil || f.Format != c.format || f.Known != c.known || f.Doubt != nil || f.Model.Unit != 1 {
				t.Errorf("%s read as %s: %s, %v, doubt %v, %v", c.name, name, f.Format, f.Known, f.Doubt, err)
				continue
			}
			checkSame(t, c.name, f.Model.Mesh, m.Mesh)
			if math.Abs(f.Size.X-500) > 1e-3 || math.Abs(f.Size.Y-300) > 1e-3 {
				t.Errorf("%s: size %v", c.name, f.Size)
			}
		}
	}
}

// checkSame compares corner by corner: points may come in another order.
func checkSame(t *testing.T, name string, got, want mesh.Mesh) {
	t.Helper()
	if len(got.Points) != len(want.Points) || len(got.Faces) != len(want.Faces) {
		t.Errorf("%s: %d / %d, want %d / %d", name, len(got.Points), len(got.Faces), len(want.Points), len(want.Faces))
		return
	}
	for f, face := range got.Faces {
		for k, v := range face {
			if d := got.Points[v].Sub(want.Points[want.Faces[f][k]]).Length(); d > 1e-4*(1+want.Points[want.Faces[f][k]].Length()/500) {
				t.Errorf("%s: corner %d of face %d is %g away", name, k, f, d)
				return
			}
		}
	}
}

// TestRoundTrip_Given takes surfaces whose shape is known through every format.
func TestRoundTrip_Given(t *testing.T) {
	names, err := filepath.Glob("../../../shared/data/mesh/*/*.obj")
	if err != nil || len(names) == 0 {
		t.Skip("no test data")
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		in, err := meshfile.Read(name, data, 1, mesh.Limits{})
		if err != nil || in.Known != meshfile.Told {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, c := range written5 {
			f, err := meshfile.Read(c.name, written(t, c.name, in.Model), 0, mesh.Limits{})
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			want := in.Model.Mesh
			if c.format == meshfile.STL || c.format == meshfile.GLTF {
				want, _ = want.Weld(0) // points at one place become one
			}
			checkSame(t, filepath.Base(name)+" as "+c.name, f.Model.Mesh, want)
		}
	}
}

func TestRead_Unit(t *testing.T) {
	metres := bowl()
	metres.Mesh = metres.Mesh.Scale(0.001)
	for _, c := range []struct {
		name   string
		scale  float64 // of a bowl in millimetres
		told   float64
		length float64
		says   string
	}{
		{"millimetres", 1, 0, 500, ""},
		{"metres", 0.001, 0, 0.5, "The longest side is 0.5 mm, which is not that of a part. If the file is in metres, it is 500 mm. Say which unit is right: nothing was scaled."},
		{"inches", 1 / 25.4, 0, 500 / 25.4, "If the file is in inches, it is 500 mm."},
		{"centimetres", 0.1, 0, 50, "If the file is in inches, it is 1270 mm; in centimetres, 500 mm."},
		{"micrometres", 1000, 0, 500000, "If the file is in micrometres, it is 500 mm."},
		{"a grain of sand", 1e-9, 0, 5e-7, "not that of a part. Say which unit"},
		{"metres, as told", 0.001, 1000, 500, ""},
		{"small, as told", 0.1, 1, 50, ""},
	} {
		m := bowl()
		m.Mesh, m.Unit = m.Mesh.Scale(c.scale), 0
		f, err := meshfile.Read("a.obj", written(t, "a.obj", m), c.told, mesh.Limits{})
		if err != nil || math.Abs(f.Size.X-c.length) > 1e-9*c.length {
			t.Errorf("%s: size %v, %v; want %g", c.name, f.Size, err, c.length)
		}
		if (f.Doubt == nil) != (c.says == "") || f.Doubt != nil && !strings.Contains(f.Doubt.String(), c.says) {
			t.Errorf("%s: doubt %v, want %q", c.name, f.Doubt, c.says)
		}
	}
	// a file that says metres and means millimetres
	wrong := bowl()
	wrong.Unit = 1000
	f, err := meshfile.Read("a.glb", written(t, "a.glb", wrong), 0, mesh.Limits{})
	if err != nil || f.Known != meshfile.Stated || f.Doubt == nil || f.Doubt.Rather[0].Name != "millimetres" && f.Doubt.Rather[1].Name != "millimetres" {
		t.Errorf("%v, doubt %v, %v", f.Known, f.Doubt, err)
	}
	if _, err := meshfile.Read("a.obj", nil, math.NaN(), mesh.Limits{}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("a unit that is no number: %v", err)
	}
}

func TestRead_Refuses(t *testing.T) {
	for _, c := range []struct {
		name, data, says, hint string
	}{
		{"a.stl", "", "the file is empty", ""},
		{"a.obj", " \n", "the file is empty", ""},
		{"a.obj", "# nothing\n", "there is no face in the file", ""},
		{"a.xyz", "v 1 2 3\nv 1 2 4", "the file has 2 points and no face", "surface of the points"},
		{"dir/a.xyz", "1 2 3\n", `"a.xyz" is of no known format`, "Save it as triangles"},
		{"a.stl", "ISO-10303-21;\n", "an exact model (STEP)", "Save it as triangles"},
		{"a.obj", "\x89PNG\r\n", "a picture", "Save it as triangles"},
		{"a.3mf", "not a zip", "not a whole zip archive", "copied to its end"},
		{"a.stl", "solid\nfacet x\nloop", "line 3:", ""},
		{"a.stl", "v 1 2 3", "7 bytes: too few", ""},
	} {
		_, err := meshfile.Read(c.name, []byte(c.data), 0, mesh.Limits{})
		if err == nil || fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.says) || !strings.Contains(fault.HintOf(err), c.hint) {
			t.Errorf("%s %q: %v (%s), want %s (%s)", c.name, c.data, err, fault.HintOf(err), c.says, c.hint)
		}
	}
	for _, c := range written5 {
		for _, l := range []mesh.Limits{{Bytes: 100}, {Points: 100}, {Faces: 100}} {
			if _, err := meshfile.Read(c.name, written(t, c.name, bowl()), 0, l); fault.KindOf(err) != fault.TooLarge || fault.HintOf(err) == "" {
				t.Errorf("%s, %+v: %v, want too large, and what to do", c.name, l, err)
			}
		}
	}
	if err := meshfile.Write(&bytes.Buffer{}, "a.dxf", bowl()); fault.KindOf(err) != fault.Invalid {
		t.Errorf("written as .dxf: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	small := bowl()
	small.Mesh.Faces = small.Mesh.Faces[:2]
	small.Mesh, _ = small.Mesh.Only([]int32{0, 1})
	for _, c := range written5 {
		f.Add(c.name, written(f, c.name, small))
	}
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		in, err := meshfile.Read(name, data, 0, mesh.Limits{Bytes: 1 << 16, Points: 1000, Faces: 1000})
		if err != nil {
			return
		}
		repaired, _, _ := in.Model.Mesh.Repair(mesh.RepairOptions{Weld: true, Within: 1e-3, Longest: 10})
		if a := repaired.Adjacency(); len(a.Tangled) > 0 {
			t.Errorf("repaired, %d half-edges are tangled", len(a.Tangled))
		}
		for _, f := range repaired.Check() {
			if f.What == mesh.Tangled || f.What == mesh.Against || f.What == mesh.Tips {
				t.Errorf("repaired, and still: %v", f)
			}
		}
	})
}
