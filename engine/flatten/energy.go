package flatten

// jacobian is the linear map of one face from the surface to the flat pattern:
// a step (x, y) on the face becomes (XX·x + XY·y, YX·x + YY·y) on the pattern.
// Steps on a face are taken in its own plane, seen from outside, x along the
// edge from its first corner to its second. Its singular values are pattern
// over surface; mounting stretch is one over them. It has no unit.
type jacobian struct{ XX, XY, YX, YY float64 }

func (j jacobian) det() float64 { return float64(j.XX*j.YY) - float64(j.XY*j.YX) }

// square returns the sum of the squares of its entries, s1² + s2².
func (j jacobian) square() float64 {
	return float64(j.XX*j.XX) + float64(j.XY*j.XY) + float64(j.YX*j.YX) + float64(j.YY*j.YY)
}

// slope is the derivative of a density by the four entries of a jacobian, in
// the order XX, XY, YX, YY.
type slope [4]float64

// bend is the second derivative in the same order, symmetric, of which only
// what lies on and above the diagonal is read.
type bend [4][4]float64

// energy is what a flat pattern costs: the sum over all faces of the face's
// area on the surface times a density of its jacobian. A density has to be
// +Inf where the determinant is not positive, so that no search can turn a
// face over, and rise without bound towards it. It must not depend on how the
// pattern lies as a whole by more than a turn it was made for.
type energy interface {
	// value returns the density of face f at j.
	value(f int, j jacobian) float64
	// derive returns the first derivative and the second with its negative
	// part taken away (eigenvalues below zero set to zero), at a j of positive
	// determinant.
	derive(f int, j jacobian, g *slope, h *bend)
}

// exact is an energy that also tells its second derivative as it is. Near the
// least energy of a whole pattern that is positive all the same, and its steps
// are by far the better ones.
type exact interface {
	energy
	// bare is derive with nothing taken away from the second derivative.
	bare(f int, j jacobian, g *slope, h *bend)
}
