package svg

import (
	"math"
	"strings"

	"fettle/geom"
	"fettle/geom/outline"
)

// transform reads a list of transforms; the first is the outermost.
func transform(text string) (outline.Affine, error) {
	m, s := outline.Identity(), scan{text: text}
	for !s.end() {
		open := strings.IndexByte(s.text[s.at:], '(')
		if open < 0 {
			return m, s.fault("a transform without its bracket")
		}
		name := strings.TrimSpace(s.text[s.at : s.at+open])
		s.at += open + 1
		var v []float64
		for s.more() && len(v) < 7 {
			n, err := s.number()
			if err != nil {
				return m, err
			}
			v = append(v, n)
		}
		if s.end() || s.text[s.at] != ')' {
			return m, s.fault("the bracket of %.20q is not closed", name)
		}
		one, ok := single(name, v)
		if !ok {
			return m, s.fault("%.20q with %d numbers is no transform that is read here", name, len(v))
		}
		s.at++
		m = m.After(one)
	}
	return m, nil
}

// single returns one transform; angles are degrees.
func single(name string, v []float64) (outline.Affine, bool) {
	n := len(v)
	switch {
	case name == "matrix" && n == 6:
		return outline.Affine{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}, true
	case name == "translate" && n == 1:
		return outline.Move(geom.Point{X: v[0]}), true
	case name == "translate" && n == 2:
		return outline.Move(geom.Point{X: v[0], Y: v[1]}), true
	case name == "scale" && n == 1:
		return outline.Scale(v[0], v[0]), true
	case name == "scale" && n == 2:
		return outline.Scale(v[0], v[1]), true
	case name == "rotate" && n == 1:
		return outline.Turn(v[0] * math.Pi / 180), true
	case name == "rotate" && n == 3:
		about := geom.Point{X: v[1], Y: v[2]}
		return outline.Move(about).After(outline.Turn(v[0] * math.Pi / 180)).After(outline.Move(about.Scale(-1))), true
	case name == "skewX" && n == 1:
		return outline.Affine{A: 1, C: math.Tan(v[0] * math.Pi / 180), D: 1}, true
	case name == "skewY" && n == 1:
		return outline.Affine{A: 1, B: math.Tan(v[0] * math.Pi / 180), D: 1}, true
	}
	return outline.Affine{}, false
}
