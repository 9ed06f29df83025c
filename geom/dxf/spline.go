package dxf

import (
	"math"

	"fettle/geom"
	"fettle/geom/outline"
)

const (
	mostDegree = 15
	mostCuts   = 1 << 16 // of one knot span
)

// spline is a rational B-spline; weights are empty when all are 1.
type spline struct {
	kin
	closed  bool
	degree  int
	knots   []float64
	points  []geom.Point
	weights []float64
}

func readSpline(e entity) (shape, error) {
	k, err := e.kin()
	if err != nil {
		return nil, err
	}
	k.own = outline.Identity() // given in the drawing's axes
	flags, err := e.flag(70)
	if err != nil {
		return nil, err
	}
	degree, err := e.flag(71)
	if err != nil {
		return nil, err
	}
	s := spline{kin: k, closed: flags&1 != 0, degree: degree}
	if s.points, err = e.points(10); err != nil {
		return nil, err
	}
	for _, p := range e.pairs {
		if p.code != 40 && p.code != 41 {
			continue
		}
		v, err := p.number()
		if err != nil {
			return nil, err
		}
		if p.code == 40 {
			s.knots = append(s.knots, v)
		} else {
			s.weights = append(s.weights, v)
		}
	}
	return s, s.check(e)
}

func (s spline) check(e entity) error {
	n := len(s.points)
	switch {
	case n == 0:
		return e.fault("it has no control points; save it with control points, or as a polyline")
	case s.degree < 1 || s.degree > mostDegree:
		return e.fault("its degree %d is not within 1 and %d", s.degree, mostDegree)
	case n <= s.degree || len(s.knots) != n+s.degree+1:
		return e.fault("%d control points and %d knots do not fit the degree %d", n, len(s.knots), s.degree)
	case len(s.weights) != 0 && len(s.weights) != n:
		return e.fault("%d weights for %d control points", len(s.weights), n)
	}
	for i := 1; i < len(s.knots); i++ {
		if s.knots[i] < s.knots[i-1] {
			return e.fault("knot %d is smaller than the one before", i+1)
		}
	}
	for _, w := range s.weights {
		if w <= 0 {
			return e.fault("a weight of %g", w)
		}
	}
	return nil
}

// rational is a control point times its weight, and the weight.
type rational struct{ x, y, w float64 }

func (a rational) mix(b rational, t float64) rational {
	return rational{a.x + float64(t*(b.x-a.x)), a.y + float64(t*(b.y-a.y)), a.w + float64(t*(b.w-a.w))}
}

func (s spline) place(p *placer, m outline.Affine) error {
	moved := make([]geom.Point, len(s.points))
	for i, q := range s.points {
		moved[i] = m.Point(q)
	}
	var line []geom.Point
	for i := s.degree; i < len(s.points); i++ {
		a, b := s.knots[i], s.knots[i+1]
		if b <= a {
			continue
		}
		// Near the origin, sums lose least.
		origin := moved[i]
		control := s.control(moved, i, origin)
		n := s.cuts(control, i, p.Flatten)
		if n > mostCuts {
			return entity{kind: "SPLINE", line: s.line}.fault("it bends too sharply to be cut within %g mm", p.Flatten)
		}
		for j := range n + 1 {
			if j > 0 || line == nil {
				line = append(line, origin.Add(s.at(control, i, a+(b-a)*float64(j)/float64(n))))
			}
		}
		if len(line) > outline.MaxVertices {
			break // Add says so
		}
	}
	if line == nil {
		return entity{kind: "SPLINE", line: s.line}.fault("its knots are all the same")
	}
	return p.draw(s.kin, s.closed, line)
}

// control returns the control points of the span after knot i, from origin.
func (s spline) control(moved []geom.Point, i int, origin geom.Point) []rational {
	list := make([]rational, s.degree+1)
	for j := range list {
		w, q := 1.0, moved[i-s.degree+j].Sub(origin)
		if len(s.weights) > 0 {
			w = s.weights[i-s.degree+j]
		}
		list[j] = rational{q.X * w, q.Y * w, w}
	}
	return list
}

// at evaluates the span after knot i by de Boor's recurrence [deBoor1972].
func (s spline) at(control []rational, i int, u float64) geom.Point {
	var d [mostDegree + 1]rational
	copy(d[:], control)
	for r := 1; r <= s.degree; r++ {
		for j := s.degree; j >= r; j-- {
			low := s.knots[j+i-s.degree]
			d[j] = d[j-1].mix(d[j], (u-low)/(s.knots[j+1+i-r]-low))
		}
	}
	end := d[s.degree]
	return geom.Point{X: end.x / end.w, Y: end.y / end.w}
}

// cuts returns how many equal steps of the span's parameter keep its chords
// within tolerance: a chord over h strays by at most h² |C”| / 8. With C = A/w,
// C” = (A” − 2 w' C' − w” C) / w and C' = (A' − w' C) / w, and every factor
// lies within its largest control point.
func (s spline) cuts(control []rational, i int, tolerance float64) int {
	first := s.derive(control, i, s.degree)
	second := s.derive(first, i, s.degree-1)
	least, wide := math.Inf(1), 0.0
	for _, c := range control {
		least, wide = min(least, c.w), max(wide, math.Hypot(c.x, c.y)/c.w)
	}
	a1, w1 := largest(first)
	a2, w2 := largest(second)
	c1 := (a1 + w1*wide) / least
	c2 := (a2 + 2*w1*c1 + w2*wide) / least
	n := math.Ceil((s.knots[i+1] - s.knots[i]) * math.Sqrt(c2/(8*tolerance)))
	if !(n <= mostCuts) {
		return mostCuts + 1
	}
	return max(int(n), 1)
}

// derive returns the control points of the derivative of a span of a degree.
func (s spline) derive(control []rational, i, degree int) []rational {
	if degree < 1 {
		return nil
	}
	out := make([]rational, degree)
	for j := range out {
		k := i - degree + j + 1
		f := float64(degree) / (s.knots[k+degree] - s.knots[k])
		a, b := control[j], control[j+1]
		out[j] = rational{f * (b.x - a.x), f * (b.y - a.y), f * (b.w - a.w)}
	}
	return out
}

func largest(control []rational) (a, w float64) {
	for _, c := range control {
		a, w = max(a, math.Hypot(c.x, c.y)), max(w, math.Abs(c.w))
	}
	return a, w
}
