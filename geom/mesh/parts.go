package mesh

// Part is a component: faces that hang together over edges of two faces.
type Part struct {
	Faces []int32 // rising
	Area  float64
	Loops int // of its rim, 0 where it is closed
	Euler int
}

// Handles counts the handles of a part, each of which wants two cuts: 1 for a
// ring.
func (p Part) Handles() int { return (2 - p.Loops - p.Euler) / 2 }

// Parts returns the components in the order of their first face.
func (m Mesh) Parts() []Part {
	a := m.Adjacency()
	label, count := a.Components()
	list := make([]Part, count)
	seen := make([]int32, len(m.Points)) // the part after the one a vertex was last met in
	for f, c := range label {
		list[c].Faces = append(list[c].Faces, int32(f))
		list[c].Area += m.FaceArea(f)
	}
	for c := range list {
		p, open := &list[c], 0
		for _, f := range p.Faces {
			for h := 3 * f; h < 3*f+3; h++ {
				if v := a.Tail[h]; seen[v] != int32(c)+1 {
					seen[v] = int32(c) + 1
					p.Euler++
				}
				if a.Twin[h] == None {
					open++
				}
			}
		}
		p.Euler += len(p.Faces) - (3*len(p.Faces)+open)/2
	}
	for _, loop := range a.openLoops() {
		list[label[loop[0]/3]].Loops++
	}
	return list
}

// Only returns the mesh of some faces, with the points they name, and by new
// point the old one.
func (m Mesh) Only(faces []int32) (Mesh, []int32) {
	r := repairer{m: Mesh{m.Points, pick(m.Faces, faces)}, source: make([]int32, len(m.Points))}
	for v := range r.source {
		r.source[v] = int32(v)
	}
	r.dropPoints()
	return r.m, r.source
}
