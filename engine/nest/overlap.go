package nest

import (
	"math"

	"fettle/geom"
)

// lanes is how many circles are compared at once.
const lanes = 8

// circles are the poles of a turned piece, about largest first, as seen
// from the middle of its box: all x, then all y, then all radii, each filled up to a
// multiple of lanes. Half the precision does: the loss is a proxy, and what
// the outlines say is asked in full.
type circles struct {
	n    int
	flat []float32
	box  [4]float32 // about all: x from and to, y from and to
	mid  geom.Point // in the coordinates of the turned piece
}

// nowhere is where the circles lie that fill up the lanes: too far to count,
// near enough to square.
const nowhere = 1e18

// lay makes c the poles as seen from mid.
func (c *circles) lay(px, py, pr []float64, mid geom.Point) {
	c.n, c.mid, c.box = len(px), mid, [4]float32{nowhere, -nowhere, nowhere, -nowhere}
	full := c.full()
	if cap(c.flat) < 3*full {
		c.flat = make([]float32, 3*full)
	}
	c.flat = c.flat[:3*full]
	xs, ys, rs := c.flat[:full], c.flat[full:2*full], c.flat[2*full:]
	for i := range xs {
		if i >= c.n {
			xs[i], ys[i], rs[i] = nowhere, 0, 0
			continue
		}
		x, y, r := float32(px[i]-mid.X), float32(py[i]-mid.Y), float32(pr[i])
		xs[i], ys[i], rs[i] = x, y, r
		c.box = [4]float32{min(c.box[0], x-r), max(c.box[1], x+r), min(c.box[2], y-r), max(c.box[3], y+r)}
	}
}

// full is the number of circles with those that fill up the lanes.
func (c *circles) full() int { return (c.n + lanes - 1) &^ (lanes - 1) }

// overlapLanes sums d' min(r1, r2) over all pairs of circles, and says whether
// any two overlap: then the pieces surely collide. The middle of b is moved by
// dx and dy from that of a. Once some two overlap it gives up when the sum
// passes enough. The sum is taken in lanes, so that every processor comes to
// the same.
func (s *pairSize) overlapLanes(a, b *circles, dx, dy, enough float32) (sum float32, meet bool) {
	var lane [lanes]float32
	fa, fb := a.full(), b.full()
	bx, by, br := b.flat[:fb], b.flat[fb:2*fb], b.flat[2*fb:]
	for i := range a.n {
		x, y, r := a.flat[i]-dx, a.flat[fa+i]-dy, a.flat[2*fa+i]
		if w := r + s.tail; x+w <= b.box[0] || x-w >= b.box[1] || y+w <= b.box[2] || y-w >= b.box[3] {
			continue
		}
		live := false
		for j := range bx {
			u, v := bx[j]-x, by[j]-y
			apart, d := float32(u*u)+float32(v*v), br[j]+r
			if w := d + s.tail; apart >= float32(w*w) {
				continue
			}
			live = true
			d -= float32(math.Sqrt(float64(apart)))
			meet = meet || d > 0
			if d < s.eps {
				d = s.square / (s.twice - d)
			}
			lane[j%lanes] += float32((d - s.least) * min(br[j], r))
		}
		if !live {
			continue
		}
		sum = ((lane[0] + lane[4]) + (lane[2] + lane[6])) + ((lane[1] + lane[5]) + (lane[3] + lane[7]))
		if meet && sum > enough {
			break
		}
	}
	return sum, meet
}
