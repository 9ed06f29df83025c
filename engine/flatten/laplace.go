package flatten

import (
	"slices"

	"fettle/engine/sparse"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
)

// leastWeight is the least weight of an edge. Where the angles across an edge
// sum to more than a half-turn its cotangents sum to less than nothing; that is
// true to the surface, but raised to this, no face can be turned over.
const leastWeight = 1e-9

// laplace is the weighted difference of each inner vertex of a disc from its
// neighbours, factored: it extends what is given on the boundary to the inside.
type laplace struct {
	faces  []mesh.Face
	inner  []int32 // by vertex: its row, or mesh.None on the boundary
	rows   int
	weight [][3]float64 // by face: what it adds to its edges 0-1, 1-2, 2-0
	matrix *sparse.Matrix
	order  *sparse.Symbolic
	factor *sparse.Factor
}

// newLaplace factors the cotangent weights of a sheet whose boundary vertices
// are given.
func newLaplace(s *sheet, boundary []int32, stats *Stats) (*laplace, error) {
	l := &laplace{faces: s.faces, inner: make([]int32, s.vertices)}
	for _, v := range boundary {
		l.inner[v] = mesh.None
	}
	for v := range l.inner {
		if l.inner[v] != mesh.None {
			l.inner[v] = int32(l.rows)
			l.rows++
		}
	}
	l.weight = cotangents(s)
	return l, l.refactor(stats)
}

// cotangents returns by face half the cotangent of the angle across each edge.
func cotangents(s *sheet) [][3]float64 {
	w := make([][3]float64, len(s.faces))
	for i, r := range s.rest {
		// With corners 0, (1/A, 0) and (-B/(A·C), 1/C): dot products of edges over twice the area.
		long, x, y := 1/r.A, -r.B/float64(r.A*r.C), 1/r.C
		four := 4 * r.Area
		w[i] = [3]float64{
			(float64(x*(x-long)) + float64(y*y)) / four,
			float64(long*x) / four,
			float64(long*(long-x)) / four,
		}
	}
	return w
}

// raise lifts edges to the least weight, so that places are weighted means of
// their neighbours.
func (l *laplace) raise(a mesh.Adjacency, stats *Stats) error {
	low := slices.Clone(l.weight)
	for f := range low {
		for c := range 3 {
			sum, twin, share := l.weight[f][c], a.Twin[3*f+c], leastWeight
			if twin != mesh.None {
				sum, share = sum+l.weight[twin/3][twin%3], leastWeight/2
			}
			if sum < leastWeight {
				low[f][c] = share
			}
		}
	}
	l.weight = low
	return l.refactor(stats)
}

// even gives all edges one weight.
func (l *laplace) even(stats *Stats) error {
	for f := range l.weight {
		l.weight[f] = [3]float64{1, 1, 1}
	}
	return l.refactor(stats)
}

// refactor factors the rows of the inner vertices.
func (l *laplace) refactor(stats *Stats) (err error) {
	if l.rows == 0 {
		return nil
	}
	if l.matrix == nil {
		err = l.layOut()
	} else {
		l.fill()
	}
	if err != nil {
		return fault.Wrap(fault.Internal, err, "laying flat")
	}
	stats.Factors++
	if l.factor == nil {
		l.factor, err = l.order.Factor(l.matrix)
	} else {
		err = l.factor.Refactor(l.matrix)
	}
	if err != nil {
		return fault.Wrap(fault.Internal, err, "laying flat")
	}
	return nil
}

// layOut makes the matrix, its values and its order of elimination.
func (l *laplace) layOut() (err error) {
	start, above := neighbours(len(l.inner), l.faces)
	l.matrix = &sparse.Matrix{N: l.rows, Start: make([]int32, 1, l.rows+1), Row: make([]int32, 0, l.rows+len(above))}
	for v, row := range l.inner {
		if row == mesh.None {
			continue
		}
		l.matrix.Row = append(l.matrix.Row, row)
		for _, w := range above[start[v]:start[v+1]] {
			if l.inner[w] != mesh.None {
				l.matrix.Row = append(l.matrix.Row, l.inner[w])
			}
		}
		l.matrix.Start = append(l.matrix.Start, int32(len(l.matrix.Row)))
	}
	l.matrix.Value = make([]float64, len(l.matrix.Row))
	l.fill()
	l.order, err = sparse.Analyse(l.matrix)
	return err
}

// fill puts the weights into the matrix.
func (l *laplace) fill() {
	m := l.matrix
	clear(m.Value)
	for i, f := range l.faces {
		for c := range 3 {
			v, w, k := l.inner[f[c]], l.inner[f[(c+1)%3]], l.weight[i][c]
			if v != mesh.None {
				m.Value[m.Start[v]] += k
			}
			if w != mesh.None {
				m.Value[m.Start[w]] += k
			}
			if v != mesh.None && w != mesh.None {
				low, high := min(v, w), max(v, w)
				n, _ := slices.BinarySearch(m.Row[m.Start[low]:m.Start[low+1]], high)
				m.Value[m.Start[low]+int32(n)] -= k
			}
		}
	}
}

// difference returns the sum of a value's differences from its neighbours by
// vertex, each times the weight of the edge.
func (l *laplace) difference(value []float64) []float64 {
	d := make([]float64, len(value))
	for i, f := range l.faces {
		for c := range 3 {
			v, w := f[c], f[(c+1)%3]
			k := float64(l.weight[i][c] * (value[v] - value[w]))
			d[v] += k
			d[w] -= k
		}
	}
	return d
}

// solve returns the value by vertex that is 0 on the boundary and whose
// difference at each inner vertex is as asked for.
func (l *laplace) solve(asked []float64, stats *Stats) []float64 {
	value, right, x := make([]float64, len(l.inner)), make([]float64, l.rows), make([]float64, l.rows)
	if l.rows == 0 {
		return value
	}
	for v, row := range l.inner {
		if row != mesh.None {
			right[row] = asked[v]
		}
	}
	l.factor.Solve(x, right)
	stats.Solves++
	for v, row := range l.inner {
		if row != mesh.None {
			value[v] = x[row]
		}
	}
	return value
}

// extend moves the inner vertices to the weighted means of their neighbours,
// the boundary staying where it is.
func (l *laplace) extend(at []geom.Point, stats *Stats) {
	for _, axis := range []func(*geom.Point) *float64{func(p *geom.Point) *float64 { return &p.X }, func(p *geom.Point) *float64 { return &p.Y }} {
		edge := make([]float64, len(at))
		for v := range at {
			if l.inner[v] == mesh.None {
				edge[v] = *axis(&at[v])
			}
		}
		lack := l.difference(edge)
		for v := range lack {
			lack[v] = -lack[v]
		}
		for v, x := range l.solve(lack, stats) {
			if l.inner[v] != mesh.None {
				*axis(&at[v]) = x
			}
		}
	}
}
