package sprayout

import (
	"slices"

	"fettle/build"
	"fettle/engine/colour"
	"fettle/fault"
)

// readCard returns what a card says. Flakes are as measured and no more; a card
// of two grounds gives K and S; any other the colour of its last or chosen step.
func (p *Paints) readCard(c *build.Card, flakes bool) (source, error) {
	s := source{card: c, surface: skinOf(c)}
	if flakes {
		s.basis, s.why = Indication, "flakes do not follow the equations of paint films: as it was sprayed, face and flop; other coats, air or gun lay them otherwise"
		return s, p.faces(c, &s)
	}
	if overGrounds(c) {
		var err error
		s.basis = WorkedOut
		s.paint, err = p.fit(c)
		return s, err
	}
	s.basis, s.why = Measured, "measured as sprayed; how it covers is not known: spray it over black and over white"
	return s, p.faces(c, &s)
}

// overGrounds reports whether a card is read over grounds that may show through.
func overGrounds(c *build.Card) bool {
	return slices.ContainsFunc(c.Steps, func(s build.Step) bool {
		return slices.ContainsFunc(s.Readings, func(r build.Reading) bool { return r.Ground != "" })
	})
}

// shown returns the step that stands for a card: the chosen one, else the last.
func shown(c *build.Card) build.Step {
	if c.Chosen > 0 && c.Chosen <= len(c.Steps) {
		return c.Steps[c.Chosen-1]
	}
	return c.Steps[len(c.Steps)-1]
}

// faces takes face and flop of the step that stands for a card.
func (p *Paints) faces(c *build.Card, s *source) error {
	found := false
	for _, r := range shown(c).Readings {
		seen, err := p.spectrum(r)
		if err != nil {
			return err
		}
		if r.Angle == "flop" {
			s.flop = &seen
			continue
		}
		found, s.face, s.within = true, seen, in95*withinOf(r)
		if len(r.Spectrum) > 0 && r.Within == 0 {
			s.doubt = p.noise(seen)
		}
	}
	if !found {
		return fault.New(fault.Invalid, "it has no reading of the face")
	}
	return nil
}

// noise returns the CIEDE2000 by which a spectrum is off, 95 in 100, when all its
// bands are by half a percent of white, one deviation: a hand-held instrument set
// down anew.
func (p *Paints) noise(s colour.Spectrum) [3]float64 {
	var off [3]float64
	lighter := s
	for b := range lighter {
		lighter[b] += 1.96 * 0.005
	}
	for i, eye := range p.eyes {
		off[i] = colour.Difference(eye.Lab(s), eye.Lab(lighter))
	}
	return off
}

// fit turns a card over two grounds or more into K and S: from spectra where
// every reading is one, else from colours, with wider errors.
func (p *Paints) fit(c *build.Card) (colour.Fitted, error) {
	films, worst := 0, 0.0
	grounds := map[string]int{}
	for i, g := range c.Grounds {
		grounds[g.Ground] = i
		worst = max(worst, withinOf(g))
	}
	lab := colour.LabCard{Name: string(c.ID), Surface: skinOf(c), Viewer: p.eyes[0]}
	card := colour.Card{Name: string(c.ID), Surface: skinOf(c)}
	for _, step := range c.Steps {
		for _, r := range step.Readings {
			ground, ok := grounds[r.Ground]
			if !ok {
				return colour.Fitted{}, fault.New(fault.Invalid, "the bare ground %q was not read", r.Ground)
			}
			seen, err := labOf(r, p.eyes[0])
			if err != nil {
				return colour.Fitted{}, err
			}
			films, worst = films+1, max(worst, withinOf(r))
			lab.Films = append(lab.Films, colour.LabReading{Ground: ground, Film: step.Film, Lab: seen})
			if len(r.Spectrum) == colour.Bands {
				card.Films = append(card.Films, colour.Reading{Ground: ground, Film: step.Film, R: colour.Spectrum(r.Spectrum)})
			}
		}
	}
	for _, g := range c.Grounds {
		seen, err := labOf(g, p.eyes[0])
		if err != nil {
			return colour.Fitted{}, err
		}
		lab.Grounds = append(lab.Grounds, seen)
		if len(g.Spectrum) == colour.Bands {
			card.Grounds = append(card.Grounds, colour.Spectrum(g.Spectrum))
		}
	}
	if len(card.Films) == films && len(card.Grounds) == len(c.Grounds) {
		return colour.Fit(card)
	}
	lab.Within = max(worst, labWithin)
	return colour.FitLab(lab)
}

// CheckCard says what is wrong with a card before it is kept: spectra with gaps,
// negative or above 1.2, a film over black lighter than over white, and the like.
// The fault names the reading.
func CheckCard(b *build.Build, c build.Card) error {
	p := Paints{build: b, eyes: newViewers()}
	of := b.Product(c.Product)
	if of == nil {
		return fault.New(fault.NotFound, "there is no paint product %q", c.Product)
	}
	if len(c.Steps) == 0 {
		return fault.New(fault.Invalid, "it has no step")
	}
	_, err := p.readCard(&c, p.flakes(of))
	return err
}
