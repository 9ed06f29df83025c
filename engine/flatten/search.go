package flatten

import (
	"math"

	"fettle/geom"
)

// The search keeps a share of the way to the first face that would vanish, and
// takes a step that saves a share of what its slope promises.
const (
	capShare    = 0.85
	armijo      = 1e-4
	shorter     = 0.5
	shortenings = 30
)

// cap returns how far a step may go before the first face loses its area: the
// smallest positive root of det(J + t·dJ) = 0 over all faces; +Inf where none
// does. (Smith, Schaefer 2015.)
func (s *sheet) cap(at, step []geom.Point) float64 {
	first := math.Inf(1)
	for i := range s.faces {
		j, d := s.jacobian(i, at), s.jacobian(i, step)
		b := float64(j.XX*d.YY) + float64(d.XX*j.YY) - float64(j.XY*d.YX) - float64(d.XY*j.YX)
		first = min(first, firstRoot(d.det(), b, j.det()))
	}
	return first
}

// firstRoot returns the smallest positive root of a·t² + b·t + c with c above
// zero, or +Inf.
func firstRoot(a, b, c float64) float64 {
	under := float64(b*b) - 4*float64(a*c)
	if under < 0 {
		return math.Inf(1)
	}
	q := -(b + math.Copysign(math.Sqrt(under), b)) / 2
	first := math.Inf(1)
	if t := c / q; t > 0 {
		first = t
	}
	if t := q / a; t > 0 {
		first = min(first, t)
	}
	return first
}

// search moves the flat positions along a step, the whole of it or as much as
// lowers the energy by Armijo's rule without turning a face over. now is the
// energy at the positions and slope its derivative along the step. It returns
// the share taken and the energy there; 0 and now where no share helps.
func (s *sheet) search(e energy, at, step, room []geom.Point, now, slope float64) (share, then float64) {
	share = min(1, capShare*s.cap(at, step))
	for range shortenings {
		for v := range at {
			room[v] = geom.Point{X: at[v].X + float64(share*step[v].X), Y: at[v].Y + float64(share*step[v].Y)}
		}
		if then = s.total(e, room); then <= now+float64(armijo*float64(share*slope)) {
			copy(at, room)
			return share, then
		}
		share *= shorter
	}
	return 0, now
}

// moved says how far a step changes the stretch of the faces: the root mean
// square by area, and the most.
func (s *sheet) moved(at, step []geom.Point) (mean, most float64) {
	for i := range s.faces {
		j := s.jacobian(i, at)
		d := float64(s.jacobian(i, step).square()*j.square()) / float64(2*j.det()*j.det())
		mean += float64(s.rest[i].Area * d)
		most = max(most, d)
	}
	return math.Sqrt(mean / s.area), math.Sqrt(most)
}
