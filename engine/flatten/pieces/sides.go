package pieces

import (
	"fettle/engine/flatten"
	"fettle/geom"
	"fettle/geom/mesh"
)

// Sides is one cut as it lies on the flat shape.
type Sides struct {
	On    float64         // length on the surface
	Edges [2][]geom.Point // left and right of the cut's way, where the surface goes on there
}

// SidesOf returns both sides of every cut, in the way the cut runs.
func SidesOf(m mesh.Mesh, r flatten.Result) []Sides {
	edge := map[[2]int32][2]int32{} // of the surface → of the flat shape
	for i, face := range r.Flat.Faces {
		of := m.Faces[i]
		for k := range of {
			edge[[2]int32{of[k], of[(k+1)%3]}] = [2]int32{face[k], face[(k+1)%3]}
		}
	}
	at := r.Flat.Points
	var out []Sides
	for _, cut := range r.Cuts {
		var s Sides
		for i, v := range cut[1:] {
			u := cut[i]
			s.On += m.EdgeLength(u, v)
			if e, ok := edge[[2]int32{u, v}]; ok {
				s.Edges[0] = joinAt(s.Edges[0], at[e[0]], at[e[1]])
			}
			if e, ok := edge[[2]int32{v, u}]; ok {
				s.Edges[1] = joinAt(s.Edges[1], at[e[1]], at[e[0]])
			}
		}
		out = append(out, s)
	}
	return out
}

// joinAt adds a step to a line.
func joinAt(line []geom.Point, a, b geom.Point) []geom.Point {
	if len(line) == 0 {
		line = append(line, a)
	}
	return append(line, b)
}
