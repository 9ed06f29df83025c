package nest

import "golang.org/x/sys/cpu"

//go:noescape
func crowdAVX(flat *float32, full int, box *[4]float32, bits *uint64)

// meet is meetLanes, eight boxes at once where the processor has lanes.
func (c *crowd) meet(b *[4]float32, bits []uint64) {
	if !cpu.X86.HasAVX {
		c.meetLanes(b, bits)
		return
	}
	crowdAVX(&c.flat[0], c.full, b, &bits[0])
}
