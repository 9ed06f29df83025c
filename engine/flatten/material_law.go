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
// beyond the limits comes wall times the square of what is beyond, asked of all
// directions at once (see Material.outside).
type elastic struct {
	stiff       [3][3]float64 // of the components xx, yy, xy
	slack, wall float64
	most, least [2]float64
}

// wallOver is how much stiffer a material is beyond its limits than along its
// axis: enough that little is left beyond where it can be helped, not so much
// that steps stall at the limits.
const wallOver = 100

// lawOf returns the law of an elastic material.
func lawOf(m Material) elastic {
	e1, e2 := m.Stiffness[0], m.Stiffness[1]
	both := m.Poisson * math.Sqrt(e1*e2)
	e := elastic{slack: m.Slack, wall: wallOver * max(e1, e2)}
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

// beyond adds the wall's ½ wall |s₊|², where s is what lies beyond a limit and
// moves with the strain by sign.
func (e elastic) beyond(s strain, sign float64, w *float64, d *[3]float64, dd *[3][3]float64) {
	if _, high := s.extremes(); high <= 0 {
		return
	}
	over, moves := s.positive()
	v := [3]float64{over.xx, over.yy, 2 * over.xy}
	*w += e.wall / 2 * (float64(over.xx*over.xx) + float64(over.yy*over.yy) + 2*float64(over.xy*over.xy))
	for i := range 3 {
		twice := 1.0
		if i == 2 {
			twice = 2
		}
		d[i] += float64(sign * e.wall * v[i])
		for j := range 3 {
			dd[i][j] += float64(e.wall * float64(twice*moves[i][j]))
		}
	}
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
