package colour

import (
	"math"

	"fettle/fault"
)

// FullHiding is the contrast ratio at which a film counts as hiding, visually a
// little short of it [ISO6504] [ASTMD2805].
const FullHiding = 0.98

// Chart is the black and white ground that hiding is measured over.
type Chart struct {
	Black, White Spectrum // reflectance inside
	Surface      Surface
}

// Contrast returns Y over black ÷ Y over white of layers laid on both.
func (c *Chart) Contrast(v *Viewer, layers ...Layer) float64 {
	black, white := c.Surface.Seen(Over(c.Black, layers...)), c.Surface.Seen(Over(c.White, layers...))
	return v.XYZ(black).Y / v.XYZ(white).Y
}

// HidingFilm returns the thinnest film, µm dry, that hides the chart: contrast
// [FullHiding], found by halving, to 1e-9 of itself. Coats are this ÷ the film
// of one, rounded up: [CoatsFor].
func (c *Chart) HidingFilm(v *Viewer, p Paint) (float64, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	for _, g := range [...]Spectrum{c.Black, c.White} {
		if err := checkGround(g); err != nil {
			return 0, err
		}
	}
	if err := c.Surface.check(); err != nil {
		return 0, err
	}
	return crossing(func(x float64) bool { return c.Contrast(v, Layer{p, x}) >= FullHiding }, p.named())
}

// crossing returns the thinnest film that does, by doubling and halving.
func crossing(hides func(x float64) bool, name string) (float64, error) {
	const thinnest = 0.01 // µm
	high := thinnest
	for !hides(high) {
		if high *= 2; high > mostFilm {
			return 0, fault.New(fault.Invalid, "no film hides black and white alike: what goes through it is taken away, not thrown back").At(name).
				WithHint("it is a glaze: give it a ground of the colour that is to shine through")
		}
	}
	low := high / 2
	if high == thinnest {
		low = 0
	}
	for high-low > 1e-9*high {
		mid := (low + high) / 2
		if hides(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high, nil
}

// FlatHiding is HidingFilm for one band: a paint that is the same in all, over
// grounds that are, without a surface.
func FlatHiding(k, s, black, white float64) (float64, error) {
	if !(k >= 0 && s >= 0 && k <= mostPower && s <= mostPower && black >= 0 && black <= 1 && white > 0 && white <= 1) {
		return 0, fault.New(fault.Invalid, "K %g, S %g over %g and %g: K and S from 0, grounds from 0 to 1 are wanted", k, s, black, white)
	}
	return crossing(func(x float64) bool { return Film(k, s, x, black) >= FullHiding*Film(k, s, x, white) }, "this band")
}

// CoatsFor returns the fewest coats that make a film.
func CoatsFor(film, coat float64) int { return int(math.Ceil(film/coat - 1e-9)) }
