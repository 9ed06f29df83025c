package colour

import "math"

// squares is the weighted least squares of one band: the two unknowns K and S
// against every reading of a film.
type squares struct {
	card *Card
	band int
}

// said is what one reading says at given K and S.
type said struct {
	miss   float64 // measured less worked out, outside
	k, s   float64 // change of the worked out reading a unit of K, of S
	x      float64 // and a µm
	g      float64 // and a unit of the bare ground's reading
	weight float64 // 1/σ²
}

// rows works out every reading.
func (q *squares) rows(k, s float64) []said {
	c, list := q.card, make([]said, len(q.card.Films))
	variance := square(c.noise())
	hk, hs := step(k, s), step(s, k)
	for i, f := range c.Films {
		bare := c.Grounds[f.Ground][q.band]
		under := c.Surface.In(bare)
		r := Film(k, s, f.Film, under)
		out := c.Surface.slope(r)
		list[i] = said{
			miss: f.R[q.band] - c.Surface.Out(r),
			k:    out * (Film(k+hk, s, f.Film, under) - r) / hk,
			s:    out * (Film(k, s+hs, f.Film, under) - r) / hs,
			x:    out * (s - 2*(k+s)*r + s*r*r), // the equation itself
			g:    out * throughTwice(k, s, f.Film, under) / c.Surface.slope(under),
		}
		list[i].weight = 1 / (variance * (1 + square(list[i].g)))
	}
	return list
}

// step is the step of a derivative by differences: small beside the number, or
// beside its fellow where it is nothing.
func step(v, fellow float64) float64 { return 1e-7*v + 1e-9*fellow + 1e-13 }

// throughTwice is the change of a film's reflectance a unit of the ground's.
func throughTwice(k, s, x, ground float64) float64 {
	t := Through(k, s, x) / (1 - Film(k, s, x, 0)*ground)
	return t * t
}

// normal is the weighted sums of the normal equations, and the cost.
type normal struct{ kk, ks, ss, k, s, cost float64 }

func sums(rows []said) normal {
	var n normal
	for _, r := range rows {
		n.kk += r.weight * r.k * r.k
		n.ks += r.weight * r.k * r.s
		n.ss += r.weight * r.s * r.s
		n.k += r.weight * r.k * r.miss
		n.s += r.weight * r.s * r.miss
		n.cost += r.weight * r.miss * r.miss
	}
	return n
}

// solve returns K and S, from the exact pair on, by Levenberg and Marquardt
// within K ≥ 0 and S ≥ 0.
func (q *squares) solve(from pair) (k, s float64) {
	f := from.flux()
	f.p = max(f.p, 0)
	f.v = max(f.v, f.p)
	if t2 := f.tanh2(); !(t2 < 0.9999) {
		f.v, f.p = f.v*math.Sqrt(0.9999/t2), f.p*math.Sqrt(0.9999/t2)
	}
	k, s = f.powers(from.film)
	now, damp := sums(q.rows(k, s)), 1e-6
	for range 100 {
		if now.cost < 1e-16 {
			break // σ²: the pair was exact
		}
		dk, ds := now.stride(k, s, damp)
		nextK, nextS := max(0, k+dk), max(0, s+ds)
		next := sums(q.rows(nextK, nextS))
		if !(next.cost < now.cost) {
			if damp *= 8; damp > 1e8 {
				break
			}
			continue
		}
		done := now.cost-next.cost < 1e-9*now.cost
		k, s, now, damp = nextK, nextS, next, max(damp/8, 1e-12)
		if done {
			break
		}
	}
	return k, s
}

// stride solves the damped equations. An unknown at nothing that wants to go
// below stays there.
func (n normal) stride(k, s, damp float64) (dk, ds float64) {
	kk, ss := n.kk*(1+damp), n.ss*(1+damp)
	det := kk*ss - n.ks*n.ks
	dk, ds = (n.k*ss-n.s*n.ks)/det, (n.s*kk-n.k*n.ks)/det
	if k+dk < 0 {
		dk, ds = -k, (n.s+n.ks*k)/ss
	}
	if s+ds < 0 {
		dk, ds = (n.k+n.ks*s)/kk, -s
	}
	return dk, ds
}
