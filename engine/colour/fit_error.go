package colour

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
			f.gauge[next][q.band] = x
			next++
		}
	}
}
