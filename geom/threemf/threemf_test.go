package threemf_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom/mesh"
	"fettle/geom/threemf"
)

// archive is a zip of names and texts.
func archive(t testing.TB, parts ...string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for i := 0; i < len(parts); i += 2 {
		w, err := z.Create(parts[i])
		if err != nil {
			t.Fatal(err)
		}
		w.Write([]byte(parts[i+1]))
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

const corner = `<object id="1"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/></vertices>
<triangles><triangle v1="0" v2="1" v3="2"/></triangles></mesh></object>
`

// model is one of resources and what is built.
func model(t testing.TB, unit, resources, build string) []byte {
	return archive(t, "3D/3dmodel.model", fmt.Sprintf(`<?xml version="1.0"?>
<model %s xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>
%s</resources><build>
%s</build></model>`, unit, resources, build))
}

func TestRoundTrip(t *testing.T) {
	m := mesh.Model{Unit: 25.4, Mesh: mesh.Mesh{
		Points: []mesh.Vec{{X: 0.1}, {X: 1, Z: -1e-7}, {X: 1, Y: 1}, {Y: 1. / 3}},
		Faces:  []mesh.Face{{0, 1, 2}, {0, 2, 3}},
	}}
	var out bytes.Buffer
	if err := threemf.Write(&out, m); err != nil {
		t.Fatal(err)
	}
	if got, err := threemf.Read(out.Bytes(), mesh.Limits{}); err != nil || !threemf.Is(out.Bytes()) || !reflect.DeepEqual(got, m) {
		t.Errorf("%+v, %v; want %+v", got, err, m)
	}
	if err := threemf.Write(&out, mesh.Model{Unit: 7}); fault.KindOf(err) != fault.Invalid {
		t.Errorf("a unit of 7 mm: %v", err)
	}
	out.Reset()
	if err := threemf.Write(&out, mesh.Model{}); err != nil {
		t.Fatal(err)
	}
	if got, err := threemf.Read(out.Bytes(), mesh.Limits{}); err != nil || got.Unit != 1 || len(got.Mesh.Points) > 0 {
		t.Errorf("empty: %+v, %v", got, err)
	}
}

func TestRead_Build(t *testing.T) {
	for _, c := range []struct {
		name, unit, more, build string
		factor                  float64
		want                    []mesh.Vec // corners of all faces
	}{
		{"one", "", "", `<item objectid="1"/>`, 1, []mesh.Vec{{}, {X: 1}, {Y: 1}}},
		{"moved", `unit="meter"`, "", `<item objectid="1" transform="0 2 0 -2 0 0 0 0 2 5 6 7"/>`, 1000, []mesh.Vec{{X: 5, Y: 6, Z: 7}, {X: 5, Y: 8, Z: 7}, {X: 3, Y: 6, Z: 7}}},
		{"mirrored", `unit="inch"`, "", `<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>`, 25.4, []mesh.Vec{{}, {Y: 1}, {X: -1}}},
		{"twice in a component", `unit="micron"`, `<object id="7"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 3 0 0"/><component objectid="1"/></components></object>`,
			`<item objectid="7" transform="1 0 0 0 1 0 0 0 1 0 0 4"/>`, 0.001, []mesh.Vec{{X: 3, Z: 4}, {X: 4, Z: 4}, {X: 3, Y: 1, Z: 4}, {Z: 4}, {X: 1, Z: 4}, {Y: 1, Z: 4}}},
		{"support", "", `<object id="2" type="support"><mesh/></object>`, `<item objectid="2"/>`, 1, nil},
		{"nothing built", "", "", "", 1, nil},
	} {
		got, err := threemf.Read(model(t, c.unit, corner+c.more, c.build), mesh.Limits{})
		if err != nil || got.Unit != c.factor || 3*len(got.Mesh.Faces) != len(c.want) || (c.want == nil) != (len(got.Left) == 1) {
			t.Errorf("%s: %+v, %v", c.name, got, err)
			continue
		}
		for i, p := range c.want {
			if q := got.Mesh.Points[got.Mesh.Faces[i/3][i%3]]; q != p {
				t.Errorf("%s: corner %d at %v, want %v", c.name, i, q, p)
			}
		}
	}
}

// TestRead_Relations finds a model that stands elsewhere.
func TestRead_Relations(t *testing.T) {
	rels := `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/other/PART.model" Id="a" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`
	data := archive(t, "_rels/.rels", rels, "other/part.model", `<model><resources>`+corner+`</resources><build><item objectid="1"/></build></model>`)
	if got, err := threemf.Read(data, mesh.Limits{}); err != nil || len(got.Mesh.Faces) != 1 {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestRead_Refuses(t *testing.T) {
	one := `<item objectid="1"/>`
	whole := model(t, "", corner, one)
	ring := `<object id="2"><components><component objectid="2"/></components></object>`
	for _, c := range []struct {
		name string
		data []byte
		says string
	}{
		{"empty", nil, "not a whole zip archive"},
		{"cut off", whole[:len(whole)-30], "not a whole zip archive"},
		{"no model", archive(t, "a.txt", "a"), `"3D/3dmodel.model" is not in it`},
		{"no XML", archive(t, "3D/3dmodel.model", "<model"), "model, line 1: the XML makes no sense"},
		{"XML cut off", archive(t, "3D/3dmodel.model", "<model>\n<resources>"), "line 2: the XML makes no sense"},
		{"unit", model(t, `unit="ell"`, corner, one), `line 2: the unit "ell" is not known`},
		{"no object", model(t, "", corner, `<item objectid="9"/>`), `line 6: there is no object "9"`},
		{"other model", model(t, "", corner, `<item objectid="1" p:path="/3D/a.model"/>`), "in another model"},
		{"ring", model(t, "", ring, `<item objectid="2"/>`), "in a ring"},
		{"transform", model(t, "", corner, `<item objectid="1" transform="1 0 0"/>`), "the transform has 3 numbers"},
		{"transform word", model(t, "", corner, `<item objectid="1" transform="1 0 0 0 1 0 0 0 x 0 0 0"/>`), `"x" in the transform`},
		{"far", model(t, "", corner, `<item objectid="1" transform="1 0 0 0 1 0 0 0 1 1e99 0 0"/>`), "line 6, point 0: a coordinate is 1e+99"},
		{"number", model(t, "", strings.Replace(corner, `x="1"`, `x="1,0"`, 1), one), `line 3: x is "1,0", not a number`},
		{"index", model(t, "", strings.Replace(corner, `v3="2"`, `v3="3"`, 1), one), `line 4: v3 is "3", not one of the 3 points`},
		{"vertex nowhere", model(t, "", `<vertex x="0" y="0" z="0"/>`, ""), "a vertex stands in no object"},
		{"triangle nowhere", model(t, "", `<triangle v1="0" v2="0" v3="0"/>`, ""), "a triangle stands in no object"},
	} {
		_, err := threemf.Read(c.data, mesh.Limits{})
		if err == nil || fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %s", c.name, err, c.says)
		}
	}
	twice := model(t, "", corner+strings.Replace(corner, `id="1"`, `id="2"`, 1), one)
	for _, l := range []mesh.Limits{{Bytes: 50}, {Points: 5}, {Faces: 1}} {
		if _, err := threemf.Read(twice, l); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%+v: %v, want too large", l, err)
		}
	}
}

// TestRead_Bombs refuses small files that would become large.
func TestRead_Bombs(t *testing.T) {
	spaces := archive(t, "3D/3dmodel.model", "<model>"+strings.Repeat(" ", 1<<22)+"</model>")
	if _, err := threemf.Read(spaces, mesh.Limits{Bytes: 1 << 20}); len(spaces) > 1<<16 || fault.KindOf(err) != fault.TooLarge {
		t.Errorf("%d bytes that are 4 MiB of spaces: %v", len(spaces), err)
	}
	var objects strings.Builder
	objects.WriteString(corner)
	for i := range 25 {
		fmt.Fprintf(&objects, `<object id="%d"><components>%s</components></object>`, i+2, strings.Repeat(fmt.Sprintf(`<component objectid="%d"/>`, i+1), 10))
	}
	if _, err := threemf.Read(model(t, "", objects.String(), `<item objectid="26"/>`), mesh.Limits{}); err == nil {
		t.Error("10^25 faces were read")
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`<model unit="inch"><resources>` + corner + `<object id="2"><components><component objectid="1" transform="0 2 0 -2 0 0 0 0 2 5 6 7"/></components></object></resources><build><item objectid="2"/></build></model>`))
	f.Add([]byte("<model/>"))
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, data := range [][]byte{text, archive(t, "3D/3dmodel.model", string(text))} {
			m, err := threemf.Read(data, mesh.Limits{Bytes: 1 << 16, Points: 1000, Faces: 1000})
			if err != nil {
				continue
			}
			var out bytes.Buffer
			if err := threemf.Write(&out, m); err != nil {
				t.Fatal(err)
			}
			got, err := threemf.Read(out.Bytes(), mesh.Limits{})
			if err != nil || got.Unit != m.Unit || !reflect.DeepEqual(got.Mesh.Points, m.Mesh.Points) || !reflect.DeepEqual(got.Mesh.Faces, m.Mesh.Faces) {
				t.Errorf("reads back differently: %v", err)
			}
		}
	})
}
