package paint

import (
	"slices"

	"fettle/build"
	"fettle/engine/colour"
	"fettle/fault"
)

// The surface of paint and of clear: refractive index 1.5, and the part of the
// light that it sends back in; theory gives 0.596.
const (
	index  = 1.5
	inside = 0.6
)

// Skin returns the surface that readings of a card were taken through.
func Skin(gloss bool) colour.Surface { return colour.Glossy(index, inside, gloss) }

// light is the viewer colours are compared under: daylight, wide field.
func light() *colour.Viewer { return colour.NewViewer(colour.D65(), colour.Degrees10()) }

// CardOf returns the newest card of a product that satisfies a test, or nil.
func CardOf(b *build.Build, id build.ProductID, good func(build.Card) bool) *build.Card {
	var newest *build.Card
	for i, c := range b.Cards {
		if c.Product == id && good(c) && (newest == nil || c.Day >= newest.Day) {
			newest = &b.Cards[i]
		}
	}
	return newest
}

// Spectrum returns the reflectance of a reading as measured: its own, or one
// made up from its three numbers.
func Spectrum(r build.Reading) (colour.Spectrum, error) {
	var s colour.Spectrum
	if len(r.Spectrum) == colour.Bands {
		copy(s[:], r.Spectrum)
		return s, nil
	}
	day := colour.NewViewer(colour.D65(), colour.Degrees2())
	lab := colour.Lab{}
	if len(r.Lab) == 3 {
		lab = colour.Lab{L: r.Lab[0], A: r.Lab[1], B: r.Lab[2]}
	} else {
		c, err := colour.ParseHex(r.RGB)
		if err != nil {
			return s, err
		}
		lab = c.Lab()
	}
	made, err := colour.Reconstruct(lab, day)
	return made.Spectrum, err
}

// Fit returns the paint of a product as its newest card over two grounds gives
// it. Fault: NotFound without such a card; Invalid where the equations do not
// hold, as for flakes, or the readings are none of one paint.
func Fit(b *build.Build, id build.ProductID) (colour.Fitted, error) {
	card := CardOf(b, id, func(c build.Card) bool { return len(c.Grounds) > 1 && c.Over == "" })
	if card == nil {
		return colour.Fitted{}, fault.New(fault.NotFound, "there is no spray-out of %s over black and white", id).
			WithHint("spray a card over black and white, and read both, bare and painted")
	}
	c := colour.Card{Name: string(card.ID), Surface: Skin(card.Gloss)}
	for _, g := range card.Grounds {
		s, err := Spectrum(g)
		if err != nil {
			return colour.Fitted{}, err
		}
		c.Grounds = append(c.Grounds, s)
	}
	for _, step := range card.Steps {
		for _, r := range step.Readings {
			s, err := Spectrum(r)
			if err != nil {
				return colour.Fitted{}, err
			}
			ground := slices.IndexFunc(card.Grounds, func(g build.Reading) bool { return g.Ground == r.Ground })
			if r.Angle == "flop" {
				c.Finish = colour.Metallic // it was read at two angles because it differs
			} else if ground >= 0 {
				c.Films = append(c.Films, colour.Reading{Ground: ground, Film: step.Film, R: s})
			}
		}
	}
	return colour.Fit(c)
}

// Undercoat returns the reflectance of a product inside its film, as the paint
// on it sees it, from its own card. Fault: NotFound without one.
func Undercoat(b *build.Build, id build.ProductID) (colour.Spectrum, error) {
	card := CardOf(b, id, func(build.Card) bool { return true })
	if card == nil {
		return colour.Spectrum{}, fault.New(fault.NotFound, "no colour of %s was read", id).WithHint("read a sprayed card of it")
	}
	last := card.Steps[len(card.Steps)-1]
	s, err := Spectrum(last.Readings[len(last.Readings)-1])
	if err != nil {
		return colour.Spectrum{}, err
	}
	ground := Skin(card.Gloss).Inside(s)
	for i := range ground {
		ground[i] = min(max(ground[i], 0), 1)
	}
	return ground, nil
}

// JobOver returns the laying of a product over an undercoat, under clear, as
// the engine takes it. Faults are those of Fit and Undercoat.
func JobOver(b *build.Build, id, under build.ProductID) (colour.Job, error) {
	p := b.Product(id)
	if p == nil {
		return colour.Job{}, fault.New(fault.NotFound, "there is no paint product %s", id)
	}
	paint, err := Fit(b, id)
	if err != nil {
		return colour.Job{}, err
	}
	ground, err := Undercoat(b, under)
	if err != nil {
		return colour.Job{}, err
	}
	return colour.Job{Paint: paint, Coat: p.Film, Over: ground, Surface: Skin(true)}, nil
}

// CoatsToHide returns the fewest coats of a product that hide an undercoat.
func CoatsToHide(b *build.Build, id, under build.ProductID) (int, error) {
	job, err := JobOver(b, id, under)
	if err != nil {
		return 0, err
	}
	return job.ToHide(light(), colour.Hides{})
}
