package colour

import (
	"math"

	"fettle/fault"
)

// Job is a paint that is to be laid in coats over what is there.
type Job struct {
	Paint   Fitted   // of a card, or Known
	Coat    float64  // µm dry a coat
	Scatter float64  // standard deviation of the film laid, part of it; 0: as stated
	Over    Spectrum // reflectance inside of what lies under it
	Clear   []Layer  // over it, from the bottom up; may be none
	Surface Surface
}

// Known returns a paint whose K and S are taken as exact.
func Known(p Paint) Fitted { return Fitted{Paint: p} }

// Coat is the job after so many coats.
type Coat struct {
	Coats  int
	Film   float64  // µm dry
	Seen   Spectrum // as measured
	Lab    Lab
	Error  Lab     // half of the band that holds each number in 95 of 100
	Within float64 // CIEDE2000 that holds the true colour in 95 of 100
	Step   float64 // CIEDE2000 from the coat before, the first from the undercoat
	Left   float64 // CIEDE2000 to the colour fully hidden
	Bright float64 // of the two luminances, this and fully hidden, the lesser ÷ the greater
	Hidden bool    // by this coat and all that follow the undercoat is hidden
}

// Hides is when an undercoat counts as hidden: what more coats would still
// change is no more than a person sees. The colour is within Difference of that
// of the same paint laid so thick that nothing shows, and the lesser of the two
// luminances is at least Bright of the greater; now and after every further coat.
type Hides struct {
	Difference float64 // CIEDE2000; 0: 1.0, two panels side by side
	Bright     float64 // 0: 0.98, as over the black and white chart
}

func (h Hides) filled() Hides {
	if h.Difference == 0 {
		h.Difference = 1
	}
	if h.Bright == 0 {
		h.Bright = FullHiding
	}
	return h
}

// mostCoats is how many coats are tried before hiding is given up.
const mostCoats = 60

// Coats returns the job coat by coat, 1 to n: the colour with its error, what
// the coat changed, and what is still to come. Refused for flakes, and where
// paint or ground are none.
func (j *Job) Coats(v *Viewer, n int, h Hides) ([]Coat, error) {
	if err := j.check(); err != nil {
		return nil, err
	}
	if n < 1 || n > mostCoats {
		return nil, fault.New(fault.Invalid, "%d coats: 1 to %d are wanted", n, mostCoats).At(j.Paint.Paint.named())
	}
	all := j.lay(v, h)
	for i := range all[:n] {
		j.doubt(v, &all[i])
	}
	return all[:n], nil
}

// ToHide returns the fewest coats that hide the undercoat by a rule. Where 60 do
// not, it says so in a fault.
func (j *Job) ToHide(v *Viewer, h Hides) (int, error) {
	if err := j.check(); err != nil {
		return 0, err
	}
	for _, c := range j.lay(v, h) {
		if c.Hidden {
			return c.Coats, nil
		}
	}
	return 0, fault.New(fault.Invalid, "%d coats of %g µm do not hide this undercoat", mostCoats, j.Coat).At(j.Paint.Paint.named()).
		WithHint("take a sealer nearer to the colour")
}

// lay works out every coat that is ever tried, without errors.
func (j *Job) lay(v *Viewer, h Hides) []Coat {
	h = h.filled()
	last := j.seen(j.Paint.Paint.Hidden())
	end, endY := v.Lab(last), v.XYZ(last).Y
	was := v.Lab(j.seen(j.Over))
	list, under := make([]Coat, mostCoats), j.Over
	for i := range list {
		under = Over(under, Layer{j.Paint.Paint, j.Coat})
		c := &list[i]
		c.Coats, c.Film, c.Seen = i+1, float64(i+1)*j.Coat, j.seen(under)
		y := v.XYZ(c.Seen).Y
		c.Lab = v.Lab(c.Seen)
		c.Step, c.Left, c.Bright = Difference(was, c.Lab), Difference(c.Lab, end), min(y, endY)/max(y, endY)
		was = c.Lab
	}
	for i := len(list) - 1; i >= 0 && list[i].Left <= h.Difference && list[i].Bright >= h.Bright; i-- {
		list[i].Hidden = true
	}
	return list
}

// seen returns what is measured over a reflectance inside.
func (j *Job) seen(inside Spectrum) Spectrum { return j.Surface.Seen(Over(inside, j.Clear...)) }

func (j *Job) check() error {
	if !(j.Scatter >= 0 && j.Scatter < 1) {
		return fault.New(fault.Invalid, "a scatter of the film of %g: a part of it is wanted", j.Scatter).At(j.Paint.Paint.named())
	}
	s := Stack{Ground: j.Over, Layers: append([]Layer{{j.Paint.Paint, j.Coat}}, j.Clear...), Surface: j.Surface}
	return s.Check()
}

// doubt sets down how far the colour of a coat may be off.
func (j *Job) doubt(v *Viewer, c *Coat) {
	cov := j.covariance(v, c)
	c.Error = Lab{L: in95 * math.Sqrt(cov[0][0]), A: in95 * math.Sqrt(cov[1][1]), B: in95 * math.Sqrt(cov[2][2])}
	c.Within = within95(c.Lab, cov)
}
