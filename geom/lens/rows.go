package lens

import (
	"math"

	"fettle/geom"
)

// row is one thing that was measured: how far it is off, in pixels, and the
// derivative of that by every parameter.
type row struct {
	off  float64
	by   []float64
	tape float64 // standard deviation in pixels that the tape brings
	of   string  // what it is, to say where
}

// patch is a reference with its marks in half diagonals.
type patch struct {
	q, is []geom.Point
	own   int // of its first own parameter: place x, y and angle; 0 has none
	name  string
}

// plumb is a straight line; own is its angle and how far it is from the middle.
type plumb struct {
	q    []geom.Point
	own  int
	name string
}

// posed is a point of a patch on the table, and its derivative by the angle.
func (p patch) posed(i int, theta []float64) (geom.Point, geom.Point) {
	if p.own == 0 {
		return p.is[i], geom.Point{}
	}
	sin, cos := math.Sincos(theta[p.own+2])
	turned := geom.Point{X: cos*p.is[i].X - sin*p.is[i].Y, Y: sin*p.is[i].X + cos*p.is[i].Y}
	return turned.Add(geom.Point{X: theta[p.own], Y: theta[p.own+1]}), geom.Point{X: -turned.Y, Y: turned.X}
}

// rows lists what is off under the parameters, or says that something cannot
// be seen at all.
func (f *fit) rows(theta []float64) ([]row, bool) {
	m := model(theta[:size])
	list := make([]row, 0, f.count)
	for _, p := range f.patches {
		for i, q := range p.q {
			x, turn := p.posed(i, theta)
			there, im, ok := m.seek(x, q)
			if !ok {
				return nil, false
			}
			list = append(list, f.pair(p, i, there.Sub(q), im, turn)...)
		}
	}
	for _, l := range f.lines {
		for i, q := range l.q {
			list = append(list, f.along(l, i, q, &m, theta))
		}
	}
	return list, true
}

// pair is what a mark is off in x and y: the table's point is seen at a place
// that moves by -J⁻¹ as the map moves it, and by J⁻¹ as the point itself moves.
func (f *fit) pair(p patch, i int, off geom.Point, im image, turn geom.Point) []row {
	back := im.byQ.inverse()
	out := make([]row, 2)
	for k, v := range [2]float64{off.X, off.Y} {
		by := make([]float64, len(f.theta))
		for n := range size {
			by[n] = -f.half * (back[k][0]*im.by[0][n] + back[k][1]*im.by[1][n])
		}
		if p.own > 0 {
			by[p.own], by[p.own+1] = f.half*back[k][0], f.half*back[k][1]
			by[p.own+2] = f.half * (back[k][0]*turn.X + back[k][1]*turn.Y)
		}
		out[k] = row{off: f.half * v, by: by, tape: f.half * f.scene.Tape * math.Hypot(back[k][0], back[k][1]), of: p.name + ", " + markName(i)}
	}
	return out
}

// along is how far a point of a straight line is from it, in pixels of the
// picture as taken: the distance in the straightened picture over its slope
// (Sampson's distance).
func (f *fit) along(l plumb, i int, q geom.Point, m *model, theta []float64) row {
	u, byQ := m.straighten(q)
	sin, cos := math.Sincos(theta[l.own])
	slope := math.Hypot(cos*byQ[0][0]+sin*byQ[1][0], cos*byQ[0][1]+sin*byQ[1][1])
	k := f.half / max(slope, 1e-3)
	r2 := q.X*q.X + q.Y*q.Y
	by := make([]float64, len(f.theta))
	by[pK1], by[pK2] = k*r2*(cos*q.X+sin*q.Y), k*r2*r2*(cos*q.X+sin*q.Y)
	by[l.own], by[l.own+1] = k*(cos*u.Y-sin*u.X), -k
	return row{off: k * (cos*u.X + sin*u.Y - theta[l.own+1]), by: by, of: l.name + ", point " + markName(i)[len("mark "):]}
}
