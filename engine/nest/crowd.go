package nest

import "fettle/geom"

// crowd is the boxes of all copies in half precision, for the lanes: all x
// from, all x to, all y from, all y to, each filled up to a multiple of eight
// lanes so that a word tells of 64 of them. Rounding keeps the order of two
// numbers: boxes parted here are parted in full, not the other way round.
type crowd struct {
	flat []float32
	full int // boxes with those that fill up
}

// word is how many boxes one word tells of.
const word = 64

func newCrowd(n int) crowd {
	full := (n + word - 1) &^ (word - 1)
	c := crowd{flat: make([]float32, 4*full), full: full}
	for i := range full {
		c.flat[i] = nowhere // not there
		c.flat[full+i] = -nowhere
	}
	return c
}

// set tells where a copy lies.
func (c *crowd) set(i int, b *geom.Box) {
	for k, v := range halves(b) {
		c.flat[k*c.full+i] = v
	}
}

func halves(b *geom.Box) [4]float32 {
	return [4]float32{float32(b.Min.X), float32(b.Max.X), float32(b.Min.Y), float32(b.Max.Y)}
}

// meetLanes fills one bit for each box that may touch a given one.
func (c *crowd) meetLanes(b *[4]float32, bits []uint64) {
	x0, x1 := c.flat[:c.full], c.flat[c.full:2*c.full]
	y0, y1 := c.flat[2*c.full:3*c.full], c.flat[3*c.full:]
	for k := range bits {
		var w uint64
		for j := range word {
			i := k*word + j
			if x0[i] <= b[1] && x1[i] >= b[0] && y0[i] <= b[3] && y1[i] >= b[2] {
				w |= 1 << j
			}
		}
		bits[k] = w
	}
}
