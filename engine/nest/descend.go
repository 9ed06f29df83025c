package nest

import "math"

// pace is the first and last step of a descent, as shares of the smaller side
// of the piece's box.
type pace struct{ from, to float64 }

// The paces of [Gardeyn2025]: for every candidate, and for the best of them
// once more.
var (
	coarse = pace{0.25, 0.02}
	fine   = pace{0.01, 0.001}
)

// How a step changes when it has paid and when it has not. On a diagonal both
// steps shrink by the root, so that a miss there costs as much as on an axis.
const (
	longer  = 1.1
	shorter = 0.5
)

var shorterDiagonal = math.Sqrt(shorter)

// axes are the directions of a descent: along x, along y, and the diagonals.
var axes = [4]struct{ x, y float64 }{{1, 0}, {0, 1}, {1, 1}, {1, -1}}

// descend moves a candidate downhill along one random axis at a time, to both
// sides, with steps that shrink where nothing is gained. The place it returns
// is never worse.
func (k *seeker) descend(i int, c candidate, p pace) candidate {
	sx := p.from * c.turn.side
	sy, last := sx, p.to*c.turn.side
	span, _ := k.span(c.turn)
	axis := k.rand.IntN(len(axes))
	for c.cost > 0 && (sx > last || sy > last) {
		d, before := axes[axis], c.cost
		from := c
		for _, sign := range [2]float64{1, -1} {
			s := spot{
				c.turn,
				max(min(from.x+float64(sign*sx*d.x), span.Max.X), span.Min.X),
				max(min(from.y+float64(sign*sy*d.y), span.Max.Y), span.Min.Y),
			}
			if s == from.spot {
				continue
			}
			if cost := k.cost(i, s, c.cost); cost < c.cost {
				c = candidate{s, cost}
			}
		}
		change := longer
		if c.cost >= before {
			change = shorter
			if d.x != 0 && d.y != 0 {
				change = shorterDiagonal
			}
			axis = k.rand.IntN(len(axes))
		}
		if d.x != 0 {
			sx *= change
		}
		if d.y != 0 {
			sy *= change
		}
	}
	return c
}
