package nest

import (
	"math"

	"fettle/geom"
)

// The loss of two colliding pieces [Gardeyn2025] is
//
//	√(α + ε²) · √(λa λb),   α = π Σ d' min(r1, r2)
//
// over all pairs of a pole of the one and a pole of the other. d is how deep
// the circles overlap, d = r1 + r2 − distance; below ε it is replaced by
// d' = ε² / (2ε − d), which goes on falling beyond contact, so that a move in
// the right direction always pays. λ is the square root of a piece's convex
// hull area, ε a hundredth of the larger diameter.
//
// Unlike there, circles further apart than lossTail ε count for nothing, and d'
// is less by what it is at that distance, so that it stays continuous. Most
// pairs of circles are that far apart, and are then passed over without a root
// or a division.

const (
	lossFineness = 0.01 // ε as a share of the larger diameter
	lossTail     = 8    // how far circles feel each other, in ε
)

// pairSize holds what of a loss depends on the two pieces only.
type pairSize struct {
	eps    float64
	square float64 // ε²
	tail   float64 // how far apart circles still count
	least  float64 // d' there, before it is taken off
	reach  float64 // √(λa λb)
}

func sizeOf(a, b *form) pairSize {
	eps := lossFineness * max(a.diameter, b.diameter)
	return pairSize{eps: eps, square: eps * eps, tail: lossTail * eps, least: eps / (2 + lossTail), reach: a.reach * b.reach}
}

// round is those circles of a turned piece that may count in a loss.
type round struct {
	n       int
	x, y, r [mostPoles]float64
}

// within takes the circles of a piece that reach into a box.
func (c *round) within(t *turn, in *geom.Box) {
	n := 0
	ys, rs := t.py[:len(t.px)], t.pr[:len(t.px)]
	for i, x := range t.px {
		y, r := ys[i], rs[i]
		if x+r > in.Min.X && x-r < in.Max.X && y+r > in.Min.Y && y-r < in.Max.Y {
			k := n & (mostPoles - 1)
			c.x[k], c.y[k], c.r[k] = x, y, r
			n++
		}
	}
	c.n = n
}

// overlap sums d' min(r1, r2) over all pairs of circles, and says whether any
// two overlap: then the pieces surely collide. b is moved by dx and dy in the
// coordinates of a. Once some two overlap it gives up when the sum passes
// enough. Circles far from the other piece are passed over first.
func (s *pairSize) overlap(a, b *turn, dx, dy, enough float64, near *round) (sum float64, meet bool) {
	near.within(b, &geom.Box{
		Min: geom.Point{X: a.round.Min.X - dx - s.tail, Y: a.round.Min.Y - dy - s.tail},
		Max: geom.Point{X: a.round.Max.X - dx + s.tail, Y: a.round.Max.Y - dy + s.tail},
	})
	x0, x1, y0, y1 := b.round.Min.X-s.tail, b.round.Max.X+s.tail, b.round.Min.Y-s.tail, b.round.Max.Y+s.tail
	bx, by, br := near.x[:near.n], near.y[:near.n], near.r[:near.n]
	ay, ar := a.py[:len(a.px)], a.pr[:len(a.px)]
	for i, x := range a.px {
		x -= dx
		y, r := ay[i]-dy, ar[i]
		if x+r <= x0 || x-r >= x1 || y+r <= y0 || y-r >= y1 {
			continue
		}
		reach := r + s.tail
		for j := range bx {
			u, v, w := bx[j]-x, by[j]-y, br[j]+reach
			apart := float64(u*u) + float64(v*v)
			if apart >= float64(w*w) {
				continue
			}
			d := br[j] + r - math.Sqrt(apart)
			if d < s.eps {
				meet = meet || d > 0
				d = s.square / (2*s.eps - d)
			} else {
				meet = true
			}
			sum += float64((d - s.least) * min(br[j], r))
		}
		if meet && sum > enough {
			break
		}
	}
	return sum, meet
}

// loss is that of two colliding pieces whose circles have some sum.
func (s *pairSize) loss(sum float64) float64 {
	return math.Sqrt(float64(math.Pi*sum)+s.square) * s.reach
}

// sumOf is the sum of circles that a loss belongs to.
func (s *pairSize) sumOf(loss float64) float64 {
	root := loss / s.reach
	return (float64(root*root) - s.square) / math.Pi
}
