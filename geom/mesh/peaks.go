package mesh

import (
	"cmp"
	"slices"
)

// FaceMiddle returns the mean of the three corners of a face.
func (m Mesh) FaceMiddle(f int) Vec { return m.centre(m.Faces[f]) }

// Peaks returns the faces where a figure is highest and above least, the
// highest first, each further than apart from those before it, at most so many.
func (m Mesh) Peaks(of func(face int) float64, least, apart float64, most int) []int32 {
	order := make([]int32, len(m.Faces))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(of(int(b)), of(int(a))) })
	var out []int32
	var at []Vec
	for _, i := range order {
		if len(out) >= most || of(int(i)) <= least {
			break
		}
		mid := m.FaceMiddle(int(i))
		if !slices.ContainsFunc(at, func(p Vec) bool { return p.Sub(mid).Length() < apart }) {
			out, at = append(out, i), append(at, mid)
		}
	}
	return out
}
