package pattern

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// cutTolerance is how far a cut line may be off, mm.
const cutTolerance = 1e-3

// CheckCut measures any cut line against the sewn line of a piece, sharing
// nothing with the work that made it. Points on it, at most 2 mm apart, must lie
// outside the sewn line, off every side that they lie square to by its
// allowance, off a corner that they lie beyond by the smaller allowance of its
// two sides, and no further than that but in the mitre of such a corner; and it
// must go round the whole sewn line without crossing itself. Tolerance: 0.001 mm.
func (p Piece) CheckCut(line Line, mitre float64) (Cut, error) {
	if err := geom.Ring(line).Check(); err != nil {
		return Cut{}, fault.Within(err, "cut line")
	}
	if geom.RingArea(line) < geom.RingArea(p.Line)-cutTolerance {
		return Cut{}, fault.New(fault.Invalid, "it holds less than the sewn line").At("cut line")
	}
	c, m := Cut{Line: line}, newMeasure(p, mitre)
	for _, q := range dense(line, 2) {
		near, far := m.off(q)
		c.Near, c.Far = max(c.Near, near), max(c.Far, far)
		switch {
		case near > cutTolerance:
			return c, fault.New(fault.Invalid, "it lies %.3g mm too near to the sewn line at %s", near, place(q)).At("cut line")
		case far > cutTolerance:
			return c, fault.New(fault.Invalid, "it lies %.3g mm too far from the sewn line at %s", far, place(q)).At("cut line")
		}
	}
	for _, q := range dense(p.Line, 2) {
		if !geom.Ring(line).Contains(q) && geom.Ring(line).Distance(q) > cutTolerance {
			return c, fault.New(fault.Invalid, "it leaves out the sewn line at %s", place(q)).At("cut line")
		}
	}
	return c, nil
}

// dense returns the points of a closed line and points between them.
func dense(l Line, apart float64) Line {
	var out Line
	for i, p := range l {
		q := l[(i+1)%len(l)]
		n := int(min(math.Ceil(p.Distance(q)/apart), 5000))
		for k := range max(n, 1) {
			out = append(out, step(p, q.Sub(p), float64(k)/float64(max(n, 1))))
		}
	}
	return out
}

// measure knows the sides of a sewn line and what is asked outside them.
type measure struct {
	ring  geom.Ring
	asked []float64
	mitre float64
}

func newMeasure(p Piece, mitre float64) measure {
	return measure{geom.Ring(p.Line), p.allowances(), mitre}
}

// off returns by how much a point is nearer and further than asked.
func (m measure) off(q geom.Point) (near, far float64) {
	far = math.Inf(1)
	before := m.seen(len(m.ring)-1, q)
	for i, p := range m.ring {
		s := m.seen(i, q)
		far = min(far, math.Hypot(s.out, s.along-min(max(s.along, 0), s.long))-s.asked)
		if s.along > cutTolerance && s.along < s.long-cutTolerance && s.out >= 0 {
			near = max(near, s.asked-s.out)
		}
		tip, most := q.Distance(p), max(s.asked, before.asked)
		if before.along >= before.long-cutTolerance && s.along <= cutTolerance && before.way.Cross(s.way) >= 0 { // beyond a corner that points outwards
			blunt := math.Hypot(m.mitre*most, most) // the ends of a blunt tip
			far = min(far, max(s.out-s.asked, before.out-before.asked, tip-blunt))
			near = max(near, min(s.asked, before.asked)-tip)
		}
		before = s
	}
	if m.ring.Contains(q) {
		near = max(near, m.ring.Distance(q))
	}
	return near, max(far, 0)
}

// seen is a point as a side sees it: how far along it, and out from its line.
type seen struct {
	way                     geom.Point
	along, out, long, asked float64
}

func (m measure) seen(i int, q geom.Point) seen {
	p := m.ring[i]
	way := m.ring[(i+1)%len(m.ring)].Sub(p)
	long := math.Hypot(way.X, way.Y)
	return seen{way, dot(q.Sub(p), way) / long, -way.Cross(q.Sub(p)) / long, long, m.asked[i]}
}
