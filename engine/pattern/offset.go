package pattern

import (
	"math"

	"fettle/geom"
)

// fence is a sewn outline and how far off each side the cut goes: by[i] off the
// side from point i to the next.
type fence struct {
	ring  Line
	by    []float64
	mitre float64 // the most that a tip lies from its corner, over the larger of its two allowances
}

// joint is how the offsets of two sides meet at a corner of the sewn line.
type joint struct {
	points      []geom.Point // in order, from the offset of the side before to that of the side after
	back, ahead float64      // what the corner adds to the length of those two offsets
	hollow      bool         // the corner points inwards
	stepped     bool         // the larger ends in a step, on whose side the smaller's point lies
}

// way returns the direction and length of a side.
func (f fence) way(i int) (geom.Point, float64) {
	d := f.ring[(i+1)%len(f.ring)].Sub(f.ring[i])
	long := math.Hypot(d.X, d.Y)
	return d.Scale(1 / long), long
}

// joint works out one corner. The two offset lines meet in one point wherever
// that point is off both sides by what is asked, cut off squarely where it lies
// beyond the mitre. Where one allowance is much the larger on nearly the same
// heading there is no such point: the larger ends squarely in a step.
func (f fence) joint(i int) joint {
	n := len(f.ring)
	d, _ := f.way((i + n - 1) % n)
	e, _ := f.way(i)
	a, b := f.by[(i+n-1)%n], f.by[i]
	sin, cos := d.Cross(e), dot(d, e)
	j := joint{hollow: sin < 0}
	switch {
	case a == b:
		j.back = a * sin / (1 + cos)
		j.ahead = j.back
	case b >= float64(a*cos) && a >= float64(b*cos) && sin != 0:
		j.back = (b - float64(a*cos)) / sin
		j.ahead = (a - float64(b*cos)) / sin
	default:
		return f.step(i, d, e, a, b)
	}
	most := f.mitre * max(a, b)
	if !j.hollow && !(math.Hypot(a, j.back) <= most) {
		return f.blunt(i, d, e, a, b, j.back)
	}
	j.points = []geom.Point{step(step(f.ring[i], outward(d), a), d, j.back)}
	return j
}

// step ends the larger allowance on its own square, and the smaller there.
func (f fence) step(i int, d, e geom.Point, a, b float64) joint {
	p, sin, cos := f.ring[i], d.Cross(e), dot(d, e)
	if a < b {
		square := outward(e)
		return joint{points: []geom.Point{step(p, square, a/cos), step(p, square, b)}, back: sin * a / cos, hollow: sin < 0, stepped: true}
	}
	square := outward(d)
	return joint{points: []geom.Point{step(p, square, a), step(p, square, b/cos)}, ahead: sin * b / cos, hollow: sin < 0, stepped: true}
}

// blunt cuts a tip off squarely at the mitre's reach. The way to the tip is
// between the two sides' own; for a spike, straight on.
func (f fence) blunt(i int, d, e geom.Point, a, b, tip float64) joint {
	p, most := f.ring[i], f.mitre*max(a, b)
	to := d.Sub(e)
	if tip < 1e6*most {
		to = step(outward(d).Scale(a), d, tip)
	}
	to = to.Scale(1 / math.Hypot(to.X, to.Y))
	back := (most - float64(a*dot(outward(d), to))) / dot(d, to)
	ahead := (most - float64(b*dot(outward(e), to))) / -dot(e, to)
	return joint{points: []geom.Point{step(step(p, outward(d), a), d, back), step(step(p, outward(e), b), e, -ahead)}, back: back, ahead: ahead}
}

func (f fence) joints() []joint {
	out := make([]joint, len(f.ring))
	for i := range out {
		out[i] = f.joint(i)
	}
	return out
}

// straight joins the offsets corner by corner. It is the answer unless an
// offset comes out shorter than nothing, or crosses another.
func (f fence) straight(joints []joint) (Line, bool) {
	var out geom.Ring
	for i, j := range joints {
		_, long := f.way(i)
		if long+j.ahead+joints[(i+1)%len(joints)].back < 0 {
			return nil, false
		}
		out = append(out, j.points...)
	}
	out = out.Tidy()
	return Line(out), out.Check() == nil
}
