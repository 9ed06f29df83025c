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

// pairSize holds what of a loss depends on the two pieces only. The first five
// are read by overlapAVX at their places.
type pairSize struct {
	tail   float32 // how far apart circles still count
	eps    float32
	square float32 // ε²
	twice  float32 // 2 ε
	least  float32 // d' at the tail, before it is taken off
	reach  float64 // √(λa λb)
}

func sizeOf(a, b *form) pairSize {
	eps := float32(lossFineness * max(a.diameter, b.diameter))
	return pairSize{tail: lossTail * eps, eps: eps, square: eps * eps, twice: 2 * eps, least: eps / (2 + lossTail), reach: a.reach * b.reach}
}

// touch returns the loss that two pieces have if they collide, and whether
// their circles already say so. b is moved by dx and dy in the coordinates of
// a. Where they do, it may give up once it passes enough, and returns what is
// larger than that, no more.
func (s *pairSize) touch(a, b *turn, dx, dy, enough float64) (loss float64, meet bool) {
	dx += b.circles.mid.X - a.circles.mid.X
	dy += b.circles.mid.Y - a.circles.mid.Y
	sum, meet := s.overlap(&a.circles, &b.circles, float32(dx), float32(dy), s.sumOf(enough))
	return math.Sqrt(float64(math.Pi*float64(sum))+float64(s.square)) * s.reach, meet
}

// sumOf is the sum of circles beyond which a loss is passed, with a hair more
// for the rounding.
func (s *pairSize) sumOf(loss float64) float32 {
	root := loss / s.reach
	return float32((float64(root*root) - float64(s.square)) * (1.00001 / math.Pi))
}
