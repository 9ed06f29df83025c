package mesh

import "testing"

func TestCluster_KeepsToTheNumberAsked(t *testing.T) {
	var m Mesh
	for i := range 50 {
		for j := range 50 {
			m.Points = append(m.Points, Vec{X: float64(i), Y: float64(j)})
		}
	}
	for i := range int32(49) {
		for j := range int32(49) {
			a := i*50 + j
			m.Faces = append(m.Faces, Face{a, a + 50, a + 51}, Face{a, a + 51, a + 1})
		}
	}
	if m.Cluster(2500) != nil {
		t.Error("what is few enough is thinned out")
	}
	first := m.Cluster(400)
	used := map[int32]bool{}
	for i, v := range first {
		used[v] = true
		if v > int32(i) || first[v] != v || m.Points[v].Sub(m.Points[i]).Length() > 5 {
			t.Fatalf("vertex %d is stood for by %d", i, v)
		}
	}
	if len(used) > 400 || len(used) < 200 {
		t.Errorf("%d stand for 2,500", len(used))
	}
}
