package flatten

import (
	"math"

	"fettle/geom"
)

// overTurn is by how much, in radians, faces may go round a corner of the
// outline more than once and still only touch.
const overTurn = 1e-5

// overlaps counts where a pattern covers a place twice: crossings of its
// outline, and corners of it that the faces go round more than once.
func (s *sheet) overlaps(at []geom.Point, b border) int {
	return len(crossings(b.at(at))) + s.overfull(at, b)
}

// around sums the angles of the faces at each vertex, those turned over counted
// less.
func (s *sheet) around(at []geom.Point) []float64 {
	angle := make([]float64, s.vertices)
	for _, f := range s.faces {
		for c := range 3 {
			u, v := at[f[(c+1)%3]].Sub(at[f[c]]), at[f[(c+2)%3]].Sub(at[f[c]])
			angle[f[c]] += math.Atan2(u.Cross(v), float64(u.X*v.X)+float64(u.Y*v.Y))
		}
	}
	return angle
}

// overfull counts the corners of the outline that the faces go round more than
// once.
func (s *sheet) overfull(at []geom.Point, b border) (n int) {
	angle := s.around(at)
	for _, v := range b.corners {
		if angle[v] > 2*math.Pi+overTurn {
			n++
		}
	}
	return n
}

// branched says whether the faces around some inner vertex go round it more
// than once, which no face tells by itself.
func (s *sheet) branched(at []geom.Point, b border) bool {
	angle := s.around(at)
	for _, v := range b.corners {
		angle[v] = 0
	}
	for _, a := range angle {
		if a > 3*math.Pi {
			return true
		}
	}
	return false
}
