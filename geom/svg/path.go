package svg

import (
	"math"

	"fettle/geom"
	"fettle/geom/outline"
)

// track follows path data with the pen. control is the last control point of
// a curve, which the smooth curves mirror; kind says of which curve.
type track struct {
	scan
	pen     *pen
	control geom.Point
	kind    byte // C or Q after such a curve, else 0
}

// draw reads the whole path language of SVG [SVG2], section 9.
func draw(p *pen, text string) error {
	t := track{scan: scan{text: text}, pen: p}
	for first := true; !t.end(); first = false {
		letter := t.text[t.at]
		if upper(letter) != 'M' && first {
			return t.fault("a path begins with M")
		}
		t.at++
		if upper(letter) == 'Z' {
			p.close()
			t.kind = 0
			continue
		}
		for again := true; again; again = t.more() {
			if err := t.step(letter); err != nil {
				return err
			}
			if p.err != nil {
				return p.err
			}
			// More points after a move are lines.
			if upper(letter) == 'M' {
				letter--
			}
		}
	}
	p.lift(false)
	return p.err
}

// upper returns the capital of an ASCII letter.
func upper(c byte) byte {
	if c >= 'a' && c <= 'z' {
		return c - 'a' + 'A'
	}
	return c
}

// points reads n points, relative to the pen if the letter is small.
func (t *track) points(letter byte, n int) ([3]geom.Point, error) {
	var out [3]geom.Point
	v, err := t.list(2 * n)
	if err != nil {
		return out, err
	}
	for i := range out[:n] {
		out[i] = geom.Point{X: v[2*i], Y: v[2*i+1]}
		if letter >= 'a' {
			out[i] = out[i].Add(t.pen.at)
		}
	}
	return out, nil
}

// mirrored returns the last control point on the other side of the pen.
func (t *track) mirrored(kind byte) geom.Point {
	if t.kind != kind {
		return t.pen.at
	}
	return t.pen.at.Scale(2).Sub(t.control)
}

func (t *track) step(letter byte) error {
	switch upper(letter) {
	case 'M', 'L', 'H', 'V':
		t.kind = 0
		return t.straight(letter)
	case 'C', 'S', 'Q', 'T':
		return t.curve(letter)
	case 'A':
		t.kind = 0
		return t.arc(letter)
	}
	t.at--
	return t.fault("%q is no command of a path", letter)
}

func (t *track) straight(letter byte) error {
	to := t.pen.at
	switch upper(letter) {
	case 'H', 'V':
		v, err := t.number()
		if err != nil {
			return err
		}
		axis := &to.X
		if upper(letter) == 'V' {
			axis = &to.Y
		}
		if letter >= 'a' {
			v += *axis
		}
		*axis = v
	default:
		q, err := t.points(letter, 1)
		if err != nil {
			return err
		}
		to = q[0]
	}
	if upper(letter) == 'M' {
		t.pen.move(to)
	} else {
		t.pen.line(to)
	}
	return nil
}

func (t *track) curve(letter byte) error {
	kind, n := upper(letter), 0
	switch kind {
	case 'C':
		n = 3
	case 'S', 'Q':
		n = 2
	case 'T':
		n = 1
	}
	q, err := t.points(letter, n)
	if err != nil {
		return err
	}
	switch kind {
	case 'S':
		q = [3]geom.Point{t.mirrored('C'), q[0], q[1]}
	case 'T':
		q = [3]geom.Point{t.mirrored('Q'), q[0]}
	}
	if kind == 'C' || kind == 'S' {
		t.pen.cubic(q[0], q[1], q[2])
		t.control, t.kind = q[1], 'C'
	} else {
		t.pen.quad(q[0], q[1])
		t.control, t.kind = q[0], 'Q'
	}
	return nil
}

// arc reads an elliptical arc: radii, turn in degrees, two flags, end.
func (t *track) arc(letter byte) error {
	v, err := t.list(3)
	if err != nil {
		return err
	}
	large, err := t.flag()
	if err != nil {
		return err
	}
	sweep, err := t.flag()
	if err != nil {
		return err
	}
	q, err := t.points(letter, 1)
	if err != nil {
		return err
	}
	from, to := t.pen.at, q[0]
	rx, ry := math.Abs(v[0]), math.Abs(v[1])
	if from == to {
		return nil
	}
	if rx == 0 || ry == 0 {
		t.pen.line(to)
		return nil
	}
	t.pen.conic(centred(from, to, rx, ry, v[2]*math.Pi/180, large, sweep), to)
	return nil
}

// centred turns an arc given by its ends into one about its centre, radii
// grown if they do not reach: [SVG2], section B.2.4. In the frame of the unit
// circle the ends are half a chord h from its middle.
func centred(from, to geom.Point, rx, ry, angle float64, large, sweep bool) outline.Conic {
	s, c := math.Sincos(angle)
	half := from.Sub(to).Scale(0.5)
	h := geom.Point{X: (c*half.X + s*half.Y) / rx, Y: (c*half.Y - s*half.X) / ry}
	far := math.Hypot(h.X, h.Y)
	if far > 1 {
		rx, ry, h = rx*far, ry*far, h.Scale(1/far)
		far = 1
	}
	k := math.Sqrt(max(0, 1-far*far)) / far
	if large == sweep {
		k = -k
	}
	middle := geom.Point{X: k * h.Y, Y: -k * h.X} // of the unit circle, from the middle of the chord
	a, b := h.Sub(middle), h.Scale(-1).Sub(middle)
	start := math.Atan2(a.Y, a.X)
	turn := math.Atan2(b.Y, b.X) - start
	if sweep && turn <= 0 {
		turn += 2 * math.Pi
	} else if !sweep && turn >= 0 {
		turn -= 2 * math.Pi
	}
	u, v := geom.Point{X: c * rx, Y: s * rx}, geom.Point{X: -s * ry, Y: c * ry}
	centre := from.Add(to).Scale(0.5).Add(u.Scale(middle.X)).Add(v.Scale(middle.Y))
	return outline.Conic{Centre: centre, U: u, V: v, From: start, Sweep: turn}
}
