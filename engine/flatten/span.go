package flatten

import (
	"math"

	"fettle/geom/mesh"
)

// mostSpan is the most corners of a hole that is spanned: the work grows with
// their third power.
const mostSpan = 240

// slender is what the square of a spanned face's way round weighs against its
// area.
const slender = 1e-4

// span returns faces between the corners of a hole, of the least area together,
// the stouter of equals [BarequetSharir1995]. They use no edge that the surface
// has already. It returns nothing where there are none or corners are too many.
func span(m mesh.Mesh, near mesh.Adjacency, hole []int32) []mesh.Face {
	n := len(hole)
	if n < 3 || n > mostSpan {
		return nil
	}
	least, by := make([]float64, n*n), make([]int, n*n) // of corners i to k: what it weighs, and the corner between
	for gap := 2; gap < n; gap++ {
		for i := range n - gap {
			k := i + gap
			at := i*n + k
			least[at] = math.Inf(1)
			if u, v := hole[i], hole[k]; gap < n-1 && (near.Find(u, v) != mesh.None || near.Find(v, u) != mesh.None) || m.Points[u] == m.Points[v] {
				continue
			}
			for j := i + 1; j < k; j++ {
				sides := least[i*n+j] + least[j*n+k]
				if sides >= least[at] {
					continue
				}
				if w := sides + weigh(m.Points[hole[i]], m.Points[hole[j]], m.Points[hole[k]]); w < least[at] {
					least[at], by[at] = w, j
				}
			}
		}
	}
	if math.IsInf(least[n-1], 1) {
		return nil
	}
	var faces []mesh.Face
	for open := [][2]int{{0, n - 1}}; len(open) > 0; {
		i, k := open[0][0], open[0][1]
		if open = open[1:]; k-i < 2 {
			continue
		}
		j := by[i*n+k]
		faces = append(faces, mesh.Face{hole[k], hole[j], hole[i]})
		open = append(open, [2]int{i, j}, [2]int{j, k})
	}
	return faces
}

// weigh is what a face of a span costs.
func weigh(a, b, c mesh.Vec) float64 {
	u, v, w := b.Sub(a), c.Sub(b), a.Sub(c)
	round := u.Length() + v.Length() + w.Length()
	return u.Cross(v).Length()/2 + float64(slender*float64(round*round))
}
