package mesh_test

import (
	"math"
	"testing"

	"fettle/geom/mesh"
)

// anyMesh makes a mesh of bytes: places on a small grid, then faces between them.
func anyMesh(data []byte) mesh.Mesh {
	var m mesh.Mesh
	if len(data) < 1 {
		return m
	}
	n := 3 + int(data[0])%14
	for i := range n {
		h := i * 2654435761
		m.Points = append(m.Points, mesh.Vec{X: float64(h >> 8 & 3), Y: float64(h >> 12 & 3), Z: float64(h >> 16 & 1)})
	}
	for data = data[1:]; len(data) >= 3; data = data[3:] {
		m.Faces = append(m.Faces, mesh.Face{int32(data[0]) % int32(n), int32(data[1]) % int32(n), int32(data[2]) % int32(n)})
	}
	return m
}

// FuzzRepair holds that what is repaired is sound, whatever it was.
func FuzzRepair(f *testing.F) {
	f.Add([]byte{5, 0, 1, 2, 0, 2, 3, 1, 0, 4, 0, 1, 5}, true)
	f.Add([]byte{9, 0, 1, 2, 3, 4, 2, 2, 5, 6, 0, 0, 1}, false)
	f.Fuzz(func(t *testing.T, data []byte, weld bool) {
		if len(data) > 200 {
			return
		}
		m := anyMesh(data)
		area := m.Area()
		m.Check()
		got, source, _ := m.Repair(mesh.RepairOptions{Weld: weld, Longest: 3})
		for _, c := range got.Check() {
			if c.What == mesh.Tangled || c.What == mesh.Against || c.What == mesh.Tips || c.What == mesh.FacesIn {
				t.Errorf("repaired, and still: %v", c)
			}
		}
		for v, p := range got.Points {
			if m.Points[source[v]] != p {
				t.Errorf("point %d is not at its source", v)
			}
		}
		_, _, again := got.Repair(mesh.RepairOptions{})
		for _, r := range again {
			if r.What != mesh.HoleLeft && r.What != mesh.Needle {
				t.Errorf("repaired once more: %v", r)
			}
		}
		if math.IsNaN(area) {
			t.Error("the area is no number")
		}
	})
}

// FuzzCut holds that a cut adds no more than it parts: faces and places stay.
func FuzzCut(f *testing.F) {
	f.Add([]byte{6, 7, 8, 13, 18, 17, 16, 11, 6}, []byte{2, 7, 12})
	f.Fuzz(func(t *testing.T, one, two []byte) {
		m := sheet(4, 4)
		path := func(b []byte) []int32 {
			var list []int32
			for _, v := range b {
				list = append(list, int32(v))
			}
			return list
		}
		got, source, err := m.Cut([][]int32{path(one), path(two)})
		if err != nil {
			return
		}
		checkSource(t, "cut", m, got, source)
		a := got.Adjacency()
		if len(a.Tangled) > 0 {
			t.Errorf("%d half-edges are tangled", len(a.Tangled))
		}
		// no vertex is left with two fans, and none was added without a need
		again, _, err := got.Cut(nil)
		if err != nil || len(again.Points) != len(got.Points) {
			t.Errorf("cut once more: %d points, then %d, %v", len(got.Points), len(again.Points), err)
		}
	})
}
