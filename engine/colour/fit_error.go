package colour

import "math"

// moves returns how K and S of a band move a unit of every reading, bare grounds
// first and then films, by the delta method: with H = (JᵀWJ)⁻¹JᵀW a film's
// reading moves them by its column of H, a ground's by those of all films over
// it. Where the films hide they move K/S only.
func (f *Fitted) moves(c *Card, b int) []powers2 {
	if c.clearest(b).gap() < shows {
		return f.ratioMoves(c, b)
	}
	rows, grounds := (&squares{card: c, band: b}).rows(f.Paint.K[b], f.Paint.S[b]), len(c.Grounds)
	list := make([]powers2, grounds+len(rows))
	for i, h := range columns(rows) {
		g := &list[c.Films[i].Ground]
		g.k, g.s = g.k-h.k*rows[i].g, g.s-h.s*rows[i].g
		list[grounds+i] = h
	}
	return list
}

// columns returns H, a reading each.
func columns(rows []said) []powers2 {
	n := sums(rows)
	det := n.kk*n.ss - n.ks*n.ks
	list := make([]powers2, len(rows))
	for i, r := range rows {
		list[i] = powers2{k: r.weight * (n.ss*r.k - n.ks*r.s) / det, s: r.weight * (n.kk*r.s - n.ks*r.k) / det}
	}
	return list
}

// ratioMoves is moves where every film hides with the same reflectance.
func (f *Fitted) ratioMoves(c *Card, b int) []powers2 {
	r := Hidden(f.Paint.K[b], f.Paint.S[b])
	list := make([]powers2, len(c.Grounds)+len(c.Films))
	for i := range c.Films {
		list[len(c.Grounds)+i].k = f.Paint.S[b] * (1 - 1/(r*r)) / 2 / c.Surface.slope(r) / float64(len(c.Films))
	}
	return list
}

// errors sets down what the readings do to a band: the noise of each by itself,
// a deviation of the gauge with all readings of that film and all bands alike.
func (f *Fitted) errors(c *Card, b int) {
	for _, h := range f.moves(c, b) {
		f.noise[b].add(h, square(c.noise()))
	}
	rows := (&squares{card: c, band: b}).rows(f.Paint.K[b], f.Paint.S[b])
	films := make([]powers2, len(rows)) // by the first reading of the film
	for i, h := range columns(rows) {
		x := &films[c.first(c.Films[i].Film)]
		x.k, x.s = x.k-h.k*rows[i].x*c.Gauge, x.s-h.s*rows[i].x*c.Gauge
	}
	next := 0
	for i, x := range films {
		if c.first(c.Films[i].Film) == i && c.Gauge > 0 {
			f.together[next][b] = x
			next++
		}
	}
	f.together[next][b] = f.noise[b].held(f.Paint.K[b], f.Paint.S[b])
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
