package mesh_test

import (
	"slices"
	"strings"
	"testing"

	"fettle/geom/mesh"
)

func TestThrough(t *testing.T) {
	// Two squares of two faces side by side, and one apart.
	m := mesh.Mesh{Points: []mesh.Vec{{}, {X: 1}, {X: 2}, {Y: 1}, {X: 1, Y: 1}, {X: 2, Y: 1}, {X: 9}, {X: 10}, {X: 9, Y: 1}},
		Faces: []mesh.Face{{0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {6, 7, 8}}}
	near := m.Adjacency()
	for _, c := range []struct {
		places, want []int32
		says         string
	}{
		{[]int32{0, 2}, []int32{0, 1, 2}, ""},
		{[]int32{0, 0, 5, 3}, []int32{0, 1, 5, 4, 3}, ""},
		{[]int32{3}, nil, "two vertices at least"},
		{[]int32{3, 99}, nil, "there is no vertex 99"},
		{[]int32{0, 7}, nil, "they lie on two parts"},
	} {
		got, err := m.Through(near, c.places)
		if c.says == "" && (err != nil || len(got) != len(c.want) || got[0] != c.want[0] || !slices.Equal(got[len(got)-1:], c.want[len(c.want)-1:])) {
			t.Errorf("%v: %v, %v, want %v", c.places, got, err, c.want)
		}
		if c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%v: %v, want %q", c.places, err, c.says)
		}
	}
}
