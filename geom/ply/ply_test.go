package ply_test

import (
	"bytes"
	"encoding/binary"
	"math"
	"reflect"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/geom/ply"
)

var forms = []ply.Form{ply.Text, ply.LittleEndian, ply.BigEndian}

func model() mesh.Model {
	return mesh.Model{
		Mesh: mesh.Mesh{
			Points: []mesh.Vec{{X: 0.1}, {X: 1, Z: -1e-7}, {X: 1, Y: 1}, {Y: math.Pi}},
			Faces:  []mesh.Face{{0, 1, 2}, {0, 2, 3}},
		},
		UV: []geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {X: 5}, {X: 1, Y: 1}, {Y: 1. / 3}},
	}
}

func written(t testing.TB, m mesh.Model, form ply.Form) []byte {
	var out bytes.Buffer
	if err := ply.Write(&out, m, form); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestRoundTrip(t *testing.T) {
	bare := model()
	bare.UV = nil
	for _, form := range forms {
		for _, m := range []mesh.Model{model(), bare} {
			got, err := ply.Read(written(t, m, form), mesh.Limits{})
			if err != nil || !reflect.DeepEqual(got, m) {
				t.Errorf("%s: %+v, %v; want %+v", form, got, err, m)
			}
		}
		if got, err := ply.Read(written(t, mesh.Model{}, form), mesh.Limits{}); err != nil || len(got.Mesh.Faces) > 0 {
			t.Errorf("%s, empty: %+v, %v", form, got, err)
		}
	}
}

// odd has other orders, names, kinds and elements than we write.
const odd = `ply
format ascii 1.0
comment from a scanner
element camera 1
property list uchar float pose
property int id
obj_info of no use
element vertex 4
property uchar red
property double z
property float s
property float t
property short y
property float x
element face 1
property uchar flags
property list int uint vertex_index
element edge 2
property int vertex1
property int vertex2
end_header
2 0.5 0.5 7
255 9 0 0 0 0
255 9 1 0 0 2
255 9 1 1 1
2
255 9 0 1 1 0
3 4 0 1 2 3
0 1 1 2
`

func TestRead_Any(t *testing.T) {
	m, err := ply.Read([]byte(odd), mesh.Limits{})
	if err != nil || len(m.Mesh.Faces) != 2 || m.Mesh.Area() != 2 || m.Mesh.Points[2] != (mesh.Vec{X: 2, Y: 1, Z: 9}) {
		t.Fatalf("%+v, %v", m, err)
	}
	if len(m.UV) != 6 || m.UV[2] != (geom.Point{X: 1, Y: 1}) || len(m.Left) != 1 || m.Left[0].Count != 3 {
		t.Errorf("flat places %v, left %v", m.UV, m.Left)
	}
}

func TestRead_Kinds(t *testing.T) {
	for _, order := range []binary.ByteOrder{binary.LittleEndian, binary.BigEndian} {
		form := map[binary.ByteOrder]ply.Form{binary.LittleEndian: ply.LittleEndian, binary.BigEndian: ply.BigEndian}[order]
		head := "ply\r\nformat " + string(form) + " 1.0\r\nelement vertex 1\r\nproperty char x\r\nproperty uchar a\r\nproperty short y\r\nproperty ushort b\r\nproperty int z\r\nproperty uint c\r\nproperty float d\r\nproperty double e\r\nend_header\r\n"
		out := bytes.NewBufferString(head)
		for _, v := range []any{int8(-1), uint8(200), int16(-300), uint16(60000), int32(-70000), uint32(1 << 31), float32(1), 2.0} {
			binary.Write(out, order, v)
		}
		m, err := ply.Read(out.Bytes(), mesh.Limits{})
		if err != nil || m.Mesh.Points[0] != (mesh.Vec{X: -1, Y: -300, Z: -70000}) {
			t.Errorf("%v: %+v, %v", order, m, err)
		}
	}
}

func TestRead_Refuses(t *testing.T) {
	text := string(written(t, model(), ply.Text))
	swap := func(old, new string) string { return strings.Replace(text, old, new, 1) }
	short := written(t, model(), ply.LittleEndian)
	for _, c := range []struct{ text, says string }{
		{"", "does not begin with the word ply"},
		{"ply\nformat ascii", "line 2: the format"},
		{"ply\nelement vertex 0\nend_header", "line 3: the header does not say a format"},
		{"ply\nformat ascii 1.0\n", "ends within its header"},
		{swap("property double x", "property triple x"), "line 4: the property"},
		{swap("property double x\n", ""), "no x, y and z"},
		{swap("vertex_indices", "corners"), "no list of vertices"},
		{swap("vertex 4", "vertex -4"), "-4 rows"},
		{swap("vertex 4", "vertex x"), `line 3: "x" is not a whole number`},
		{swap("vertex 4", "vertex 400"), "no room for 400 rows"},
		{swap("face 2", "face 20"), "face 2: the file ends before its last row"},
		{swap("3 0 1 2 ", "3 0 1 4 "), "line 15, face 0: the face names point 4, counted from 0, of 4"},
		{swap("3 0 1 2 ", "3 0 1 nan "), "names point NaN"},
		{swap("3 0 1 2 ", "3 0 1 1.5 "), "names point 1.5"},
		{swap("3 0 1 2 ", "2 0 1 "), "a face has 2 corners"},
		{swap("3 0 1 2 ", "-3 0 1 2 "), "a list of -3 numbers has no room"},
		{swap("0.1 ", "0,1 "), `line 11, vertex 0: "0,1" is not a number`},
		{string(short[:len(short)-1]), "face 1: the file ends"},
	} {
		_, err := ply.Read([]byte(c.text), mesh.Limits{})
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want %s", err, c.says)
		}
	}
	for _, l := range []mesh.Limits{{Bytes: 50}, {Points: 3}, {Faces: 1}} {
		if _, err := ply.Read([]byte(text), l); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%+v: %v, want too large", l, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, form := range forms {
		f.Add(written(f, model(), form))
	}
	f.Add([]byte(odd))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := ply.Read(data, mesh.Limits{Bytes: 1 << 16, Points: 1000, Faces: 1000})
		if err != nil {
			return
		}
		m.UV = nil
		for _, form := range forms {
			got, err := ply.Read(written(t, m, form), mesh.Limits{})
			if err != nil || len(got.Mesh.Points) != len(m.Mesh.Points) || len(got.Mesh.Faces) != len(m.Mesh.Faces) {
				t.Errorf("%s reads back differently: %v", form, err)
			}
		}
	})
}
