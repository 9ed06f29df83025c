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
	sides  [][3]int32 // by face: where the 2x2 block of corners 0-1, 1-2, 2-0 begins in the column of x of the lower vertex
}

// newStiffness lays out the matrix of a sheet.
func newStiffness(s *sheet) *stiffness {
	start, above := neighbours(s.vertices, s.faces)
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
	k := &stiffness{matrix: m, sides: make([][3]int32, len(s.faces))}
	for i, f := range s.faces {
		for c := range 3 {
			v, w := min(f[c], f[(c+1)%3]), max(f[c], f[(c+1)%3])
			n, _ := slices.BinarySearch(above[start[v]:start[v+1]], w)
			k.sides[i][c] = m.Start[2*v] + 2 + 2*int32(n)
		}
	}
	return k
}

// neighbours lists for every vertex those of a higher number that it shares a
// face with, ascending: above[start[v]:start[v+1]].
func neighbours(vertices int, faces []mesh.Face) (start, above []int32) {
	room := make([]int32, vertices+1)
	for _, f := range faces {
		for c := range 3 {
			room[min(f[c], f[(c+1)%3])+1]++
		}
	}
	for v := range vertices {
		room[v+1] += room[v]
	}
	above = make([]int32, room[vertices])
	next := slices.Clone(room)
	for _, f := range faces {
		for c := range 3 {
			v, w := min(f[c], f[(c+1)%3]), max(f[c], f[(c+1)%3])
			above[next[v]] = w
			next[v]++
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
	m, f := k.matrix, &s.faces[i]
	xx, xy := float64(half[0][0]*x)+float64(half[0][1]*y), float64(half[0][2]*x)+float64(half[0][3]*y)
	yx, yy := float64(half[1][0]*x)+float64(half[1][1]*y), float64(half[1][2]*x)+float64(half[1][3]*y)
	low := f[c]
	if next := f[(c+1)%3]; next < low {
		low, xy, yx = next, yx, xy
	}
	first := k.sides[i][c]
	second := first + m.Start[2*low+1] - m.Start[2*low] - 1
	m.Value[first] += xx
	m.Value[first+1] += xy
	m.Value[second] += yx
	m.Value[second+1] += yy
}
