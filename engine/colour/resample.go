package colour

import (
	"fmt"
	"math"

	"fettle/fault"
)

// How far the ends of a reading may be held at its last value: many
// instruments read 400 to 700 nm only, and the eye sees little beyond.
const (
	latestFirst  = 400.0 // nm
	earliestLast = 700.0 // nm
	widestStep   = 20.0  // nm
)

// resample puts a reading at even steps of up to 20 nm on the grid.
//
// Where the reading has the wavelength its value is taken as it is. Between
// its wavelengths stands Sprague's polynomial of the fifth degree over three
// neighbours on either side, as the CIE advises for even steps [CIE167]; near
// the ends, where a side has fewer, the polynomial through the six last. Values
// made so are kept within 0 and 1.2. Beyond its ends, up to 400 nm and from
// 700 nm on, the last value is held, and a note says so. Uneven steps are gaps,
// and refused.
func (c *curve) resample(s *Sample) error {
	step, err := c.even()
	if err != nil {
		return err
	}
	first, last := c.points[0].nm, c.points[len(c.points)-1].nm
	grid := new(Spectrum)
	for i := range grid {
		w := float64(Wavelength(i))
		grid[i] = c.value((min(max(w, first), last) - first) / step)
	}
	if first > FirstNM {
		s.Notes = append(s.Notes, fmt.Sprintf("380 nm to %s: held at the value of %s", nm(first), nm(first)))
	}
	if last < LastNM {
		s.Notes = append(s.Notes, fmt.Sprintf("%s to 730 nm: held at the value of %s", nm(last), nm(last)))
	}
	s.Spectrum = grid
	return nil
}

// even returns the step of a reading, or says where it has a gap.
func (c *curve) even() (float64, error) {
	p := c.points
	n := len(p)
	if n < 6 {
		return 0, fault.New(fault.Invalid, "%d wavelengths are too few for a spectrum", n).At(c.place(0)).
			WithHint("export 400 to 700 nm by 10 or 20 nm at least")
	}
	least := math.Inf(1)
	for i := 1; i < n; i++ {
		d := p[i].nm - p[i-1].nm
		if d <= 0 {
			return 0, fault.New(fault.Invalid, "%s comes after %s", nm(p[i].nm), nm(p[i-1].nm)).At(c.place(i)).
				WithHint("wavelengths rise, each once")
		}
		least = min(least, d)
	}
	const slack = 0.02 // of a step, for rounded wavelengths
	for i := 1; i < n; i++ {
		if d := p[i].nm - p[i-1].nm; d > least*(1+2*slack) {
			return 0, fault.New(fault.Invalid, "a gap: nothing between %s and %s, steps elsewhere are %s", nm(p[i-1].nm), nm(p[i].nm), nm(least)).
				At(c.place(i)).WithHint("a gap is not guessed at: export all wavelengths")
		}
	}
	if least > widestStep*(1+slack) {
		return 0, fault.New(fault.Invalid, "steps of %s are too wide for a spectrum", nm(least)).At(c.place(1)).
			WithHint("export steps of 20 nm or less")
	}
	return (p[n-1].nm - p[0].nm) / float64(n-1), c.spans()
}

// spans refuses a reading that leaves out what the eye sees.
func (c *curve) spans() error {
	const hint = "readings from 400 nm or below to 700 nm or above are needed"
	n := len(c.points)
	if first := c.points[0].nm; first > latestFirst {
		return fault.New(fault.Invalid, "the reading begins at %s", nm(first)).At(c.place(0)).WithHint(hint)
	}
	if last := c.points[n-1].nm; last < earliestLast {
		return fault.New(fault.Invalid, "the reading ends at %s", nm(last)).At(c.place(n - 1)).WithHint(hint)
	}
	return nil
}

// value returns the reading x steps from its first value.
func (c *curve) value(x float64) float64 {
	const same = 1e-3 // of a step
	if i := math.Round(x); math.Abs(x-i) < same {
		return c.points[int(i)].value
	}
	i := min(max(int(x)-2, 0), len(c.points)-6)
	var six [6]float64
	for k := range six {
		six[k] = c.points[i+k].value
	}
	x -= float64(i)
	if x < 2 || x > 3 {
		return min(max(lagrange(&six, x), 0), highest)
	}
	return min(max(sprague(&six, x-2), 0), highest)
}

// sprague returns the value at part x between the third and fourth of six
// evenly spaced values: value, slope and bend agree on both sides of each.
func sprague(r *[6]float64, x float64) float64 {
	a1 := (2*r[0] - 16*r[1] + 16*r[3] - 2*r[4]) / 24
	a2 := (-r[0] + 16*r[1] - 30*r[2] + 16*r[3] - r[4]) / 24
	a3 := (-9*r[0] + 39*r[1] - 70*r[2] + 66*r[3] - 33*r[4] + 7*r[5]) / 24
	a4 := (13*r[0] - 64*r[1] + 126*r[2] - 124*r[3] + 61*r[4] - 12*r[5]) / 24
	a5 := (-5*r[0] + 25*r[1] - 50*r[2] + 50*r[3] - 25*r[4] + 5*r[5]) / 24
	return r[2] + x*(a1+x*(a2+x*(a3+x*(a4+x*a5))))
}

// lagrange returns the polynomial through evenly spaced values, x steps from
// the first.
func lagrange(r *[6]float64, x float64) float64 {
	sum := 0.0
	for i, v := range r {
		for k := range r {
			if k != i {
				v *= (x - float64(k)) / float64(i-k)
			}
		}
		sum += v
	}
	return sum
}
