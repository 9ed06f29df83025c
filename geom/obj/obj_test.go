package obj_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/geom/obj"
)

const square = `# a square
o plate
v 0 0 0
v 2 0 0 1.0
v 2 1e0 0
v 0 1 0
vt 0 0
vt 1 0
vt 1 1
vt 0 1
s off
f 1/1 2/2 3/3 \
  4/4
`

func TestRead(t *testing.T) {
	m, err := obj.Read([]byte(square), mesh.Limits{})
	if err != nil || len(m.Mesh.Points) != 4 || len(m.Mesh.Faces) != 2 || m.Mesh.Area() != 2 || m.Unit != 0 || m.Left != nil {
		t.Fatalf("%+v, %v", m, err)
	}
	want := []geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {}, {X: 1, Y: 1}, {Y: 1}}
	if !reflect.DeepEqual(m.UV, want) {
		t.Errorf("flat places %v, want %v", m.UV, want)
	}
	for _, text := range []string{
		"v 0 0 0\nv 1 0 0\nv 0 1 0\nf -3 -2\\\n\\\n -1 \\",
		"v 0 0 0\rv 1 0 0\rv 0 1 0\rf 1//1 2//1 3//1 # with normals",
		"v 0 0 0 .1 .2 .3\r\nv 1 0 0\r\nv 0 1 0\r\nvt 1\r\nf 1/1/9 2/1/9 3/-1/9\r\nl 1 2\np 1",
	} {
		m, err := obj.Read([]byte(text), mesh.Limits{})
		if err != nil || m.Mesh.Area() != 0.5 || m.Mesh.Faces[0] != (mesh.Face{0, 1, 2}) {
			t.Errorf("%q: %+v, %v", text, m, err)
		}
	}
}

func TestRead_LeavesOut(t *testing.T) {
	m, err := obj.Read([]byte("v 0 0 0\nl 1 1\np 1\nsurf 0 1 0 1\ncall x\n"), mesh.Limits{})
	if want := []mesh.Left{{What: "lines and points", Count: 2}, {What: "curves and curved patches", Count: 1}, {What: "other statements", Count: 1}}; err != nil || !reflect.DeepEqual(m.Left, want) {
		t.Errorf("left %v, %v; want %v", m.Left, err, want)
	}
}

func TestRead_Refuses(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"v 1 2", "line 1: 1 numbers are missing"},
		{"v 1 2 x", `line 1: "x" is not a number`},
		{"v 1,5 2 3", `line 1: "1,5" is not a number`},
		{"v 0 0 nan", "line 1: a coordinate is NaN"},
		{"\nvt\n", "line 2: 1 numbers are missing"},
		{square + "f 1 2 9", "line 14: the face names point 9 of 4 so far"},
		{square + "f 1 2 0", "names point 0 of 4"},
		{square + "f 1 2 -5", "names point -5 of 4"},
		{square + "f 1/9 2 3", "names flat place 9 of 4"},
		{square + "f 1 2 a/b", `"a" is not the number of a point`},
		{square + "f 1 2", "line 14: a face has 2 corners"},
	} {
		_, err := obj.Read([]byte(c.text), mesh.Limits{})
		if err == nil || fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, want %s", c.text, err, c.says)
		}
	}
	for _, l := range []mesh.Limits{{Bytes: 50}, {Points: 3}, {Faces: 1}, {Points: 1}} {
		if _, err := obj.Read([]byte(square), l); fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%+v: %v, want too large", l, err)
		}
	}
}

func TestWrite(t *testing.T) {
	m, err := obj.Read([]byte(square), mesh.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	m.Mesh.Points[1].Z = math.Pi * 1e-7
	var out bytes.Buffer
	if err := obj.Write(&out, m); err != nil {
		t.Fatal(err)
	}
	if got, err := obj.Read(out.Bytes(), mesh.Limits{}); err != nil || !reflect.DeepEqual(got, m) {
		t.Errorf("%+v, %v; want %+v from\n%s", got, err, m, &out)
	}
	if n := strings.Count(out.String(), "vt "); n != 4 {
		t.Errorf("%d flat places, want 4", n)
	}
}

// TestRead_Given reads surfaces whose shape is known.
func TestRead_Given(t *testing.T) {
	for _, c := range []struct {
		name             string
		v, f, loops, chi int
		area, within     float64
	}{
		{"public/bff-hemisphere", 2051, 4000, 1, 1, 0, 0},
		{"public/bff-spothead", 4537, 9024, 1, 1, 0, 0},
		{"public/od-mountain", 25600, 50562, 1, 1, 0, 0},
		{"public/od-cube_no_bottom", 25, 40, 1, 1, 20, 1e-9},
		{"public/od-torus", 2304, 4608, 0, 0, 4 * math.Pi * math.Pi * 0.25, 0.04},
		{"public/od-plane_holes", 8519, 16747, 27, -25, 0, 0},
		{"analytic/cylinder", 1887, 3600, 1, 1, 179991.9, 0.05},
		{"analytic/cone", 1755, 3344, 1, 1, 136775.6, 0.05},
		{"analytic/sphere_cap20", 3169, 6144, 1, 1, 60627.6, 60},
		{"analytic/sphere_cap60", 3169, 6144, 1, 1, 502654.8, 500},
		{"analytic/rim_sector", 2450, 4656, 1, 1, 36517.5, 200},
		{"analytic/seat_cushion", 2499, 4800, 1, 1, 0, 0},
		{"analytic/headliner", 3366, 6500, 1, 1, 0, 0},
		{"analytic/door_dented", 6060, 11800, 1, 1, 0, 0},
	} {
		data, err := os.ReadFile(filepath.Join("../../../shared/data/mesh", c.name+".obj"))
		if err != nil {
			t.Skipf("no test data: %v", err)
		}
		m, err := obj.Read(data, mesh.Limits{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		a := m.Mesh.Adjacency()
		_, parts := a.Components()
		if v, f := len(m.Mesh.Points), len(m.Mesh.Faces); v != c.v || f != c.f || len(a.BoundaryLoops()) != c.loops || a.Euler() != c.chi || parts != 1 || len(a.Tangled) > 0 {
			t.Errorf("%s: %d / %d, %d loops, chi %d, %d components, %d tangled; want %d / %d, %d, %d, 1, 0",
				c.name, v, f, len(a.BoundaryLoops()), a.Euler(), parts, len(a.Tangled), c.v, c.f, c.loops, c.chi)
		}
		if area := m.Mesh.Area(); c.area > 0 && math.Abs(area-c.area) > c.within {
			t.Errorf("%s: area %.2f, want %.2f within %g", c.name, area, c.area, c.within)
		}
		var out bytes.Buffer
		if err := obj.Write(&out, m); err != nil {
			t.Fatal(err)
		}
		if got, err := obj.Read(out.Bytes(), mesh.Limits{}); err != nil || !reflect.DeepEqual(got, m) {
			t.Errorf("%s: reads back differently, %v", c.name, err)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(square))
	f.Add([]byte("v 0 0 0\nv 1 0 0\nv 0 1 0\nv .1 .1 0\nv 0 0 1\nf -3 -2 -1 1 2"))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := obj.Read(data, mesh.Limits{Bytes: 1 << 16, Points: 1000, Faces: 1000})
		if err != nil {
			return
		}
		var out bytes.Buffer
		if err := obj.Write(&out, m); err != nil {
			t.Fatal(err)
		}
		got, err := obj.Read(out.Bytes(), mesh.Limits{})
		if err != nil || len(got.Mesh.Points) != len(m.Mesh.Points) || len(got.Mesh.Faces) != len(m.Mesh.Faces) {
			t.Errorf("reads back differently: %v", err)
		}
	})
}
