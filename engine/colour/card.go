package colour

import (
	"math"

	"fettle/fault"
)

// Card is a spray-out as measured: one paint over two or more bare grounds, in
// one or more films.
type Card struct {
	Name    string
	Finish  Finish
	Surface Surface    // of bare ground and film alike; taken off both before anything else
	Grounds []Spectrum // bare, as measured
	Films   []Reading
	Noise   float64 // standard deviation of a reading of one band, reflectance; 0: 0.005
	Gauge   float64 // standard deviation of a film reading, µm; 0: the films are exact
}

// Reading is one film over one ground. Readings of the same film belong to one
// pass of the gun: an error of its gauge is theirs together.
type Reading struct {
	Ground int     // index in Card.Grounds
	Film   float64 // µm dry
	R      Spectrum
}

// halfPercent is the noise of a hand-held instrument set down anew, where
// nothing is said.
const halfPercent = 0.005

// brightest is the largest reading that is taken for paint. A white chart reads
// a little above 1 on some instruments.
const brightest = 1.2

func (c *Card) noise() float64 {
	if c.Noise == 0 {
		return halfPercent
	}
	return c.Noise
}

// check refuses what cannot be a spray-out, with the place.
func (c *Card) check() error {
	err := c.Finish.Check("its finish")
	if err == nil {
		err = c.Surface.check()
	}
	if err == nil {
		err = c.checkShape()
	}
	if err == nil {
		err = c.checkReadings()
	}
	if err == nil {
		err = c.checkPairs()
	}
	return at(err, c.named())
}

func (c *Card) checkShape() error {
	switch {
	case !(c.Noise >= 0 && c.Noise <= 0.2) || !(c.Gauge >= 0) || math.IsInf(c.Gauge, 1):
		return fault.New(fault.Invalid, "noise %g and gauge %g: 0 to 0.2, and 0 or more, are wanted", c.Noise, c.Gauge)
	case len(c.Grounds) < 2 || len(c.Films) < 2:
		return fault.New(fault.Invalid, "%d grounds and %d readings of film: two of each are the least", len(c.Grounds), len(c.Films)).
			WithHint("spray the same film over black and over white, and measure both, bare and painted")
	}
	return nil
}

func (c *Card) checkReadings() error {
	for i := range c.Grounds {
		if err := checkReading(&c.Grounds[i]); err != nil {
			return at(err, place("ground", i))
		}
	}
	for i := range c.Films {
		f := &c.Films[i]
		err := checkFilm(f.Film)
		if f.Ground < 0 || f.Ground >= len(c.Grounds) {
			err = fault.New(fault.Invalid, "there is no ground %d", f.Ground+1)
		}
		if err == nil {
			err = checkReading(&f.R)
		}
		if err != nil {
			return at(err, place("reading", i))
		}
	}
	return nil
}

// checkReading refuses gaps, and values that no paint gives.
func checkReading(r *Spectrum) error {
	for i, v := range r {
		switch {
		case math.IsNaN(v):
			return fault.New(fault.Invalid, "no value").At(band(i)).WithHint("a spectrum without gaps is wanted; measure again, or interpolate in the instrument")
		case v < 0 || v > brightest:
			return fault.New(fault.Invalid, "a reading of %g: 0 to %g is wanted", v, brightest).At(band(i)).
				WithHint("readings are parts of white, not percent; above 1 a paint glows, and the equations do not hold")
		}
	}
	return nil
}

// checkPairs refuses a card on which no film lies over two grounds, or on which
// a film over the darker ground reads the lighter.
func (c *Card) checkPairs() error {
	pairs := 0
	for i := range Bands {
		for _, p := range c.pairs(i) {
			pairs++
			// Five deviations: with 36 bands and some films chance does not do it.
			if -p.gap() > max(shows, 5*math.Sqrt2*c.noise()/c.least(p)) {
				return blackLighter(p.overDark, p.overLight).At(band(i))
			}
			if p.light-p.dark < max(5*shows, 10*c.noise()) {
				return fault.New(fault.Invalid, "the grounds read %.3f and %.3f inside the surface: too alike to tell anything", p.dark, p.light).
					At(band(i))
			}
		}
	}
	if pairs < Bands {
		return fault.New(fault.Invalid, "no film lies over two grounds").WithHint("two readings of one film are wanted, over black and over white")
	}
	return nil
}

// least returns the smaller slope of the surface at a pair's two films.
func (c *Card) least(p pair) float64 {
	return min(c.Surface.slope(p.overDark), c.Surface.slope(p.overLight))
}

// pair is one film over a dark and a light ground at one band, inside.
type pair struct{ film, overDark, dark, overLight, light float64 }

func (p pair) gap() float64 { return p.overLight - p.overDark }
func (p pair) flux() flux   { return linearPair(p.overDark, p.dark, p.overLight, p.light) }

// pairs returns, for every film that lies over two grounds or more, that over
// the darkest and that over the lightest.
func (c *Card) pairs(b int) []pair {
	var list []pair
	for i, f := range c.Films {
		if c.first(f.Film) != i {
			continue
		}
		dark, light := -1, -1
		for j, g := range c.Films {
			if g.Film != f.Film {
				continue
			}
			if dark < 0 || c.ground(g, b) < c.ground(c.Films[dark], b) {
				dark = j
			}
			if light < 0 || c.ground(g, b) >= c.ground(c.Films[light], b) {
				light = j
			}
		}
		if c.Films[dark].Ground != c.Films[light].Ground {
			d, l := c.Films[dark], c.Films[light]
			list = append(list, pair{f.Film, c.Surface.In(d.R[b]), c.ground(d, b), c.Surface.In(l.R[b]), c.ground(l, b)})
		}
	}
	return list
}

// ground returns what lies under a reading, inside.
func (c *Card) ground(f Reading, b int) float64 { return c.Surface.In(c.Grounds[f.Ground][b]) }

// first returns the first reading of a film.
func (c *Card) first(film float64) int {
	for i, f := range c.Films {
		if f.Film == film {
			return i
		}
	}
	return -1
}

func (c *Card) named() string {
	if c.Name == "" {
		return "the card"
	}
	return c.Name
}
