package flatten

import (
	"slices"

	"fettle/engine/sparse"
	"fettle/geom"
	"fettle/geom/mesh"
)

// stiffness is the matrix of second derivatives of an energy by all flat
// positions, x of vertex v in row 2v and y in row 2v+1, with a place kept for
// every pair of vertices that share a face, so that only values change.
type stiffness struct {
	matrix *sparse.Matrix
	beside [][2]int32 // pairs that share no face and have a place all the same
	sides  [][3]int32 // by face: where the 2x2 block of corners 0-1, 1-2, 2-0 begins in the column of x of the lower vertex
}

// newStiffness lays out the matrix of a sheet, with places for some pairs of
// vertices besides.
func newStiffness(s *sheet, beside ...[2]int32) *stiffness {
	faces := slices.Clip(s.faces)
	for _, pair := range beside {
		faces = append(faces, mesh.Face{pair[0], pair[1], pair[1]})
	}
	start, above := neighbours(s.vertices, faces)
	m := &sparse.Matrix{N: 2 * s.vertices, Start: make([]int32, 2*s.vertices+1)}
	m.Row = make([]int32, 0, 3*s.vertices+4*len(above))
	for v := range int32(s.vertices) {
		for c := range int32(2) {
			for d := c; d < 2; d++ {
				m.Row = append(m.Row, 2*v+d)
			}
			for _, w := range above[start[v]:start[v+1]] {
				m.Row = append(m.Row, 2*w, 2*w+1)
			}
			m.Start[2*v+c+1] = int32(len(m.Row))
		}
	}
	m.Value = make([]float64, len(m.Row))
	k := &stiffness{matrix: m, beside: beside, sides: make([][3]int32, len(s.faces))}
	for i, f := range s.faces {
		for c := range 3 {
			k.sides[i][c], _ = k.block(f[c], f[(c+1)%3])
		}
	}
	return k
}

// block finds the 2x2 block of two vertices: where it begins in the column of x
// of the lower one, and whether there is one.
func (k *stiffness) block(v, w int32) (first int32, has bool) {
	m := k.matrix
	v, w = min(v, w), max(v, w)
	from, to := m.Start[2*v]+2, m.Start[2*v+1]
	n, has := slices.BinarySearch(m.Row[from:to], 2*w)
	return from + int32(n), has
}

// add adds a block, the derivative by v's coordinate first, to its place.
func (k *stiffness) add(v, w, first int32, xx, xy, yx, yy float64) {
	m := k.matrix
	low := v
	if w < v {
		low, xy, yx = w, yx, xy
	}
	second := first + m.Start[2*low+1] - m.Start[2*low] - 1
	m.Value[first] += xx
	m.Value[first+1] += xy
	m.Value[second] += yx
	m.Value[second+1] += yy
}

// neighbours lists for every vertex those of a higher number that it shares a
// face with, ascending: above[start[v]:start[v+1]].
func neighbours(vertices int, faces []mesh.Face) (start, above []int32) {
	room := make([]int32, vertices+1)
	for _, f := range faces {
		for c := range 3 {
			if f[c] != f[(c+1)%3] {
				room[min(f[c], f[(c+1)%3])+1]++
			}
		}
	}
	for v := range vertices {
		room[v+1] += room[v]
	}
	above = make([]int32, room[vertices])
	next := slices.Clone(room)
	for _, f := range faces {
		for c := range 3 {
			if v, w := min(f[c], f[(c+1)%3]), max(f[c], f[(c+1)%3]); v != w {
				above[next[v]] = w
				next[v]++
			}
		}
	}
	start = make([]int32, vertices+1)
	var kept int32
	for v := range vertices {
		own := above[room[v]:room[v+1]]
		slices.Sort(own)
		kept += int32(copy(above[kept:], slices.Compact(own)))
		start[v+1] = kept
	}
	return start, above[:kept]
}

// fill works out first and second derivatives of an energy at the flat
// positions, face by face as derive tells them, and returns the energy's first
// derivative in grad, x and y of each vertex in turn.
func (k *stiffness) fill(s *sheet, derive func(int, jacobian, *slope, *bend), at []geom.Point, grad []float64) {
	clear(k.matrix.Value)
	clear(grad)
	var g slope
	var h bend
	for i := range s.faces {
		derive(i, s.jacobian(i, at), &g, &h)
		k.spread(s, i, &g, &h, grad)
	}
	if s.fence != nil {
		s.fence.spread(at, k, grad)
	}
}

// spread adds the derivatives of face i by its jacobian to those by the
// positions of its corners.
func (k *stiffness) spread(s *sheet, i int, g *slope, h *bend, grad []float64) {
	f, r := &s.faces[i], &s.rest[i]
	w := r.Area
	gx := [3]float64{-r.A, r.A, 0}
	gy := [3]float64{-r.B - r.C, r.B, r.C}
	var half [3][2][4]float64 // by corner and coordinate, the rows of h times the corner's weights
	for c := range 3 {
		x, y := float64(w*gx[c]), float64(w*gy[c])
		grad[2*f[c]] += float64(x*g[0]) + float64(y*g[1])
		grad[2*f[c]+1] += float64(x*g[2]) + float64(y*g[3])
		half[c][0] = [4]float64{float64(x*h[0][0]) + float64(y*h[0][1]), float64(x*h[0][1]) + float64(y*h[1][1]),
			float64(x*h[0][2]) + float64(y*h[1][2]), float64(x*h[0][3]) + float64(y*h[1][3])}
		half[c][1] = [4]float64{float64(x*h[0][2]) + float64(y*h[0][3]), float64(x*h[1][2]) + float64(y*h[1][3]),
			float64(x*h[2][2]) + float64(y*h[2][3]), float64(x*h[2][3]) + float64(y*h[3][3])}
	}
	m := k.matrix
	for c := range 3 {
		v, at := f[c], &half[c]
		d, x, y := m.Start[2*v], gx[c], gy[c]
		m.Value[d] += float64(at[0][0]*x) + float64(at[0][1]*y)
		m.Value[d+1] += float64(at[1][0]*x) + float64(at[1][1]*y)
		m.Value[m.Start[2*v+1]] += float64(at[1][2]*x) + float64(at[1][3]*y)
		k.pair(s, i, c, at, gx[(c+1)%3], gy[(c+1)%3])
	}
}

// pair adds the block of corner c and the next of face i: half is of corner c,
// x and y weigh the other.
func (k *stiffness) pair(s *sheet, i, c int, half *[2][4]float64, x, y float64) {
	f := &s.faces[i]
	xx, xy := float64(half[0][0]*x)+float64(half[0][1]*y), float64(half[0][2]*x)+float64(half[0][3]*y)
	yx, yy := float64(half[1][0]*x)+float64(half[1][1]*y), float64(half[1][2]*x)+float64(half[1][3]*y)
	k.add(f[c], f[(c+1)%3], k.sides[i][c], xx, xy, yx, yy)
}
