package gltf_test

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/gltf"
	"fettle/geom/mesh"
)

// plate is a square of 1 m by 0.5 m in millimetres, with a seam in its flat
// places along the diagonal.
func plate() mesh.Model {
	return mesh.Model{
		Mesh: mesh.Mesh{
			Points: []mesh.Vec{{}, {X: 1000}, {X: 1000, Y: 500}, {Y: 500}},
			Faces:  []mesh.Face{{0, 1, 2}, {0, 2, 3}},
		},
		UV:   []geom.Point{{}, {X: 1}, {X: 1, Y: 0.5}, {X: 2}, {X: 3, Y: 1}, {X: 2, Y: 1}},
		Unit: 1,
	}
}

func written(t testing.TB, m mesh.Model) []byte {
	var out bytes.Buffer
	if err := gltf.Write(&out, m); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestRoundTrip(t *testing.T) {
	bare := plate()
	bare.UV = nil
	for _, m := range []mesh.Model{plate(), bare} {
		data := written(t, m)
		got, err := gltf.Read(data, mesh.Limits{})
		if err != nil || !gltf.Is(data) || got.Unit != 1000 || len(got.Mesh.Points) != 4 || len(got.UV) != len(m.UV) || got.Left != nil {
			t.Fatalf("%+v, %v", got, err)
		}
		for i, p := range got.UV {
			if p != m.UV[i] {
				t.Errorf("flat place %d is %v, want %v", i, p, m.UV[i])
			}
		}
		for f, face := range got.Mesh.Faces {
			for k, v := range face {
				if d := got.Mesh.Points[v].Scale(1000).Sub(m.Mesh.Points[m.Mesh.Faces[f][k]]).Length(); d > 1e-4 {
					t.Errorf("corner %d of face %d is %g mm away", k, f, d)
				}
			}
		}
		if len(data)%4 != 0 || int(binary.LittleEndian.Uint32(data[8:])) != len(data) {
			t.Errorf("%d bytes, says %d", len(data), binary.LittleEndian.Uint32(data[8:]))
		}
	}
	if got, err := gltf.Read(written(t, mesh.Model{}), mesh.Limits{}); err != nil || len(got.Mesh.Faces) > 0 {
		t.Errorf("empty: %+v, %v", got, err)
	}
}

// document is a file of text: a triangle of points 0 0 0, 1 0 0, 0 1 0, and
// 1 1 0, with more JSON put in.
func document(nodes, primitive string) string {
	var bin []byte
	for _, x := range []float32{0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 1, 0} {
		bin = binary.LittleEndian.AppendUint32(bin, math.Float32bits(x))
	}
	bin = append(bin, 0, 1, 2, 3)
	return fmt.Sprintf(`{"asset": {"version": "2.0"}, "nodes": [%s], "meshes": [{"primitives": [%s]}],
"accessors": [{"bufferView": 0, "componentType": 5126, "count": 4, "type": "VEC3"},
 {"bufferView": 1, "componentType": 5121, "count": 4, "type": "SCALAR"},
 {"bufferView": 1, "componentType": 5121, "count": 2, "type": "VEC2", "normalized": true},
 {"bufferView": 0, "componentType": 5126, "count": 5, "type": "VEC3"},
 {"bufferView": 0, "componentType": 5126, "count": 4, "type": "VEC3", "sparse": {}},
 {"bufferView": 7, "componentType": 5126, "count": 4, "type": "VEC3"},
 {"bufferView": 2, "componentType": 5126, "count": 4, "type": "VEC3"},
 {"bufferView": 0, "componentType": 5126, "count": 2, "type": "VEC3", "byteOffset": 25}],
"bufferViews": [{"buffer": 0, "byteLength": 48}, {"buffer": 0, "byteOffset": 48, "byteLength": 4}, {"buffer": 0, "byteOffset": 48, "byteLength": 5}],
"buffers": [{"byteLength": 52, "uri": "data:application/octet-stream;base64,%s"}]}`, nodes, primitive, base64.StdEncoding.EncodeToString(bin))
}

const three = `{"attributes": {"POSITION": 0}}`

func TestRead_Nodes(t *testing.T) {
	s := math.Sqrt(0.5)
	for _, c := range []struct {
		nodes string
		want  []mesh.Vec // of the first face
	}{
		{`{"mesh": 0}`, []mesh.Vec{{}, {X: 1}, {Y: 1}}},
		{`{"mesh": 0, "translation": [1, 2, 3], "scale": [2, 3, 1]}`, []mesh.Vec{{X: 1, Y: 2, Z: 3}, {X: 3, Y: 2, Z: 3}, {X: 1, Y: 5, Z: 3}}},
		{fmt.Sprintf(`{"mesh": 0, "rotation": [0, 0, %v, %v]}`, s, s), []mesh.Vec{{}, {Y: 1}, {X: -1}}},
		{`{"mesh": 0, "matrix": [0,1,0,0, -1,0,0,0, 0,0,1,0, 5,0,0,1]}`, []mesh.Vec{{X: 5}, {X: 5, Y: 1}, {X: 4}}},
		{`{"children": [1], "translation": [0, 0, 4]}, {"mesh": 0, "scale": [2, 2, 2]}`, []mesh.Vec{{Z: 4}, {X: 2, Z: 4}, {Y: 2, Z: 4}}},
		{`{"mesh": 0, "scale": [-1, 1, 1]}`, []mesh.Vec{{}, {Y: 1}, {X: -1}}},
	} {
		m, err := gltf.Read([]byte(document(c.nodes, three)), mesh.Limits{})
		if err != nil || len(m.Mesh.Faces) != 1 {
			t.Errorf("%s: %+v, %v", c.nodes, m, err)
			continue
		}
		for k, v := range m.Mesh.Faces[0] {
			if d := m.Mesh.Points[v].Sub(c.want[k]).Length(); d > 1e-9 {
				t.Errorf("%s: corner %d at %v, want %v", c.nodes, k, m.Mesh.Points[v], c.want[k])
			}
		}
	}
}

func TestRead_Primitives(t *testing.T) {
	for _, c := range []struct {
		primitive string
		faces     int
		up        float64
	}{
		{three, 1, 0.5}, {`{"attributes": {"POSITION": 0}, "mode": 5}`, 2, 1}, {`{"attributes": {"POSITION": 0}, "mode": 6}`, 2, 0},
		{`{"attributes": {"POSITION": 0}, "indices": 1, "mode": 5}`, 2, 1},
		{three + "," + three, 2, 1}, {`{"attributes": {"POSITION": 0}, "mode": 1}`, 0, 0}, {`{"attributes": {}}`, 0, 0},
	} {
		m, err := gltf.Read([]byte(document(`{"mesh": 0}`, c.primitive)), mesh.Limits{})
		var up float64
		for f := range m.Mesh.Faces {
			up += m.Mesh.FaceArea(f) * m.Mesh.FaceNormal(f).Z
		}
		if err != nil || len(m.Mesh.Faces) != c.faces || math.Abs(up-c.up) > 1e-12 || (c.faces == 0) != (len(m.Left) == 1) {
			t.Errorf("%s: %+v, %v", c.primitive, m, err)
		}
	}
}

func TestRead_Refuses(t *testing.T) {
	text := document(`{"mesh": 0}`, three)
	glb := string(written(t, plate()))
	point := func(i int) string {
		return document(`{"mesh": 0}`, fmt.Sprintf(`{"attributes": {"POSITION": %d}}`, i))
	}
	for _, c := range []struct{ text, says string }{
		{glb[:10], "byte 10: the file ends within itself"},
		{glb[:len(glb)-1], "ends within itself"},
		{glb[:12], "ends within itself"},
		{strings.Replace(glb, "glTF\x02", "glTF\x01", 1), "byte 4: the file is of version 1"},
		{strings.Replace(glb, "JSON", "JSOM", 1), "no JSON chunk"},
		{`{"asset": {"version": "2.0"}, `, "of the JSON: the file makes no sense here"},
		{`{"asset": {"version": "2.0"}, "nodes": [{"mesh": "a"}]}`, "nodes.mesh: the file makes no sense"},
		{`{"asset": {"version": "1.0"}}`, `version "1.0"`},
		{strings.Replace(text, `"2.0"}`, `"2.0"}, "extensionsRequired": ["SOME_compression"]`, 1), `cannot be read without "SOME_compression"`},
		{strings.Replace(text, `"2.0"}`, `"2.0"}, "scenes": [], "scene": 1`, 1), ""},
		{strings.Replace(text, `"2.0"}`, `"2.0"}, "scenes": [{}], "scene": 1`, 1), "scene 1 does not stand in the file"},
		{strings.Replace(text, "data:application/octet-stream;base64,", "part.bin", 1), "buffer 0: its bytes lie in another file"},
		{strings.Replace(text, ";base64,", ";base64,=", 1), "not base64"},
		{strings.Replace(text, `"byteLength": 52`, `"byteLength": 53`, 1), "buffer 0: it has 52 bytes and should have 53"},
		{document(`{"mesh": 1}`, three), "node 0: its mesh 1 does not stand"},
		{document(`{"children": [0], "mesh": 0}, {"children": [0]}`, three), "in a ring"},
		{document(`{"children": [7]}`, three), "node 7: it does not stand"},
		{point(1), "accessor 1: it is of type \"SCALAR\""},
		{point(3), "node 0, primitive 0, accessor 3: it needs more bytes"},
		{point(4), "accessor 4: it is sparse"},
		{point(5), "accessor 5: its bytes do not stand"},
		{point(6), "buffer view 2: the buffer view lies outside its buffer"},
		{point(7), "accessor 7: it needs more bytes"},
		{point(99), "accessor 99: it does not stand"},
		{document(`{"mesh": 0}`, `{"attributes": {"POSITION": 0, "TEXCOORD_0": 2}}`), "face 0: point 2 has no flat place"},
		{strings.Replace(document(`{"mesh": 0}`, `{"attributes": {"POSITION": 0}, "indices": 1}`), `"bufferView": 1, "componentType": 5121`, `"bufferView": 0, "componentType": 5126`, 1), "accessor 1: its indices are not whole numbers"},
		{document(`{"mesh": 0, "scale": [1e99, 1, 1]}`, three), "point 1: a coordinate is 1e+99"},
	} {
		_, err := gltf.Read([]byte(c.text), mesh.Limits{})
		if (c.says == "") != (err == nil) || err != nil && (fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%.60q: %v, want %s", c.text, err, c.says)
		}
	}
	for _, l := range []mesh.Limits{{Bytes: 50}, {Points: 3}, {Faces: 1}} {
		if _, err := gltf.Read([]byte(glb), l); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%+v: %v, want too large", l, err)
		}
	}
}

// TestRead_Branches refuses a few nodes that hang on each other so often that
// they would be millions.
func TestRead_Branches(t *testing.T) {
	type n struct {
		Children []int `json:"children"`
	}
	var list []n
	for i := range 60 {
		list = append(list, n{[]int{i + 1, i + 1, i + 1}})
	}
	text, _ := json.Marshal(append(list, n{}))
	if _, err := gltf.Read([]byte(document(string(text[1:len(text)-1]), three)), mesh.Limits{}); err == nil {
		t.Error("3^60 nodes were read")
	}
}

func FuzzRead(f *testing.F) {
	f.Add(written(f, plate()))
	f.Add([]byte(document(`{"children": [1], "translation": [0, 0, 4]}, {"mesh": 0, "rotation": [0, 0, 1, 0]}`, `{"attributes": {"POSITION": 0, "TEXCOORD_0": 2}, "indices": 1, "mode": 5}`)))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := gltf.Read(data, mesh.Limits{Bytes: 1 << 16, Points: 1000, Faces: 1000})
		if err != nil {
			return
		}
		if got, err := gltf.Read(written(t, m), mesh.Limits{}); err != nil || len(got.Mesh.Faces) != len(m.Mesh.Faces) {
			t.Errorf("reads back differently: %v", err)
		}
	})
}
