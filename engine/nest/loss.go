package nest

import "math"

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

// loss judges how much two colliding pieces overlap; b is moved by dx and dy
// in the coordinates of a. It gives up once it passes enough, and returns
// what it has by then.
func (s *pairSize) loss(a, b *turn, dx, dy, enough float64) float64 {
	// The sum of d' min(r1, r2) beyond which enough is passed.
	limit := enough / s.reach
	limit = (float64(limit*limit) - s.square) / math.Pi
	bx, by, br := b.px, b.py[:len(b.px)], b.pr[:len(b.px)]
	sum := 0.0
	for i, r := range a.pr {
		x, y, reach := a.px[i]-dx, a.py[i]-dy, r+s.tail
		for j := range bx {
			u, v, w := bx[j]-x, by[j]-y, br[j]+reach
			apart := float64(u*u) + float64(v*v)
			if apart >= float64(w*w) {
				continue
			}
			d := br[j] + r - math.Sqrt(apart)
			if d < s.eps {
				d = s.square / (2*s.eps - d)
			}
			sum += float64((d - s.least) * min(br[j], r))
		}
		if sum > limit {
			break
		}
	}
	return math.Sqrt(float64(math.Pi*sum)+s.square) * s.reach
}
