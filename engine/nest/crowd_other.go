//go:build !amd64

package nest

func (c *crowd) meet(b *[4]float32, bits []uint64) { c.meetLanes(b, bits) }
