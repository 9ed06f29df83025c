package mesh

import "math"

// Cluster thins a surface out for a picture: it parts space into cubes, as large
// as leave at most so many of them filled, and returns of each vertex the first
// one in its cube. It is nil where there are no more vertices than that.
func (m Mesh) Cluster(most int) []int32 {
	if len(m.Points) <= most {
		return nil
	}
	low, high := m.Box()
	size := high.Sub(low)
	side := math.Max(math.Sqrt(m.Area()/float64(most)), 1e-9*math.Max(size.Length(), 1e-9))
	for {
		first, filled := make([]int32, len(m.Points)), map[[3]int32]int32{}
		for i, p := range m.Points {
			d := p.Sub(low).Scale(1 / side)
			cube := [3]int32{int32(d.X), int32(d.Y), int32(d.Z)}
			at, ok := filled[cube]
			if !ok {
				at = int32(i)
				filled[cube] = at
			}
			first[i] = at
		}
		if len(filled) <= most {
			return first
		}
		side *= 1.1
	}
}
