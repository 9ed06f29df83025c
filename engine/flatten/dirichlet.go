package flatten

import "math"

// dirichlet is the symmetric Dirichlet density s1² + s2² + 1/s1² + 1/s2²: 4 for
// an isometry, more for anything else, without bound where a face vanishes.
//
// With the jacobian split into its turning part a and its mirroring part b
// (z ↦ a·z + b·conj z), |a| = (s1+s2)/2 and |b| = (s1−s2)/2, the density is
// 2(|a|²+|b|²)(1 + 1/(|a|²−|b|²)²), and its second derivative has the
// eigenvectors a⊥, b⊥ and two in the plane of a and b. Only that of a⊥ can be
// negative: a face pressed together would rather turn.
type dirichlet struct{}

func (dirichlet) value(_ int, j jacobian) float64 {
	d := j.det()
	if d <= 0 {
		return math.Inf(1)
	}
	return float64(j.square() * (1 + 1/float64(d*d)))
}

func (e dirichlet) derive(_ int, j jacobian, g *slope, h *bend) { e.both(j, g, h, true) }

func (e dirichlet) bare(_ int, j jacobian, g *slope, h *bend) { e.both(j, g, h, false) }

func (dirichlet) both(j jacobian, g *slope, h *bend, positive bool) {
	a1, a2 := (j.XX+j.YY)/2, (j.YX-j.XY)/2
	b1, b2 := (j.XX-j.YY)/2, (j.YX+j.XY)/2
	aa, bb := float64(a1*a1)+float64(a2*a2), float64(b1*b1)+float64(b2*b2)
	d := aa - bb
	q := 1 / float64(d*d)
	nq := 4 * float64((aa+bb)*q) / d
	byA, byB := 2*(1+q)-nq, 2*(1+q)+nq
	mixed := 3 * nq / d
	g.set(float64(2*byA*a1), float64(2*byA*a2), float64(2*byB*b1), float64(2*byB*b2))

	along, free := 4*(mixed-8*q/d), 2*byA
	if positive && free < 0 {
		along, free = along+free/aa, 0
	}
	across, cross := 4*(mixed+8*q/d), -4*mixed
	h.set(
		[3]float64{free + float64(along*float64(a1*a1)), float64(along * float64(a1*a2)), free + float64(along*float64(a2*a2))},
		[4]float64{float64(cross * float64(a1*b1)), float64(cross * float64(a1*b2)), float64(cross * float64(a2*b1)), float64(cross * float64(a2*b2))},
		[3]float64{2*byB + float64(across*float64(b1*b1)), float64(across * float64(b1*b2)), 2*byB + float64(across*float64(b2*b2))},
	)
}

// set takes a first derivative by the parts a and b of a jacobian.
func (g *slope) set(a1, a2, b1, b2 float64) {
	g[0], g[1], g[2], g[3] = (a1+b1)/2, (b2-a2)/2, (a2+b2)/2, (a1-b1)/2
}

// set takes a second derivative by the parts a and b of a jacobian: aa is 11,
// 12, 22; ab is 11, 12, 21, 22.
func (h *bend) set(aa [3]float64, ab [4]float64, bb [3]float64) {
	h[0][0] = (aa[0] + 2*ab[0] + bb[0]) / 4
	h[0][1] = (-aa[1] + ab[1] - ab[2] + bb[1]) / 4
	h[0][2] = (aa[1] + ab[1] + ab[2] + bb[1]) / 4
	h[0][3] = (aa[0] - bb[0]) / 4
	h[1][1] = (aa[2] - 2*ab[3] + bb[2]) / 4
	h[1][2] = (-aa[2] + bb[2]) / 4
	h[1][3] = (-aa[1] + ab[2] + ab[1] - bb[1]) / 4
	h[2][2] = (aa[2] + 2*ab[3] + bb[2]) / 4
	h[2][3] = (aa[1] + ab[1] - ab[2] - bb[1]) / 4
	h[3][3] = (aa[0] - 2*ab[0] + bb[0]) / 4
}
