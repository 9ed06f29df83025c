package lens

import (
	"math"

	"fettle/geom"
)

// direct finds a homography of four or more marks by the direct linear
// transformation, with both sets brought to the origin and to a mean distance
// of √2 first [HartleyZisserman2004, algorithm 4.2]. The bend is left at none.
func direct(q, x []geom.Point) (model, bool) {
	nq, nx := normalOf(q), normalOf(x)
	m := newMatrix(8)
	b := make([]float64, 8)
	add := func(row [8]float64, v float64) {
		for i := range row {
			b[i] += row[i] * v
			for j := range row {
				m[i][j] += row[i] * row[j]
			}
		}
	}
	for i := range q {
		u, v := nq.to(q[i]), nx.to(x[i])
		add([8]float64{u.X, u.Y, 1, 0, 0, 0, -v.X * u.X, -v.X * u.Y}, v.X)
		add([8]float64{0, 0, 0, u.X, u.Y, 1, -v.Y * u.X, -v.Y * u.Y}, v.Y)
	}
	f, ok := cholesky(m)
	if !ok {
		return model{}, false
	}
	h := f.solve(b)
	return undo([3][3]float64{{h[0], h[1], h[2]}, {h[3], h[4], h[5]}, {h[6], h[7], 1}}, nq, nx)
}

// normal moves points to their middle and scales them.
type normal struct {
	mid   geom.Point
	scale float64
}

func (n normal) to(p geom.Point) geom.Point { return p.Sub(n.mid).Scale(n.scale) }

func normalOf(p []geom.Point) normal {
	var n normal
	for _, v := range p {
		n.mid = n.mid.Add(v.Scale(1 / float64(len(p))))
	}
	far := 0.0
	for _, v := range p {
		far += v.Distance(n.mid) / float64(len(p))
	}
	n.scale = math.Sqrt2 / max(far, 1e-12)
	return n
}

// undo takes the scaling out of a homography.
func undo(h [3][3]float64, nq, nx normal) (model, bool) {
	var g [3][3]float64
	for i := range 3 { // from the right: q is scaled and moved
		g[i] = [3]float64{h[i][0] * nq.scale, h[i][1] * nq.scale, h[i][2] - nq.scale*(h[i][0]*nq.mid.X+h[i][1]*nq.mid.Y)}
	}
	for j := range 3 { // from the left: the table is moved and scaled back
		g[0][j] = g[0][j]/nx.scale + nx.mid.X*g[2][j]
		g[1][j] = g[1][j]/nx.scale + nx.mid.Y*g[2][j]
	}
	w := g[2][2]
	if math.Abs(w) < 1e-6*(math.Abs(g[2][0])+math.Abs(g[2][1])) {
		return model{}, false // the horizon runs through the middle of the picture
	}
	return model{pA: (g[0][0] + g[1][1]) / w / 2, pC: (g[0][0] - g[1][1]) / w / 2, pB: (g[1][0] - g[0][1]) / w / 2, pD: (g[1][0] + g[0][1]) / w / 2,
		pX: g[0][2] / w, pY: g[1][2] / w, pG: g[2][0] / w, pH: g[2][1] / w}, true
}

// similar finds the shift, turn and scale that take points to others best.
func similar(q, x []geom.Point) model {
	nq, nx := normalOf(q), normalOf(x)
	var dot, cross, long float64
	for i := range q {
		u, v := q[i].Sub(nq.mid), x[i].Sub(nx.mid)
		dot, cross, long = dot+u.X*v.X+u.Y*v.Y, cross+u.Cross(v), long+u.X*u.X+u.Y*u.Y
	}
	m := model{pA: dot / long, pB: cross / long}
	m[pX] = nx.mid.X - m[pA]*nq.mid.X + m[pB]*nq.mid.Y
	m[pY] = nx.mid.Y - m[pB]*nq.mid.X - m[pA]*nq.mid.Y
	return m
}
