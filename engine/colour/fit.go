package colour

import "math"

// Fitted is a paint as a card gave it, with what is not known of it.
type Fitted struct {
	Paint  Paint
	KError Spectrum // half of the band that holds the true K in 95 of 100, 1/µm
	SError Spectrum // likewise for S

	// Ratio names the bands in which every film hid, or so nearly that the
	// readings do not tell: there K/S is known, while K and S each may be larger
	// than their errors say. A film thinner than Thinnest may hide better than is
	// told.
	Ratio    []int
	Thinnest float64 // µm, of the films measured

	noise    [Bands]spread    // of K and S, from the noise of the readings, each band its own
	together [][Bands]powers2 // changes of K and S that come in all bands at once: one deviation of the gauge of a film; what is held at nothing
}

// powers2 is a change of K and S, 1/µm.
type powers2 struct{ k, s float64 }

// spread is the variances of K and S and their covariance, 1/µm².
type spread struct{ kk, ks, ss float64 }

func (s *spread) add(h powers2, variance float64) {
	s.kk += variance * h.k * h.k
	s.ks += variance * h.k * h.s
	s.ss += variance * h.s * h.s
}

// widen multiplies the variances: the thickness at which a film hides goes by
// the logarithm of the gap that is left, and that of a noisy gap varies by more
// than the slope says: var ln(1+ε) = σ² + 5σ⁴/2 + …, and more yet among gaps that
// were wide enough to be taken. 6 for 5/2 holds the truth often enough in
// simulation.
func (s *spread) widen(by float64) { s.kk, s.ks, s.ss = s.kk*by, s.ks*by, s.ss*by }

// Fit returns K and S of a card, band by band. One film over two grounds is
// solved exactly, as [Pair] does; more readings are fitted by least squares, each
// weighted by 1/σ², where σ holds the noise of the reading and that of the bare
// ground under it as seen through the film. K and S below nothing by no more
// than the noise explains are held at nothing. Refused, with the band: gaps,
// readings below 0 or above 1.2, black lighter than white, grounds too alike,
// more light than the film can give (a < 1), readings of no one paint (C ≤ b),
// and flakes.
func Fit(c Card) (Fitted, error) {
	if err := c.check(); err != nil {
		return Fitted{}, err
	}
	f := Fitted{Paint: Paint{Name: c.Name}, Thinnest: math.Inf(1)}
	for i, one := range c.Films {
		f.Thinnest = min(f.Thinnest, one.Film)
		if c.first(one.Film) == i && c.Gauge > 0 {
			f.together = append(f.together, [Bands]powers2{})
		}
	}
	f.together = append(f.together, [Bands]powers2{}) // what is held at nothing
	for b := range Bands {
		best := c.clearest(b)
		var err error
		if best.gap() < max(shows, hides*c.noise()/c.least(best)) {
			f.Ratio = append(f.Ratio, b)
		}
		if best.gap() < shows {
			f.hidden(&c, b)
		} else {
			err = f.band(&c, b, best)
		}
		if err != nil {
			return Fitted{}, at(err, c.named()+", "+band(b))
		}
		f.total(b)
	}
	return f, nil
}

// hides is how many deviations apart a film reads over two grounds before its
// K and S are told apart: nearer, chance makes too much of them.
const hides = 7

// clearest returns the pair whose film hides least.
func (c *Card) clearest(b int) pair {
	var best pair
	for i, p := range c.pairs(b) {
		if i == 0 || p.gap() > best.gap() {
			best = p
		}
	}
	return best
}

// band fits one band, and sets down its errors.
func (f *Fitted) band(c *Card, b int, best pair) error {
	if err := c.possible(best); err != nil {
		return err
	}
	k, s := (&squares{card: c, band: b}).solve(best)
	f.Paint.K[b], f.Paint.S[b] = k, s
	f.errors(c, b)
	f.noise[b].widen(1 + 6*square(math.Sqrt2*c.noise()/c.least(best)/best.gap()))
	if v := f.noise[b]; !(k+s <= mostPower && v.kk+v.ss <= square(mostPower)) {
		return noSuchFilm()
	}
	return nil
}

// possible refuses four readings that no paint gives, by more than their noise
// explains: by five deviations of v−p and of p, as the noise of each of the
// four moves them.
func (c *Card) possible(p pair) error {
	at, noise := p.flux(), c.noise()
	var less, scatter float64
	for _, r := range [...]*float64{&p.overDark, &p.dark, &p.overLight, &p.light} {
		was := *r
		*r += noise / c.Surface.slope(was)
		moved := p.flux()
		*r = was
		less += square(moved.v - moved.p - at.v + at.p)
		scatter += square(moved.p - at.p)
	}
	switch {
	case at.v-at.p < -5*math.Sqrt(less):
		return gainsLight()
	case at.p < -5*math.Sqrt(scatter):
		return noSuchFilm()
	}
	return nil
}

func square(x float64) float64 { return x * x }

// hidden sets down a band in which every film hid: K/S from all films, and the
// least S whose thinnest film hides.
func (f *Fitted) hidden(c *Card, b int) {
	r, n := 0.0, 0.0
	for _, one := range c.Films {
		r += c.Surface.In(one.R[b])
		n++
	}
	r = min(max(r/n, 1e-4), 1-1e-6)
	q := Ratio(r)
	s := leastHiding(q, f.Thinnest, c.clearest(b))
	f.Paint.K[b], f.Paint.S[b] = q*s, s
	dq := (1 - 1/(r*r)) / 2                                                            // change of K/S with r
	f.noise[b].add(powers2{k: s * dq}, square(c.noise()/c.Surface.slope(r))*(1/n+0.5)) // half: what shows unseen
	f.noise[b].add(powers2{k: q * s, s: s}, 1)                                         // as much again, or nothing
}

// leastHiding returns the S at which a film of K = qS shows the two grounds no
// further apart than can be told.
func leastHiding(q, x float64, p pair) float64 {
	low, high := 0.0, 1/x
	gap := func(s float64) float64 { return Film(q*s, s, x, p.light) - Film(q*s, s, x, p.dark) }
	for gap(high) > shows && high < mostPower {
		high *= 2
	}
	for range 50 {
		if mid := (low + high) / 2; gap(mid) > shows {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}

// total sums the errors of a band, in square, to the stated band.
func (f *Fitted) total(b int) {
	all := f.noise[b]
	for i := range f.together {
		all.add(f.together[i][b], 1)
	}
	f.KError[b], f.SError[b] = in95*math.Sqrt(all.kk), in95*math.Sqrt(all.ss)
}

// in95 deviations either way hold 95 of 100 draws of a normal distribution.
const in95 = 1.959964
