package trim

import (
	"bytes"
	"encoding/json"
	"net/url"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/geom/stl"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/internal/web/ui/surface"
)

// bench is the shop after the blast, which has the driver's cushion as U1.
func flatBench(t *testing.T) *placetest.Bench {
	return placetest.New(t, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

const cushion = "/b/pedlar/trim/surface/U1"

func TestSurface_LaidFlat(t *testing.T) {
	b := flatBench(t)
	holds(t, b.Get("/b/pedlar/trim/surfaces"), 200, "driver cushion", "U1")
	holds(t, b.Get(cushion), 200, "In 1 piece, 0.2", "; leather bears ", "past its limit", "wrinkles", "along the backbone", "surface-data", "sf-rim")
	cut := b.Get(cushion + "?material=cloth&cuts=" + url.QueryEscape("0 780") + "&side=above")
	holds(t, cut, 200, "cloth bears", "threads shear by up to", "1, drawn", "seen from: Above")
	var doc struct {
		Flat  surface.Said
		Seams []struct {
			On    float64
			Sides [2]float64
		}
	}
	if err := json.Unmarshal([]byte(b.Get(cushion+"?as=json&cuts="+url.QueryEscape("19 760")).Body), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.Flat.Class) != 2888 || len(doc.Flat.Measures[0].Of) != 2888 || len(doc.Flat.Flat.Source) <= 1521 || len(doc.Seams) != 1 {
		t.Fatalf("%d classes, %d points, %d seams", len(doc.Flat.Class), len(doc.Flat.Flat.Source), len(doc.Seams))
	}
	if s := doc.Seams[0]; s.On < 200 || s.Sides[0] < 0.9*s.On || s.Sides[1] < 0.9*s.On {
		t.Errorf("the sides of the seam are %v of %.0f mm on the surface", s.Sides, s.On)
	}
}

func TestSurface_WhatIsTypedWrong(t *testing.T) {
	b := flatBench(t)
	for query, want := range map[string]string{
		"cuts=12+x":               "is no vertex such as 340",
		"cuts=0+99999":            "there is no vertex 99999",
		"cuts=7":                  "goes through two vertices at least",
		"grain=5":                 "is not two vertices",
		"grain=5+99999":           "there is no vertex 99999",
		"pull-along=500":          "must be from 0.1 to 100",
		"material=unobtainable":   "must be one of",
		"cuts=" + "0,1,2&side=no": "seen from: Corner",
	} {
		holds(t, b.Get(cushion+"?"+query), 200, want)
	}
	if a := b.Get("/b/pedlar/trim/surface/U99"); a.Status != 404 {
		t.Errorf("a surface that is not there: %d", a.Status)
	}
}

func TestClassOf(t *testing.T) {
	for _, c := range []struct {
		pulled, pushed float64
		want           surface.Class
	}{{0, 0, surface.Lies}, {0.3, 0, surface.Pulled}, {0.8, 0.2, surface.Hard}, {1.2, 0, surface.Past}, {0.1, 0.5, surface.Eased}, {0.1, 1.5, surface.Wrinkles}, {3, 2, surface.Past}} {
		if got := classOf(c.pulled, c.pushed); got != c.want {
			t.Errorf("pulled %.1f, pushed %.1f: %s, want %s", c.pulled, c.pushed, got, c.want)
		}
	}
}

// scan is an open box of five squares as a file, its edge as long as said.
func scan(t *testing.T, long float64) []byte {
	t.Helper()
	m := mesh.Mesh{Points: []mesh.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}, {Z: 1}, {X: 1, Z: 1}, {X: 1, Y: 1, Z: 1}, {Y: 1, Z: 1}}}
	for _, q := range [][4]int32{{4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}} {
		m.Faces = append(m.Faces, mesh.Face{q[0], q[1], q[2]}, mesh.Face{q[0], q[2], q[3]})
	}
	var out bytes.Buffer
	if err := stl.Write(&out, m.Scale(long)); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestSurface_TakenIn(t *testing.T) {
	b := flatBench(t)
	form := url.Values{"id": {"b1"}, "name": {"a box"}, "unit": {""}, "note": {""}}
	at := "/b/pedlar/trim/surface"
	holds(t, b.Get(at), 200, "STL, OBJ, PLY, GLB or 3MF", `value="S`)
	for _, c := range []struct {
		what string
		data []byte
		want string
	}{{"metres", scan(t, 0.4), "in metres"}, {"no mesh", []byte("hello"), "is not taken"}, {"nothing in it", nil, "is not taken"}} {
		if a := b.Send(at, form, "file", "box.stl", c.data); a.Status != 422 || !strings.Contains(a.Body, c.want) {
			t.Errorf("%s: %d, lacks %q", c.what, a.Status, c.want)
		}
	}
	if a := b.Send(at, form, "file", "box.stl", scan(t, 400)); a.Status != 303 {
		t.Fatalf("status %d: %.300s", a.Status, a.Body)
	}
	one := b.Slip(t)[0].(*build.SetSurface).Surface
	if one.ID != "B1" || one.Faces != 10 || one.Vertices != 8 || len(one.Scan) != 64 || one.Area.M2() < 0.79 || one.Area.M2() > 0.81 {
		t.Errorf("%+v", one)
	}
	if all := strings.Join(one.Repairs, " "); !strings.Contains(all, "taken as millimetres") {
		t.Errorf("what was read: %s", all)
	}
	// It is there before it is kept, drawn from the slip.
	holds(t, b.Get(at+"/B1?material=stiff&cuts="), 200, "a box", "In 1 piece")
	form.Set("unit", "1000")
	if a := b.Send(at, form, "file", "box.stl", scan(t, 0.4)); a.Status != 303 {
		t.Errorf("in metres, as told: %d %.300s", a.Status, a.Body)
	}
}

func TestSurface_SearchForSeams(t *testing.T) {
	b := flatBench(t)
	ask := func(material string) string {
		a := b.Post(cushion+"/propose", url.Values{"material": {material}, "pull-along": {"1"}, "pull-across": {"1"}})
		if a.Status != 303 {
			t.Fatalf("status %d: %.300s", a.Status, a.Body)
		}
		return b.Waited(t, a.See)
	}
	found := ask("leather")
	if !strings.Contains(found, "Where a seam would help") || !strings.Contains(found, `data-take="`) {
		t.Error("no cut is proposed for stiff leather on a bolstered cushion")
	}
	// What does not give is not told where to give.
	if page := ask("stiff"); !strings.Contains(page, "none is given") {
		t.Error("the search without a material does not say what it lacks")
	}
	if a := b.Get(cushion + "?search=0000"); a.Status != 200 {
		t.Errorf("a search that is gone: %d", a.Status)
	}
}
