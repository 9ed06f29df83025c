package meshfile_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/meshfile"
	"fettle/geom/ply"
	"fettle/geom/stl"
	"pgregory.net/rapid"
)

// forms are all ways to write a file. One that is whole can be told from one cut
// off, anywhere, or only where the last word or row is hurt.
var forms = []struct {
	name  string
	whole bool
	exact bool // places come back with all their bits
	write func(w io.Writer, m mesh.Mesh) error
}{
	{"a.stl", true, false, ending("a.stl")},
	{"text.stl", false, true, stl.WriteText},
	{"a.obj", false, true, ending("a.obj")},
	{"a.ply", true, true, plyForm(ply.LittleEndian)},
	{"big.ply", true, true, plyForm(ply.BigEndian)},
	{"text.ply", false, true, plyForm(ply.Text)},
	{"a.glb", true, false, ending("a.glb")},
	{"a.3mf", true, true, ending("a.3mf")},
}

func ending(name string) func(io.Writer, mesh.Mesh) error {
	return func(w io.Writer, m mesh.Mesh) error { return meshfile.Write(w, name, mesh.Model{Mesh: m}) }
}

func plyForm(f ply.Form) func(io.Writer, mesh.Mesh) error {
	return func(w io.Writer, m mesh.Mesh) error { return ply.Write(w, mesh.Model{Mesh: m}, f) }
}

// awkward are numbers that formats are known to lose.
var awkward = []float64{0, math.Copysign(0, -1), 5e-324, -1e-300, 1e-45, 0.1, -1. / 3, math.Nextafter(1, 2), 123456.789012345, 16777217, 1e9, -1e9}

// TestRoundTrip_Awkward takes meshes of any shape and awkward numbers through
// every format: the faces come back in their order, and every corner where it
// was, as near as the format's numbers can say it.
func TestRoundTrip_Awkward(t *testing.T) {
	number := rapid.OneOf(rapid.SampledFrom(awkward), rapid.Float64Range(-1e9, 1e9), rapid.Float64Range(-1, 1))
	rapid.Check(t, func(t *rapid.T) {
		var m mesh.Mesh
		n := rapid.IntRange(1, 12).Draw(t, "points")
		for range n {
			m.Points = append(m.Points, mesh.Vec{X: number.Draw(t, "x"), Y: number.Draw(t, "y"), Z: number.Draw(t, "z")})
		}
		index := rapid.Int32Range(0, int32(n-1))
		for range rapid.IntRange(1, 12).Draw(t, "faces") {
			m.Faces = append(m.Faces, mesh.Face{index.Draw(t, "a"), index.Draw(t, "b"), index.Draw(t, "c")})
		}
		for _, c := range forms {
			var out bytes.Buffer
			if err := c.write(&out, m); err != nil {
				t.Fatal(c.name, err)
			}
			got, err := meshfile.Read(c.name, out.Bytes(), 0, mesh.Limits{})
			if err != nil || len(got.Model.Mesh.Faces) != len(m.Faces) {
				t.Fatalf("%s: %d of %d faces, %v", c.name, len(got.Model.Mesh.Faces), len(m.Faces), err)
			}
			for f, face := range got.Model.Mesh.Faces {
				for k, v := range face {
					p, want := got.Model.Mesh.Points[v], m.Points[m.Faces[f][k]]
					if c.exact && p != want || !c.exact && !sameFloat(p, want) {
						t.Fatalf("%s: corner %d of face %d is %v, was %v", c.name, k, f, p, want)
					}
				}
			}
		}
	})
}

// sameFloat allows for two roundings to 24 bits, or for what is too small for
// them.
func sameFloat(p, want mesh.Vec) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 2.5e-7*math.Abs(b)+1e-41 }
	return near(p.X, want.X) && near(p.Y, want.Y) && near(p.Z, want.Z)
}

// TestRead_CutOff cuts a small file of each format off at every byte: nothing
// falls over, no face is made up, and who can tell refuses.
func TestRead_CutOff(t *testing.T) {
	small, _ := bowl().Mesh.Only([]int32{0, 1, 2})
	for _, c := range forms {
		var out bytes.Buffer
		if err := c.write(&out, small); err != nil {
			t.Fatal(err)
		}
		for n := range out.Len() {
			got, err := meshfile.Read(c.name, out.Bytes()[:n], 0, mesh.Limits{})
			if err == nil && (c.whole || len(got.Model.Mesh.Faces) > len(small.Faces)) {
				t.Errorf("%s, the first %d of %d bytes were taken: %d faces", c.name, n, out.Len(), len(got.Model.Mesh.Faces))
			}
			if err != nil && fault.KindOf(err) != fault.Invalid {
				t.Errorf("%s, the first %d bytes: %v", c.name, n, err)
			}
		}
	}
}

// TestRead_CutOffText: text of faces that stops between two of them cannot be
// told from a whole one but by its last word, which is missed aloud.
func TestRead_CutOffText(t *testing.T) {
	var out bytes.Buffer
	if err := stl.WriteText(&out, bowl().Mesh); err != nil {
		t.Fatal(err)
	}
	text := out.String()
	half := text[:strings.Index(text[len(text)/2:], "facet normal")+len(text)/2]
	for _, c := range []struct {
		text string
		left int
	}{{text, 0}, {half, 1}} {
		got, err := meshfile.Read("a.stl", []byte(c.text), 0, mesh.Limits{})
		if err != nil || len(got.Model.Left) != c.left || c.left == 1 && !strings.Contains(got.Model.Left[0].What, "endsolid") {
			t.Errorf("left %v, %v", got.Model.Left, err)
		}
	}
}

// at writes a 32-bit word over a file.
func at(data []byte, offset int, word uint32) []byte {
	data = bytes.Clone(data)
	binary.LittleEndian.PutUint32(data[offset:], word)
	return data
}

// TestRead_Boasts: headers that promise thousands of millions of things are
// refused before memory is asked for.
func TestRead_Boasts(t *testing.T) {
	small, _ := bowl().Mesh.Only([]int32{0, 1})
	of := func(name string) []byte { return written(t, name, mesh.Model{Mesh: small}) }
	text := func(form ply.Form, old, new string) []byte {
		var out bytes.Buffer
		if err := ply.Write(&out, mesh.Model{Mesh: small}, form); err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(out.Bytes(), []byte(old)) {
			t.Fatalf("no %q", old)
		}
		return bytes.Replace(out.Bytes(), []byte(old), []byte(new), 1)
	}
	glb := func(old, new string) []byte { // of the same length, so that no chunk moves
		data := of("a.glb")
		if !bytes.Contains(data, []byte(old)) || len(old) > len(new) {
			t.Fatalf("no %q in %s", old, data)
		}
		spare := len(new) - len(old)
		n := binary.LittleEndian.Uint32(data[12:])
		data = at(at(data, 12, n+uint32(spare)), 8, uint32(len(data)+spare))
		return bytes.Replace(data, []byte(old), []byte(new), 1)
	}
	const many = 1_000_000_000
	for _, c := range []struct {
		name string
		data []byte
	}{
		{"a.stl", at(of("a.stl"), 80, many)},
		{"a.stl", at(of("a.stl"), 80, math.MaxUint32)},
		{"a.ply", text(ply.Text, "vertex 4", "vertex 1000000000")},
		{"a.ply", text(ply.LittleEndian, "vertex 4", "vertex 1000000000")},
		{"a.ply", text(ply.Text, "face 2", "face 1000000000")},
		{"a.ply", text(ply.BigEndian, "face 2", "face 1000000000")},
		{"a.ply", text(ply.BigEndian, "face 2", "face 99999999999999999999")},
		{"a.ply", text(ply.LittleEndian, "list uchar int", "list uint uint")},
		{"a.ply", text(ply.LittleEndian, "list uchar int", "list int int")},
		{"a.glb", at(of("a.glb"), 8, many)},
		{"a.glb", at(of("a.glb"), 12, many)},
		{"a.glb", at(of("a.glb"), 12, math.MaxUint32)},
		{"a.glb", glb(`"count":4`, `"count":1000000000`)},
		{"a.glb", glb(`"count":4`, `"count":9223372036854775807`)},
		{"a.glb", glb(`"count":6`, `"count":1000000000`)},
		{"a.glb", glb(`"byteLength":`, `"byteLength":1000000000`)},
		{"a.glb", glb(`"bufferView":0`, `"bufferView":0,"byteOffset":9223372036854775807`)},
		{"a.glb", glb(`"bufferView":0`, `"bufferView":1000000000`)},
		{"a.obj", []byte("v 0 0 0\nf 1 1 1000000000\n")},
		{"a.obj", []byte("v 0 0 0\nf 1 1 -1000000000\n")},
		{"a.obj", []byte("v 0 0 0\nf" + strings.Repeat(" 1", 1_000_000))},
		{"a.3mf", zipped(t, "<model><object id='1'><triangle v1='0' v2='0' v3='1000000000'/></object></model>", zip.Store)},
		{"a.3mf", zipped(t, "<model>"+strings.Repeat(" ", 300<<20)+"</model>", zip.Deflate)},
	} {
		var before, after runtime.MemStats
		size := len(c.data)
		runtime.ReadMemStats(&before)
		_, err := meshfile.Read(c.name, c.data, 0, mesh.Limits{})
		runtime.ReadMemStats(&after)
		if k := fault.KindOf(err); err == nil || k != fault.Invalid && k != fault.TooLarge {
			t.Errorf("%s, %.60q: %v", c.name, c.data, err)
		}
		// the archive is unpacked up to the limit before anybody knows what is in it
		most := uint64(64<<20 + 100*size)
		if c.name == "a.3mf" {
			most = 5 * mesh.MaxBytes
		}
		if got := after.TotalAlloc - before.TotalAlloc; got > most {
			t.Errorf("%s, %.60q: %d MB asked for by %d bytes", c.name, c.data, got>>20, size)
		}
	}
	packed := mesh.Pack(small)
	for _, offset := range []int{8, 12} {
		if _, err := mesh.Unpack(at(packed, offset, many)); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("packed: %v", err)
		}
	}
}

func zipped(t *testing.T, text string, method uint16) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	w, err := z.CreateHeader(&zip.FileHeader{Name: "3D/3dmodel.model", Method: method})
	if err == nil {
		_, err = io.WriteString(w, text)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestRead_Mute: what is left out costs no more than its bytes: things without
// faces that nodes repeat over and over are refused.
func TestRead_Mute(t *testing.T) {
	node := `{"mesh":0,"children":[%s]},`
	var nodes strings.Builder
	for i := range 5 { // 10^5 nodes
		fmt.Fprintf(&nodes, node, strings.TrimSuffix(strings.Repeat(fmt.Sprint(i+1, ","), 9), ","))
	}
	nodes.WriteString(`{"mesh":0}`)
	text := `{"asset":{"version":"2.0"},"scenes":[{"nodes":[0]}],"nodes":[` + nodes.String() + `],"meshes":[{"primitives":[` +
		strings.TrimSuffix(strings.Repeat("{},", 100_000), ",") + `]}]}`
	if _, err := meshfile.Read("a.gltf", []byte(text), 0, mesh.Limits{}); fault.KindOf(err) != fault.TooLarge {
		t.Errorf("7 thousand million primitives without faces: %v", err)
	}
}

// TestRead_UnitGuesses: the bounds of what is believed, and what is offered
// beyond them, the likelier first.
func TestRead_UnitGuesses(t *testing.T) {
	for _, c := range []struct {
		longest float64 // in the file, that says no unit
		rather  string
	}{
		{120, "believed"}, {8000, "believed"}, {500, "believed"},
		{119.9, "inches centimetres"}, {8000.1, ""},
		{0.199, ""}, {0.2, "metres"}, {6.5, "metres"}, {7.8, ""}, {7.9, "inches"}, {19.9, "inches"}, {20, "inches centimetres"}, {100, "inches centimetres"},
		{199_999, ""}, {200_001, "micrometres"}, {6_499_999, "micrometres"}, {6_500_001, ""}, {1e-9, ""}, {1e9, ""},
	} {
		m := mesh.Mesh{Points: []mesh.Vec{{}, {X: c.longest}, {Y: c.longest / 2}}, Faces: []mesh.Face{{0, 1, 2}}}
		f, err := meshfile.Read("a.obj", written(t, "a.obj", mesh.Model{Mesh: m}), 0, mesh.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		got := "believed"
		if f.Doubt != nil {
			var names []string
			for _, g := range f.Doubt.Rather {
				names = append(names, g.Name)
				if g.Longest != c.longest*g.Unit {
					t.Errorf("%g in %s is said to be %g mm", c.longest, g.Name, g.Longest)
				}
			}
			got = strings.Join(names, " ")
		}
		if got != c.rather {
			t.Errorf("a longest side of %g: %q, want %q", c.longest, got, c.rather)
		}
	}
}
