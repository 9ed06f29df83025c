//go:build !amd64

package nest

func (s *pairSize) overlap(a, b *circles, dx, dy, enough float32) (sum float32, meet bool) {
	return s.overlapLanes(a, b, dx, dy, enough)
}
