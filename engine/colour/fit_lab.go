package colour

import "fettle/fault"

// LabCard is a spray-out of which three numbers a reading are known: an
// instrument that shows Lab, or a photograph beside grey and colour patches
// ([Photo.Estimate]). Screen colours come by [SRGB.Lab], under D65 and 2°.
type LabCard struct {
	Name    string
	Finish  Finish
	Surface Surface
	Viewer  *Viewer // that the numbers were read under
	Grounds []Lab
	Films   []LabReading
	Within  float64 // CIEDE2000 that two in three readings lie within; 0: 0.5
	Gauge   float64 // standard deviation of a film reading, µm
}

// LabReading is one film over one ground.
type LabReading struct {
	Ground int     // index in LabCard.Grounds
	Film   float64 // µm dry
	Lab    Lab
}

// handHeld is how well an instrument that shows Lab repeats, where nothing is said.
const handHeld = 0.5

// FitLab returns K and S of a card of which colours only are known: every
// reading is made up to a spectrum ([Reconstruct]), and these are fitted as if
// they were measured. What is refused allows for a noise of half a percent, and as
// much again for a CIEDE2000 of Within. The stated errors are wider: each reading is shifted in
// lightness, red and blue by its own error, and its spectrum is bent in the ways
// that its viewer does not see, and what each does to K and S is counted in all
// bands together. K and S of single bands are then a help to get at colours,
// hardly a property of the paint.
func FitLab(c LabCard) (Fitted, error) {
	if c.Within == 0 {
		c.Within = handHeld
	}
	if !(c.Within > 0 && c.Within <= 20) || c.Viewer == nil {
		return Fitted{}, fault.New(fault.Invalid, "readings within %g CIEDE2000: up to 20, under a viewer, are wanted", c.Within).At(c.Name)
	}
	card, made, err := c.spectral()
	if err != nil {
		return Fitted{}, at(err, card.named())
	}
	f, err := Fit(card)
	if err != nil {
		return Fitted{}, err
	}
	moves := make([][]powers2, Bands)
	for b := range moves {
		moves[b], f.noise[b] = f.moves(&card, b), spread{}
	}
	for i := range made {
		for _, d := range c.strays(made[i], c.lab(i)) {
			var all [Bands]powers2
			for b, m := range moves {
				all[b] = powers2{k: m[i].k * d[b], s: m[i].s * d[b]}
			}
			f.together = append(f.together, all)
		}
	}
	for b := range Bands {
		f.total(b)
	}
	return f, nil
}

// spectral makes up a spectrum for every reading, grounds first.
func (c *LabCard) spectral() (Card, []Rebuilt, error) {
	card := Card{Name: c.Name, Finish: c.Finish, Surface: c.Surface, Gauge: c.Gauge, Noise: halfPercent * (1 + c.Within)}
	var made []Rebuilt
	for i, l := range c.Grounds {
		r, err := Reconstruct(l, c.Viewer)
		if err != nil {
			return card, nil, at(err, place("ground", i))
		}
		made, card.Grounds = append(made, r), append(card.Grounds, r.Spectrum)
	}
	for i, f := range c.Films {
		r, err := Reconstruct(f.Lab, c.Viewer)
		if err != nil {
			return card, nil, at(err, place("reading", i))
		}
		made, card.Films = append(made, r), append(card.Films, Reading{f.Ground, f.Film, r.Spectrum})
	}
	return card, made, nil
}

// lab returns the i-th reading, grounds first.
func (c *LabCard) lab(i int) Lab {
	if i < len(c.Grounds) {
		return c.Grounds[i]
	}
	return c.Films[i-len(c.Grounds)].Lab
}

// strays returns how one reading's spectrum may be off, one deviation each: the
// three ways its colour may be, and those its viewer does not see.
func (c *LabCard) strays(r Rebuilt, l Lab) []Spectrum {
	var list []Spectrum
	const in3 = 1.878 // deviations of three numbers that hold two in three
	for _, axis := range [...]vector{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}} {
		size := c.Within / in3 / Difference(l, off(l, axis, 1))
		for _, way := range [...]float64{size, -size} { // at the edge of what there is one way is barred
			if moved, err := Reconstruct(off(l, axis, way), c.Viewer); err == nil {
				list = append(list, moved.Spectrum.plus(r.Spectrum, -1))
				break
			}
		}
	}
	const in90 = 1.645 // deviations that hold nine in ten, as the bends do
	for _, bend := range r.bends() {
		list = append(list, Spectrum{}.plus(bend, 1/in90))
	}
	return list
}
