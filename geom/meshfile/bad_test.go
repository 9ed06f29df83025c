package meshfile_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fettle/geom/mesh"
	"fettle/geom/meshfile"
)

// cover is a bowl that is changed.
func cover(change func(m *mesh.Mesh)) mesh.Mesh {
	m := bowl().Mesh
	change(&m)
	return m
}

// closed is a box of 400 mm.
func closed() mesh.Mesh {
	var m mesh.Mesh
	for i := range 8 {
		m.Points = append(m.Points, mesh.Vec{X: 400 * float64(i&1), Y: 400 * float64(i>>1&1), Z: 400 * float64(i>>2)})
	}
	for _, q := range [][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.Faces = append(m.Faces, mesh.Face{q[0], q[1], q[2]}, mesh.Face{q[0], q[2], q[3]})
	}
	return m
}

// beside adds another mesh, moved.
func beside(m, other mesh.Mesh, by mesh.Vec) mesh.Mesh {
	n := int32(len(m.Points))
	for _, p := range other.Points {
		m.Points = append(m.Points, p.Add(by))
	}
	for _, f := range other.Faces {
		m.Faces = append(m.Faces, mesh.Face{f[0] + n, f[1] + n, f[2] + n})
	}
	return m
}

// TestBad takes what shops bring through every format: each is put right by a
// named repair, or said in a sentence.
func TestBad(t *testing.T) {
	for _, c := range []struct {
		name  string
		m     mesh.Mesh
		did   string // sentences without the places, if any
		found string
	}{
		{"sound", bowl().Mesh, "", ""},
		{"a hole", cover(func(m *mesh.Mesh) { m.Faces = slices.Delete(m.Faces, 130, 134) }), "A hole stays open", "It has a hole."},
		{"closed", closed(), "", "It has no rim and must be cut open."},
		{"inside out", cover(func(m *mesh.Mesh) {
			*m = closed()
			for f := range m.Faces {
				m.Faces[f] = m.Faces[f].Flip()
			}
		}), "A closed part was inside out and was turned", "It has no rim and must be cut open."},
		{"against each other", cover(func(m *mesh.Mesh) {
			m.Faces[9], m.Faces[50] = m.Faces[9].Flip(), m.Faces[50].Flip()
		}), "2 faces that ran against the others were turned over", ""},
		{"three faces at an edge", cover(func(m *mesh.Mesh) {
			m.Points = append(m.Points, mesh.Vec{X: 250, Y: 150, Z: 300})
			m.Faces = append(m.Faces, mesh.Face{84, 85, int32(len(m.Points)) - 1})
		}), "2 points were added to part sheets that met in an edge or a point", "It is in 2 parts that do not hang together."},
		{"twice the same face", cover(func(m *mesh.Mesh) { m.Faces = append(m.Faces, m.Faces[7]) }), "A face that stood twice was taken out", ""},
		{"two parts", beside(bowl().Mesh, bowl().Mesh, mesh.Vec{Z: 200}), "", "It is in 2 parts that do not hang together."},
		{"through itself", beside(bowl().Mesh, bowl().Mesh, mesh.Vec{X: 40, Y: 11}), "", "It is in 2 parts that do not hang together. 119 pairs of faces run through each other."},
	} {
		for _, w := range written5 {
			f, err := meshfile.Read(w.name, written(t, w.name, mesh.Model{Mesh: c.m, Unit: 1}), 0, mesh.Limits{})
			if err != nil {
				t.Errorf("%s, %s: %v", c.name, w.format, err)
				continue
			}
			m, _, did := f.Model.Mesh.Repair(mesh.RepairOptions{})
			var said, found []string
			for _, r := range did {
				sentence, _, _ := strings.Cut(r.String(), ",")
				sentence, _, _ = strings.Cut(sentence, " at ")
				said = append(said, sentence)
			}
			for _, x := range m.Check() {
				if found = append(found, fmt.Sprint(x)); x.What.Stops() {
					t.Errorf("%s, %s: repaired, and it stops the work: %v", c.name, w.format, x)
				}
			}
			if got := strings.Join(said, ". "); got != c.did {
				t.Errorf("%s, %s: did %q, want %q", c.name, w.format, got, c.did)
			}
			if got := strings.Join(found, " "); got != c.found {
				t.Errorf("%s, %s: found %q, want %q", c.name, w.format, got, c.found)
			}
		}
	}
}
