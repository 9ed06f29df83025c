package flatten

import (
	"context"
	"math"

	"fettle/geom"
)

// A start may press some faces together a thousandfold; the steps towards
// their true shapes are then short, for the first face about to vanish ends
// each. So the faces are asked for less at first: each for a shape between its
// own and the one it has on the pattern, near enough to the latter. As the
// pattern follows, the shapes asked for come to be their own. (Progressive
// parameterisation: Liu, Ye, Ni, Fu 2018.)
const (
	easeBound  = 200.0 // the most density a face is asked to give up at once
	easeEnough = 0.02  // share of the area asked for less at which the rest goes by itself
	easeLevel  = 100   // or this density over all, once
	easeFall   = 0.9   // a round does not bring it down to this share
	easeRounds = 80
)

// ease moves flat positions of high distortion to some that Newton's steps
// soon bring to rest.
func (n *newton) ease(ctx context.Context, at []geom.Point, steps int, report func(step int)) error {
	own := n.sheet
	defer func() { n.sheet = own }()
	eased := *own
	eased.rest = make([]rest, len(own.rest))
	n.sheet = &eased
	last := math.Inf(1)
	for round := range min(easeRounds, steps) {
		now := own.total(n.energy, at) / own.area
		if ctx.Err() != nil || now < easeLevel && now > easeFall*last || own.between(eased.rest, at) < easeEnough*own.area {
			return nil
		}
		last = now
		report(round)
		slope, err := n.direction(at)
		if err != nil {
			return err
		}
		if share, _ := n.sheet.search(n.energy, at, n.step, n.room, eased.total(n.energy, at), slope); share == 0 {
			return nil
		}
	}
	return nil
}

// between fills in the shapes that faces are asked for, and returns the area of
// those asked for less than their own.
func (s *sheet) between(shapes []rest, at []geom.Point) (less float64) {
	for i := range s.faces {
		shapes[i] = s.rest[i]
		j := s.jacobian(i, at)
		large, small := stretches(j)
		p := power(large, small)
		if p == 1 {
			continue
		}
		less += s.rest[i].Area
		shapes[i] = s.rest[i].towards(j, large, small, p)
	}
	return less
}

// power returns the largest p of at most 1 for which stretches large^p and
// small^p have a density within the bound.
func power(large, small float64) float64 {
	density := func(p float64) float64 {
		l, s := math.Pow(large, 2*p), math.Pow(small, 2*p)
		return l + s + 1/l + 1/s
	}
	if density(1) <= easeBound {
		return 1
	}
	low, high := 0.0, 1.0
	for range 20 {
		if mid := (low + high) / 2; density(mid) > easeBound {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// towards returns the shape of a face for which the map j becomes one of
// stretches large^p and small^p along the same axes: its inverse edges times
// V·S^(p−1)·Vᵀ, turned so that its first edge lies along x again.
func (r rest) towards(j jacobian, large, small, p float64) rest {
	xx, yy := float64(j.XX*j.XX)+float64(j.YX*j.YX), float64(j.XY*j.XY)+float64(j.YY*j.YY)
	xy := float64(j.XX*j.XY) + float64(j.YX*j.YY)
	angle := math.Atan2(2*xy, xx-yy) / 2
	c, n := math.Cos(angle), math.Sin(angle)
	l, m := math.Pow(large, p-1), math.Pow(small, p-1)
	bxx, bxy, byy := float64(l*float64(c*c))+float64(m*float64(n*n)), float64((l-m)*float64(c*n)), float64(l*float64(n*n))+float64(m*float64(c*c))
	// (A B; 0 C)·b, and then a turn that clears the lower left again.
	axx, axy := float64(r.A*bxx)+float64(r.B*bxy), float64(r.A*bxy)+float64(r.B*byy)
	ayx, ayy := float64(r.C*bxy), float64(r.C*byy)
	long := math.Hypot(ayx, ayy)
	cos, sin := ayy/long, ayx/long
	return rest{A: float64(axx*cos) - float64(axy*sin), B: float64(axx*sin) + float64(axy*cos), C: long, Area: r.Area}
}
