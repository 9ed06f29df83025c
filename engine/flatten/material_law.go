package flatten

import "math"

// law is the energy of a sheet by its log strain h from flat to formed, per
// area: its value, its derivative by the components xx, yy, xy, and a positive
// semidefinite stand-in for the second derivative.
type law interface {
	energy(h strain) (w float64, d [3]float64, dd [3][3]float64)
}

// elastic is the law of leather, vinyl and cloth. Pull meets the full
// stiffness, push the share slack of it, by the signs of the principal strains;
// beyond the limits comes the force wall, asked of all directions at once (see
// Material.outside).
type elastic struct {
	stiff       [3][3]float64 // of the components xx, yy, xy
	slack, wall float64
	most, least [2]float64
}

// The wall beyond the limits pushes with wallForce times the stiffness of the
// stiffer direction, several times what any bearable strain pulls with, so that
// nothing stays beyond that can be helped. The force comes up over wallWidth of
// strain.
const (
	wallForce = 5
	wallWidth = 5e-4
)

// lawOf returns the law of an elastic material.
func lawOf(m Material) elastic {
	e1, e2 := m.Stiffness[0], m.Stiffness[1]
	both := m.Poisson * math.Sqrt(e1*e2)
	e := elastic{slack: m.Slack, wall: wallForce * max(e1, e2)}
	e.stiff = [3][3]float64{{e1, both, 0}, {both, e2, 0}, {0, 0, 4 * m.Shear * e1}}
	e.most, e.least = m.limits()
	return e
}

func (e elastic) energy(h strain) (w float64, d [3]float64, dd [3][3]float64) {
	pulled, moves := h.positive()
	e.quadratic(1-e.slack, pulled, moves, &w, &d, &dd)
	if e.slack > 0 {
		e.quadratic(e.slack, h, [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, &w, &d, &dd)
	}
	e.beyond(strain{h.xx - e.most[0], h.yy - e.most[1], h.xy}, 1, &w, &d, &dd)
	e.beyond(strain{e.least[0] - h.xx, e.least[1] - h.yy, -h.xy}, -1, &w, &d, &dd)
	return w, d, dd
}

// quadratic adds share × ½ sᵀ E s, where s moves with the strain by moves.
func (e elastic) quadratic(share float64, s strain, moves [3][3]float64, w *float64, d *[3]float64, dd *[3][3]float64) {
	v := [3]float64{s.xx, s.yy, s.xy}
	var stress [3]float64
	var em [3][3]float64
	for i := range 3 {
		for j := range 3 {
			stress[i] += float64(share * float64(e.stiff[i][j]*v[j]))
			for k := range 3 {
				em[i][j] += float64(share * float64(e.stiff[i][k]*moves[k][j]))
			}
		}
		*w += float64(stress[i]*v[i]) / 2
	}
	for i := range 3 {
		for k := range 3 {
			d[i] += float64(moves[k][i] * stress[k])
			for j := range 3 {
				dd[i][j] += float64(moves[k][i] * em[k][j])
			}
		}
	}
}

// beyond adds the wall of both principal values of s, which lies beyond a limit
// where it is positive and moves with the strain by sign.
func (e elastic) beyond(s strain, sign float64, w *float64, d *[3]float64, dd *[3][3]float64) {
	low, high := s.extremes()
	if high <= 0 {
		return
	}
	wh, dh, ddh := e.wallAt(high)
	wl, dl, ddl := e.wallAt(low)
	*w += wh + wl
	a := s.axes()
	to := a.turning()
	shear := ddh // of a shear between the axes: the divided difference of the slopes
	if high-low > 1e-9 {
		shear = (dh - dl) / (high - low)
	}
	for i := range 3 {
		d[i] += float64(sign * (float64(to[0][i]*dh) + float64(to[1][i]*dl)))
		for k := range 3 {
			dd[i][k] += float64(ddh*float64(to[0][i]*to[0][k])) + float64(ddl*float64(to[1][i]*to[1][k])) +
				2*float64(shear*float64(to[2][i]*to[2][k]))
		}
	}
}

// wallAt returns the wall's energy, slope and bend at a strain beyond a limit:
// a parabola up to its slack, then a line, so that what cannot be helped
// gathers where it helps most instead of spreading. The bend on the line is
// that of the parabola through its slope, which no step overshoots.
func (e elastic) wallAt(x float64) (w, d, dd float64) {
	switch {
	case x <= 0:
		return 0, 0, 0
	case x <= wallWidth:
		k := e.wall / wallWidth
		return float64(k*float64(x*x)) / 2, float64(k * x), k
	}
	return float64(e.wall * (x - wallWidth/2)), e.wall, e.wall / x
}

// borne is a law as an energy of flat patterns whose x runs along the material.
type borne struct{ law law }

func (b borne) value(_ int, j jacobian) float64 {
	if !(j.det() > 0) {
		return math.Inf(1)
	}
	w, _, _ := b.law.energy(j.stretching().log())
	return w
}

func (b borne) derive(_ int, j jacobian, g *slope, h *bend) {
	s := j.stretching()
	_, d, dd := b.law.energy(s.log())
	m := s.moves(j)
	for k := range 4 {
		g[k] = float64(m[0][k]*d[0]) + float64(m[1][k]*d[1]) + float64(m[2][k]*d[2])
		var col [3]float64
		for i := range 3 {
			col[i] = float64(dd[i][0]*m[0][k]) + float64(dd[i][1]*m[1][k]) + float64(dd[i][2]*m[2][k])
		}
		for n := range k + 1 {
			h[n][k] = float64(m[0][n]*col[0]) + float64(m[1][n]*col[1]) + float64(m[2][n]*col[2])
			h[k][n] = h[n][k]
		}
	}
}
