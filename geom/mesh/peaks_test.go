package mesh_test

import (
	"slices"
	"testing"

	"fettle/geom/mesh"
)

func TestPeaks(t *testing.T) {
	var m mesh.Mesh // five triangles in a row, 10 apart
	for i := range int32(5) {
		x := 10 * float64(i)
		m.Points = append(m.Points, mesh.Vec{X: x}, mesh.Vec{X: x + 3}, mesh.Vec{X: x, Y: 3})
		m.Faces = append(m.Faces, mesh.Face{3 * i, 3*i + 1, 3*i + 2})
	}
	high := []float64{5, 9, 8, 1, 7}
	of := func(i int) float64 { return high[i] }
	if p := m.FaceMiddle(1); p != (mesh.Vec{X: 11, Y: 1}) {
		t.Errorf("middle %v", p)
	}
	for _, c := range []struct {
		least, apart float64
		most         int
		want         []int32
	}{{0, 1, 9, []int32{1, 2, 4, 0, 3}}, {0, 11, 9, []int32{1, 4}}, {6, 1, 9, []int32{1, 2, 4}}, {0, 1, 2, []int32{1, 2}}, {9, 1, 9, nil}, {0, 1, 0, nil}} {
		if got := m.Peaks(of, c.least, c.apart, c.most); !slices.Equal(got, c.want) {
			t.Errorf("above %g, %g apart, at most %d: %v, want %v", c.least, c.apart, c.most, got, c.want)
		}
	}
}
