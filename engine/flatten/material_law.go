package flatten

import "math"

// law is the energy of a sheet by its log strain h from flat to formed, per
// area: its value, its derivative by the components xx, yy, xy, and a positive
// semidefinite stand-in for the second derivative.
type law interface {
	energy(h strain) (w float64, d [3]float64, dd [3][3]float64)
	// value is the energy alone, of principal log strains high and low whose
	// axes are a.
	value(high, low float64, a axes) float64
}

// elastic is the law of leather and vinyl, and of cloth whose threads do not
// lock: slack times the energy of the whole strain and 1 − slack times that of
// its pulled part, which has the positive principal strains alone. Beyond the
// limits comes the wall, asked of all directions at once (see Material.excess).
type elastic struct {
	stiff       [3][3]float64 // of the components xx, yy, xy
	slack, wall float64
	most, least [2]float64
}

// The wall beyond the limits pushes with wallForce times the stiffness of the
// stiffer direction, several times what any bearable strain pulls with, so that
// nothing stays beyond that can be helped.
const (
	wallForce = 5
	wallWidth = 3e-3 // of strain before the limit, where the force begins
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
	w = float64(e.slack*e.half(h)) + float64((1-e.slack)*e.half(pulled))
	own, pull := e.stress(h), e.stress(pulled)
	for i := range 3 {
		d[i] = float64(e.slack * own[i])
		for k := range 3 {
			d[i] += float64((1 - e.slack) * float64(moves[k][i]*pull[k]))
		}
	}
	// With the full stiffness for what is pushed as well no step overshoots
	// from there into a pull.
	dd = e.stiff
	e.beyond(strain{h.xx - e.most[0], h.yy - e.most[1], h.xy}, 1, &w, &d, &dd)
	e.beyond(strain{e.least[0] - h.xx, e.least[1] - h.yy, -h.xy}, -1, &w, &d, &dd)
	return w, d, dd
}

// stress returns E s.
func (e elastic) stress(s strain) [3]float64 {
	k := &e.stiff
	return [3]float64{
		float64(k[0][0]*s.xx) + float64(k[0][1]*s.yy),
		float64(k[0][1]*s.xx) + float64(k[1][1]*s.yy),
		float64(k[2][2] * s.xy),
	}
}

func (e elastic) value(high, low float64, a axes) float64 {
	h := strain{xx: high, yy: low}.in(a.back())
	w := float64(e.slack * e.half(h))
	switch {
	case low >= 0:
		w += float64((1 - e.slack) * e.half(h))
	case high > 0:
		w += float64((1 - e.slack) * e.half(strain{xx: high}.in(a.back())))
	}
	low, high = strain{h.xx - e.most[0], h.yy - e.most[1], h.xy}.extremes()
	w += e.wallOf(high) + e.wallOf(low)
	low, high = strain{e.least[0] - h.xx, e.least[1] - h.yy, -h.xy}.extremes()
	return w + e.wallOf(high) + e.wallOf(low)
}

// half returns ½ sᵀ E s.
func (e elastic) half(s strain) float64 {
	k := &e.stiff
	return (float64(k[0][0]*float64(s.xx*s.xx))+float64(k[1][1]*float64(s.yy*s.yy))+float64(k[2][2]*float64(s.xy*s.xy)))/2 +
		float64(k[0][1]*float64(s.xx*s.yy))
}

// beyond adds the wall of both principal values of s, which is beyond a limit
// where it is positive and moves with the strain by sign.
func (e elastic) beyond(s strain, sign float64, w *float64, d *[3]float64, dd *[3][3]float64) {
	low, high := s.extremes()
	if high <= -wallWidth {
		return
	}
	wh, dh, ddh := wallAt(e.wall, high)
	wl, dl, ddl := wallAt(e.wall, low)
	*w += wh + wl
	a := s.axes()
	to := a.turning()
	shear := ddh // of a shear between the axes: the divided difference of the slopes
	if high-low > 1e-9 {
		shear = max((dh-dl)/(high-low), 0)
	}
	for i := range 3 {
		d[i] += float64(sign * (float64(to[0][i]*dh) + float64(to[1][i]*dl)))
		for k := range 3 {
			dd[i][k] += float64(ddh*float64(to[0][i]*to[0][k])) + float64(ddl*float64(to[1][i]*to[1][k])) +
				2*float64(shear*float64(to[2][i]*to[2][k]))
		}
	}
}

// wallOf returns the wall's energy alone.
func (e elastic) wallOf(x float64) float64 {
	w, _, _ := wallAt(e.wall, x)
	return w
}

// wallAt returns the wall's energy, slope and bend at a strain beyond a limit,
// negative within: a force that comes up with the square of the way from
// wallWidth before the limit to a hair's half behind it, then stays, so that
// what cannot be helped gathers where it helps most instead of spreading. The
// bend where the force stays is a stand-in that no step overshoots.
func wallAt(force, x float64) (w, d, dd float64) {
	const full = wallWidth + hair/2
	switch y := (x + wallWidth) / full; {
	case y <= 0:
		return 0, 0, 0
	case y <= 1:
		return float64(force*full*float64(y*float64(y*y))) / 3, float64(force * float64(y*y)), 2 * force * y / full
	default:
		return float64(force * full * (y - 2.0/3)), force, 2 * force / (full * y)
	}
}

// borne is a law as an energy of flat patterns whose x runs along the material.
type borne struct{ law law }

func (b borne) value(_ int, j jacobian) float64 {
	if !(j.det() > 0) {
		return math.Inf(1)
	}
	s := j.stretching()
	return b.law.value(math.Log(s.c1)/2, math.Log(s.c2)/2, s.axes)
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
