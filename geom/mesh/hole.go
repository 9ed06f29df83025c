package mesh

// Holes returns the boundary loops that are not the longest of their component.
func (m Mesh) Holes() [][]int32 { return m.Adjacency().holes(m) }

func (a Adjacency) holes(m Mesh) [][]int32 {
	label, count := a.Components()
	loops, rims := a.BoundaryLoops(), a.openLoops()
	rim, most := make([]int, count), make([]float64, count)
	for i, loop := range loops {
		part := label[rims[i][0]/3]
		if d := m.LoopLength(loop); d > most[part] {
			rim[part], most[part] = i, d
		}
	}
	var holes [][]int32
	for i, loop := range loops {
		if rim[label[rims[i][0]/3]] != i {
			holes = append(holes, loop)
		}
	}
	return holes
}

// LoopLength is how long it is around a loop.
func (m Mesh) LoopLength(loop []int32) float64 {
	var sum float64
	for i, v := range loop {
		sum += m.EdgeLength(v, loop[(i+1)%len(loop)])
	}
	return sum
}

// fillHoles closes holes whose rim is no longer than asked, with faces between
// the points of the rim. Holes that would need an edge that is there already, or
// have too many corners, stay.
func (r *repairer) fillHoles(longest float64) {
	a := r.m.Adjacency()
	var filled, left [][]int32
	for _, loop := range a.holes(r.m) {
		var faces []Face
		if r.m.LoopLength(loop) <= longest {
			faces = r.m.cap(a, loop)
		}
		if r.m.Faces = append(r.m.Faces, faces...); faces != nil {
			filled = append(filled, loop)
		} else {
			left = append(left, loop)
		}
	}
	r.note(HoleFilled, len(filled), func() Vec { return r.m.Points[filled[0][0]] })
	r.note(HoleLeft, len(left), func() Vec { return r.m.Points[left[0][0]] })
}

// cap returns faces that close a hole, or nothing.
func (m Mesh) cap(a Adjacency, loop []int32) []Face {
	n := len(loop)
	if n < 3 || n > mostCorners {
		return nil
	}
	p := make([]Vec, n) // the other way round, as the faces that are missing run
	for i, v := range loop {
		p[n-1-i] = m.Points[v]
	}
	var b Builder
	var faces []Face
	for _, t := range b.split(p) {
		face := Face{loop[n-1-t[0]], loop[n-1-t[1]], loop[n-1-t[2]]}
		for k := range 3 {
			if d := (t[k] - t[(k+1)%3] + n) % n; d == 1 || d == n-1 {
				continue // along the rim
			}
			if u, v := face[k], face[(k+1)%3]; a.Find(u, v) != None || a.Find(v, u) != None {
				return nil
			}
		}
		faces = append(faces, face)
	}
	return faces
}
