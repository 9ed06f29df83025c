package nestfile

import (
	"math"
	"slices"

	"fettle/geom"
)

// mended takes out what hand-drawn rings of the sets have that polygons may
// not: points at which the ring turns straight back, which add no area, and
// loops of less than a thousandth of it. Anything larger stays, to be refused,
// and so does a ring of more corners than anybody has drawn by hand.
func mended(r geom.Ring) geom.Ring {
	if len(r) > mostMended {
		return r
	}
	r = unspiked(r)
	for range 10 {
		if r.Check() == nil {
			return r
		}
		cut, ok := unlooped(r)
		if !ok {
			return r
		}
		r = unspiked(cut)
	}
	return r
}

// unspiked leaves out points at which a ring turns straight back, as some of
// the sets have them: they add no area.
func unspiked(r geom.Ring) geom.Ring {
	for k := 0; k < len(r) && len(r) > 3; {
		a, b, c := r[(k+len(r)-1)%len(r)], r[k], r[(k+1)%len(r)]
		in, out := b.Sub(a), c.Sub(b)
		if in.Cross(out) != 0 || in.X*out.X+in.Y*out.Y >= 0 {
			k++
			continue
		}
		r = append(r[:k], r[k+1:]...).Tidy()
		k = max(k-2, 0)
	}
	return r
}

// mostMended bounds a search that takes the square of it.
const mostMended = 5000

// smallLoop is the share of a ring's area that may be cut off as a slip.
const smallLoop = 0.001

// unlooped cuts off the first small loop: where two edges cross, the ring goes
// from one to the other without the points between.
func unlooped(r geom.Ring) (geom.Ring, bool) {
	for i := range r {
		for j := i + 2; j < len(r); j++ {
			a, b, c, d := r[i], r[i+1], r[j], r[(j+1)%len(r)]
			if !geom.Crossing(a, b, c, d) {
				continue
			}
			u, v := b.Sub(a), d.Sub(c)
			if u.Cross(v) == 0 {
				continue
			}
			at := a.Add(u.Scale(c.Sub(a).Cross(v) / u.Cross(v)))
			loop := append(geom.Ring{at}, r[i+1:j+1]...)
			if math.Abs(geom.RingArea(loop)) <= smallLoop*math.Abs(geom.RingArea(r)) {
				return slices.Concat(r[:i+1], geom.Ring{at}, r[j+1:]).Tidy(), true
			}
		}
	}
	return r, false
}
