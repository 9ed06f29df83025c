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
	for _, q := range dense(p.Line, 10) {
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
	sides []side
	mitre float64
	reach float64 // what lies further from a side has nothing to do with it
}

// side is a straight piece of the sewn line.
type side struct {
	from, dir, middle geom.Point
	long, asked       float64
}

// slack is how far along a side its ends reach: less than half of it, however
// short it is.
func (s side) slack() float64 { return min(cutTolerance, s.long/4) }

func newMeasure(p Piece, mitre float64) measure {
	m := measure{ring: geom.Ring(p.Line), mitre: mitre}
	most := 0.0
	for i, asked := range p.allowances() {
		q := p.Line[(i+1)%len(p.Line)]
		way, long := q.Sub(p.Line[i]), q.Distance(p.Line[i])
		m.sides = append(m.sides, side{p.Line[i], way.Scale(1 / long), step(p.Line[i], way, 0.5), long, asked})
		most = max(most, asked)
	}
	m.reach = most*math.Hypot(mitre, 1) + 1
	return m
}

// off returns by how much a point is nearer and further than asked.
func (m measure) off(q geom.Point) (near, far float64) {
	far = math.Inf(1)
	before, had := m.seen(len(m.sides)-1, q)
	for i := range m.sides {
		s, has := m.seen(i, q)
		if has {
			beyond := s.along - min(max(s.along, 0), s.long)
			far = min(far, math.Sqrt(float64(s.out*s.out)+float64(beyond*beyond))-s.asked)
			if s.along > s.slack() && s.along < s.long-s.slack() && s.out >= 0 {
				near = max(near, s.asked-s.out)
			}
		}
		if has && had && before.along >= before.long-before.slack() && s.along <= s.slack() && (before.out > 0 || s.out > 0) && before.dir.Cross(s.dir) >= 0 { // beyond a corner that points outwards
			tip, most := q.Distance(s.from), max(s.asked, before.asked)
			blunt := math.Hypot(m.mitre*most, most) // the ends of a blunt tip
			far = min(far, max(s.out-s.asked, before.out-before.asked, tip-blunt))
			near = max(near, min(s.asked, before.asked)-tip)
		}
		before, had = s, has
	}
	if m.ring.Contains(q) {
		near = max(near, m.ring.Distance(q))
	}
	if math.IsInf(far, 1) {
		far = m.ring.Distance(q)
	}
	return near, max(far, 0)
}

// seen is a point as a side sees it: how far along it, and out from its line.
type seen struct {
	side
	along, out float64
}

// seen returns how a side sees a point, unless it is out of its reach.
func (m measure) seen(i int, q geom.Point) (seen, bool) {
	s := m.sides[i]
	d, reach := q.Sub(s.middle), m.reach+s.long/2
	if dot(d, d) > reach*reach {
		return seen{}, false
	}
	d = q.Sub(s.from)
	return seen{s, dot(d, s.dir), -s.dir.Cross(d)}, true
}
