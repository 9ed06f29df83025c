package colour

import (
	"errors"
	"fmt"
	"math"

	"fettle/fault"
)

// Over returns the reflectance, inside the paint, of layers from the bottom up
// over a ground: what each gives is the ground of the next. Where layers have
// nearly the same refractive index nothing is reflected between them, so a
// clear coat is one more layer, with little K and S, and the only surface is
// that against the air: [Surface.Seen] of the whole. It checks nothing and
// allocates nothing; [Stack.Check] is the door.
func Over(ground Spectrum, layers ...Layer) Spectrum {
	for l := range layers {
		p, x := &layers[l].Paint, layers[l].Film
		for i, g := range ground {
			ground[i] = Film(p.K[i], p.S[i], x, g)
		}
	}
	return ground
}

// Stack is layers over a ground under one surface.
type Stack struct {
	Ground  Spectrum // reflectance inside, as the paint on it sees it
	Layers  []Layer  // from the bottom up
	Surface Surface
}

// Reflectance returns what is measured on the stack.
func (s *Stack) Reflectance() Spectrum { return s.Surface.Seen(Over(s.Ground, s.Layers...)) }

// Check refuses what the equations do not describe: a ground outside 0…1, K or
// S below nothing, films without thickness, flakes.
func (s *Stack) Check() error {
	if err := checkGround(s.Ground); err != nil {
		return err
	}
	for i := range s.Layers {
		if err := s.Layers[i].check(); err != nil {
			return err
		}
	}
	return s.Surface.check()
}

func (l *Layer) check() error {
	if err := checkFilm(l.Film); err != nil {
		return at(err, l.Paint.named())
	}
	return l.Paint.check()
}

func checkGround(g Spectrum) error {
	for i, v := range g {
		if !(v >= 0 && v <= 1) {
			return fault.New(fault.Invalid, "a reflectance of %g: 0 to 1 is wanted", v).At(band(i)).At("the ground")
		}
	}
	return nil
}

func badSurface(s Surface) error {
	return fault.New(fault.Invalid, "k1 %g and k2 %g: from 0 to below 1 is wanted", s.K1, s.K2).At("the surface")
}

// at says where a fault was found.
func at(err error, where string) error {
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f.At(where)
	}
	return err
}

// Mix returns the paint of parts by volume of dry film: K and S are the sums of
// those of the parts, each by its share [Kubelka1948]. parts need not add up to
// one; they are shares of their sum.
func Mix(name string, parts []float64, paints []Paint) (Paint, error) {
	if len(parts) != len(paints) || len(parts) == 0 {
		return Paint{}, fault.New(fault.Invalid, "%d parts of %d paints", len(parts), len(paints)).At(name)
	}
	sum := 0.0
	for _, part := range parts {
		if !(part >= 0) || math.IsInf(part, 0) {
			return Paint{}, fault.New(fault.Invalid, "a part of %g", part).At(name)
		}
		sum += part
	}
	if !(sum > 0) || math.IsInf(sum, 0) {
		return Paint{}, fault.New(fault.Invalid, "all parts are nothing").At(name)
	}
	mixed := Paint{Name: name}
	for j := range paints {
		if err := paints[j].check(); err != nil {
			return Paint{}, err
		}
		share := parts[j] / sum
		for i := range mixed.K {
			mixed.K[i] += share * paints[j].K[i]
			mixed.S[i] += share * paints[j].S[i]
		}
	}
	return mixed, nil
}

// place names the i-th of a list, counted from one.
func place(what string, i int) string { return fmt.Sprintf("%s %d", what, i+1) }
