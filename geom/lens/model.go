package lens

import (
	"math"

	"fettle/geom"
)

// Parameters of a model, by their place in it: a conformal part a, b of the
// affine map, what departs from it c, d, the shift, the tilt g, h, the bend.
const (
	pA = iota
	pB
	pC
	pD
	pX
	pY
	pG
	pH
	pK1
	pK2
	size
)

// model takes a place of the picture, in half diagonals from its middle with
// y up, to mm on the table.
type model [size]float64

type mat2 [2][2]float64

func (m mat2) det() float64 { return m[0][0]*m[1][1] - m[0][1]*m[1][0] }

func (m mat2) of(p geom.Point) geom.Point {
	return geom.Point{X: m[0][0]*p.X + m[0][1]*p.Y, Y: m[1][0]*p.X + m[1][1]*p.Y}
}

func (m mat2) mul(n mat2) mat2 {
	return mat2{
		{m[0][0]*n[0][0] + m[0][1]*n[1][0], m[0][0]*n[0][1] + m[0][1]*n[1][1]},
		{m[1][0]*n[0][0] + m[1][1]*n[1][0], m[1][0]*n[0][1] + m[1][1]*n[1][1]},
	}
}

func (m mat2) inverse() mat2 {
	d := m.det()
	return mat2{{m[1][1] / d, -m[0][1] / d}, {-m[1][0] / d, m[0][0] / d}}
}

// straighten takes the bend of the lens out, and gives the derivative by q.
func (m *model) straighten(q geom.Point) (geom.Point, mat2) {
	r2 := q.X*q.X + q.Y*q.Y
	s := 1 + m[pK1]*r2 + m[pK2]*r2*r2
	d := 2 * (m[pK1] + 2*m[pK2]*r2)
	return q.Scale(s), mat2{{s + d*q.X*q.X, d * q.X * q.Y}, {d * q.X * q.Y, s + d*q.Y*q.Y}}
}

// image is a place on the table with its derivatives.
type image struct {
	at   geom.Point
	byQ  mat2             // mm a half diagonal
	by   [2][size]float64 // by the parameters
	seen bool             // it lies before the horizon, and the lens does not fold there
}

// nearHorizon is how small the depth of a place may be beside that of the
// middle of the picture.
const nearHorizon = 0.05

// image maps a place of the picture.
func (m *model) image(q geom.Point) image {
	u, byQ := m.straighten(q)
	w := 1 + m[pG]*u.X + m[pH]*u.Y
	if w < nearHorizon || byQ.det() <= 0 || byQ[0][0]+byQ[1][1] <= 0 {
		return image{}
	}
	x := ((m[pA]+m[pC])*u.X + (m[pD]-m[pB])*u.Y + m[pX]) / w
	y := ((m[pB]+m[pD])*u.X + (m[pA]-m[pC])*u.Y + m[pY]) / w
	byU := mat2{
		{(m[pA] + m[pC] - x*m[pG]) / w, (m[pD] - m[pB] - x*m[pH]) / w},
		{(m[pB] + m[pD] - y*m[pG]) / w, (m[pA] - m[pC] - y*m[pH]) / w},
	}
	r2 := q.X*q.X + q.Y*q.Y
	k1, k2 := byU.of(q.Scale(r2)), byU.of(q.Scale(r2*r2))
	return image{at: geom.Point{X: x, Y: y}, byQ: byU.mul(byQ), seen: true, by: [2][size]float64{
		{u.X / w, -u.Y / w, u.X / w, u.Y / w, 1 / w, 0, -x * u.X / w, -x * u.Y / w, k1.X, k2.X},
		{u.Y / w, u.X / w, -u.Y / w, u.X / w, 0, 1 / w, -y * u.X / w, -y * u.Y / w, k1.Y, k2.Y},
	}}
}

// seek finds the place of the picture that shows a point of the table, by
// Newton's steps from a place near it.
func (m *model) seek(x, q geom.Point) (geom.Point, image, bool) {
	im := m.image(q)
	for range 20 {
		if !im.seen || im.byQ.det() == 0 {
			return q, im, false
		}
		step := im.byQ.inverse().of(x.Sub(im.at))
		q = q.Add(step)
		im = m.image(q)
		if math.Hypot(step.X, step.Y) < 1e-10 {
			return q, im, im.seen
		}
	}
	return q, im, false
}
