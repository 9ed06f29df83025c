package nest

import "math"

// pace is the first and last step of a descent: as shares of the smaller side
// of the piece's box, and in degrees where any angle will do.
type pace struct{ from, to, wide, narrow float64 }

// The paces of [Gardeyn2025]: for every candidate, and for the best of them
// once more.
var (
	coarse = pace{0.25, 0.02, 5, 1}
	fine   = pace{0.01, 0.001, 0.5, 0.05}
)

// How a step changes when it has paid and when it has not. On a diagonal both
// steps shrink by the root, so that a miss there costs as much as on an axis.
const (
	longer  = 1.1
	shorter = 0.5
)

var shorterDiagonal = math.Sqrt(shorter)

// axes are the directions of a descent: along x, along y, and the diagonals,
// and twice about the middle where any angle will do.
var axes = [...]struct{ x, y, turn float64 }{{1, 0, 0}, {0, 1, 0}, {1, 1, 0}, {1, -1, 0}, {0, 0, 1}, {0, 0, 1}}

// straight is how many of the axes do not turn.
const straight = 4

// descend moves a candidate downhill along one random axis at a time, to both
// sides, with steps that shrink where nothing is gained. The place it returns
// is never worse.
func (k *seeker) descend(i int, c candidate, p pace) candidate {
	ways, wheel := straight, 0.0
	if k.forms[k.items[i].piece].free {
		ways, wheel = len(axes), p.wide
	}
	c.spot = k.fresh(i, c.spot)
	sx := p.from * c.turn.side
	sy, last := sx, p.to*c.turn.side
	axis := k.rand.IntN(ways)
	for c.cost > 0 && (sx > last || sy > last || wheel > p.narrow) {
		d, from := axes[axis], c
		for _, sign := range [2]float64{1, -1} {
			s, ok := k.stride(i, from.spot, c.turn, float64(sign*sx*d.x), float64(sign*sy*d.y), float64(sign*wheel*d.turn))
			if !ok {
				continue
			}
			if cost := k.cost(i, s, c.cost); cost < c.cost {
				c = candidate{s, cost}
			}
		}
		change := longer
		if c.cost >= from.cost {
			change = shorter
			if d.x != 0 && d.y != 0 {
				change = shorterDiagonal
			}
			axis = k.rand.IntN(ways)
		}
		if d.x != 0 {
			sx *= change
		}
		if d.y != 0 {
			sy *= change
		}
		if d.turn != 0 {
			wheel *= change
		}
	}
	return c
}

// fresh returns the spot with its turn as it should be.
func (k *seeker) fresh(i int, s spot) spot {
	if !s.stale() {
		return s
	}
	return k.spun(k.items[i].piece, &k.room[0], s.rotation, s.mirrored, s.x, s.y)
}

// stride returns a spot some way from another, in the bounds; false where that
// is the same or does not fit. A new turn goes into room that is not taken by
// the best so far.
func (k *seeker) stride(i int, from spot, taken *turn, dx, dy, turn float64) (spot, bool) {
	s := from
	if turn != 0 {
		s = k.wheel(i, s, taken, turn)
	}
	b, ok := k.span(s.turn)
	s.x = max(min(s.x+dx, b.Max.X), b.Min.X)
	s.y = max(min(s.y+dy, b.Max.Y), b.Min.Y)
	s, on := k.snap(i, s)
	return s, ok && on && s != from
}

// angleStep is what angles are rounded to, degrees, for the sake of those who
// read them.
const angleStep = 0.001

// wheel returns a spot turned about the middle of the piece.
func (k *seeker) wheel(i int, s spot, taken *turn, by float64) spot {
	room := &k.room[0]
	if room == taken {
		room = &k.room[1]
	}
	x, y := s.x+s.turn.centre.X, s.y+s.turn.centre.Y
	rotation, mirrored := s.lies()
	rotation = k.allowed(i, math.Mod(math.Round((rotation+by)/angleStep)*angleStep+360, 360), mirrored, x, y)
	s = k.spun(k.items[i].piece, room, rotation, mirrored, x, y)
	s.x, s.y = x-s.turn.centre.X, y-s.turn.centre.Y
	return s
}

// allowed is the angle nearest to one at which the tight direction of a copy
// does not stray with its middle at a place.
func (k *seeker) allowed(i int, rotation float64, mirrored bool, x, y float64) float64 {
	axis := k.problem.Pieces[k.items[i].piece].Axis
	if axis == nil || k.floor == nil {
		return rotation
	}
	off := axis.off(k.floor.heading(x, y), rotation, mirrored)
	return rotation - off + max(-axis.Tolerance, min(off, axis.Tolerance))
}
