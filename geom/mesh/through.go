package mesh

import "fettle/fault"

// Through returns the path along edges through places of a mesh, by vertex, by
// the shortest way from each to the next. near is the mesh's Adjacency.
func (m Mesh) Through(near Adjacency, places []int32) ([]int32, error) {
	if len(places) < 2 {
		return nil, fault.New(fault.Invalid, "a cut goes through two vertices at least")
	}
	for _, v := range places {
		if v < 0 || int(v) >= len(m.Points) {
			return nil, fault.New(fault.Invalid, "there is no vertex %d", v)
		}
	}
	path := []int32{places[0]}
	for i, v := range places[1:] {
		if v == places[i] {
			continue
		}
		way, _ := near.ShortestPath([]int32{places[i]}, []int32{v}, m.EdgeLength)
		if len(way) == 0 {
			return nil, fault.New(fault.Invalid, "no edges lead from vertex %d to %d: they lie on two parts", places[i], v)
		}
		path = append(path, way[1:]...)
	}
	return path, nil
}
