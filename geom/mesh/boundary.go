package mesh

// BoundaryLoops returns the open edges as closed runs of vertices, the first
// not repeated at the end, with the surface on their left: seen from outside
// the rim of a sheet runs anticlockwise, the rim of a hole clockwise. Loops that
// touch in a vertex stay apart. They come in the order of their first half-edge.
func (m Mesh) BoundaryLoops() [][]int32 { return m.Adjacency().BoundaryLoops() }

// BoundaryLoops is that of the mesh the adjacency was worked out from.
func (a Adjacency) BoundaryLoops() [][]int32 {
	loops := a.openLoops()
	for _, loop := range loops {
		for i, h := range loop {
			loop[i] = a.Tail[h]
		}
	}
	return loops
}

// openLoops are the boundary loops by half-edge.
func (a Adjacency) openLoops() [][]int32 {
	var loops [][]int32
	seen := make([]bool, len(a.Twin))
	for h := range int32(len(a.Twin)) {
		if a.Twin[h] != None || seen[h] {
			continue
		}
		var loop []int32
		for g := h; !seen[g]; g = a.nextOpen(g) {
			seen[g] = true
			loop = append(loop, g)
		}
		loops = append(loops, loop)
	}
	return loops
}

// nextOpen returns the open half-edge after an open one along the rim.
func (a Adjacency) nextOpen(h int32) int32 {
	for h = Next(h); a.Twin[h] != None; h = Next(a.Twin[h]) {
	}
	return h
}

// OnBoundary reports by vertex whether an open edge ends there.
func (a Adjacency) OnBoundary() []bool {
	on := make([]bool, len(a.first)-1)
	for h, t := range a.Twin {
		if t == None {
			on[a.Tail[h]], on[a.Head(int32(h))] = true, true
		}
	}
	return on
}

// Euler returns vertices in use less edges plus faces: 1 for a disc, 2 for a
// sphere, 0 for a tube or a ring, over all components together.
func (m Mesh) Euler() int { return m.Adjacency().Euler() }

// Euler is that of the mesh the adjacency was worked out from.
func (a Adjacency) Euler() int {
	used := 0
	for v := range len(a.first) - 1 {
		if a.first[v] < a.first[v+1] {
			used++
		}
	}
	return used - a.Edges() + len(a.Twin)/3
}

// Components labels the faces that hang together over edges with two faces,
// from 0 in the order of their first face, and counts the labels.
func (a Adjacency) Components() (label []int32, count int) {
	label = make([]int32, len(a.Twin)/3)
	for f := range label {
		label[f] = None
	}
	var queue []int32
	for f := range label {
		if label[f] != None {
			continue
		}
		label[f] = int32(count)
		for queue = append(queue[:0], int32(f)); len(queue) > 0; {
			g := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			for h := 3 * g; h < 3*g+3; h++ {
				if t := a.Twin[h]; t != None && label[t/3] == None {
					label[t/3] = int32(count)
					queue = append(queue, t/3)
				}
			}
		}
		count++
	}
	return label, count
}
