package colour

import "math"

// errors sets down how the fit of a band moves with what was read, by the
// delta method: with H = (JᵀWJ)⁻¹JᵀW every reading moves K and S by its column
// of H. The noise of a film's reading comes in once; that of a bare ground with
// all films over it; a deviation of the gauge with all readings of that film,
// and with all bands alike.
func (q *squares) errors(k, s float64, f *Fitted) {
	c, rows := q.card, q.rows(k, s)
	n := sums(rows)
	det := n.kk*n.ss - n.ks*n.ks
	grounds := make([]powers2, len(c.Grounds))
	films := make([]powers2, len(c.Films)) // by the first reading of the film
	variance := square(c.noise())
	for i, r := range rows {
		h := powers2{
			k: r.weight * (n.ss*r.k - n.ks*r.s) / det,
			s: r.weight * (n.kk*r.s - n.ks*r.k) / det,
		}
		f.noise[q.band].add(h, variance)
		g := &grounds[c.Films[i].Ground]
		g.k, g.s = g.k-h.k*r.g, g.s-h.s*r.g
		x := &films[c.first(c.Films[i].Film)]
		x.k, x.s = x.k-h.k*r.x*c.Gauge, x.s-h.s*r.x*c.Gauge
	}
	for _, g := range grounds {
		f.noise[q.band].add(g, variance)
	}
	next := 0
	for i, x := range films {
		if c.first(c.Films[i].Film) == i && c.Gauge > 0 {
			f.together[next][q.band] = x
			next++
		}
	}
	f.together[next][q.band] = f.noise[q.band].held(k, s)
}

// held is what holding K and S at nothing or more makes of noise: it lifts those
// that are next to nothing, in all such bands alike, and the fellow gives way.
func (s spread) held(k, sc float64) powers2 {
	liftK, liftS := lift(k, math.Sqrt(s.kk)), lift(sc, math.Sqrt(s.ss))
	var h powers2
	if liftK > 0 {
		h.k, h.s = h.k+liftK, h.s+liftK*s.ks/s.kk
	}
	if liftS > 0 {
		h.k, h.s = h.k+liftS*s.ks/s.ss, h.s+liftS
	}
	return h
}

// lift is the mean of a normal variable that is held above nothing, less its
// own mean.
func lift(mean, deviation float64) float64 {
	z := mean / deviation
	return deviation*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi) - mean*math.Erfc(z/math.Sqrt2)/2
}
