package nest

import "golang.org/x/sys/cpu"

//go:noescape
func overlapAVX(s *pairSize, a *float32, an int, b *float32, bn int, box *[4]float32, dx, dy, enough float32) (sum float32, meet uint32)

// overlap is overlapLanes, eight lanes at once where the processor has them.
func (s *pairSize) overlap(a, b *circles, dx, dy, enough float32) (sum float32, meet bool) {
	if !cpu.X86.HasAVX {
		return s.overlapLanes(a, b, dx, dy, enough)
	}
	sum, some := overlapAVX(s, &a.flat[0], a.n, &b.flat[0], b.n, &b.box, dx, dy, enough)
	return sum, some != 0
}
