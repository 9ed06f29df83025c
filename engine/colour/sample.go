package colour

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"fettle/fault"
)

// Sample is one reading out of a file.
type Sample struct {
	Name     string
	Spectrum *Spectrum // nil where the file has only Lab
	Lab      *Lab      // as the file states it, nil where it does not
	Notes    []string  // what was assumed, in words
}

// Scale says how reflectance is written in a file.
type Scale uint8

// The scales.
const (
	Guess    Scale = iota // percent where any value of the file is above 2, else 0 to 1
	Fraction              // 0 to 1
	Percent               // 0 to 100
)

// Read reads a file of either kind: CGATS text where it has a BEGIN_DATA, else
// CSV. See [ReadCGATS] and [ReadCSV].
func Read(r io.Reader, scale Scale) ([]Sample, error) {
	lines, err := text(r)
	if err != nil {
		return nil, err
	}
	if slices.ContainsFunc(lines, func(l string) bool { return strings.EqualFold(strings.TrimSpace(l), "BEGIN_DATA") }) {
		return readCGATS(lines, scale)
	}
	return readCSV(lines, scale)
}

// largest is the most bytes that are read of a file.
const largest = 8 << 20

// noise is how far below 0 a reading of a black may lie before it is refused.
const noise = 0.005

// text returns a file as lines, whatever its line ends, without the mark that
// some programs put at its head.
func text(r io.Reader) ([]string, error) {
	b, err := io.ReadAll(io.LimitReader(r, largest+1))
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "read the file")
	}
	if len(b) > largest {
		return nil, fault.New(fault.TooLarge, "the file has more than %d MB", largest>>20).
			WithHint("send the readings of one card at a time")
	}
	s := strings.TrimPrefix(string(b), "\ufeff")
	if strings.ContainsRune(s, 0) {
		return nil, fault.New(fault.Invalid, "this is not plain text").
			WithHint("export the readings as text or CSV, in UTF-8")
	}
	if !utf8.ValidString(s) {
		s = strings.ToValidUTF8(s, "?")
	}
	s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	return strings.Split(s, "\n"), nil
}

// number reads a figure with a decimal point or, alone, a decimal comma.
func number(s string) (float64, *fault.Fault) {
	t := strings.TrimSpace(s)
	if strings.Count(t, ",") == 1 && !strings.Contains(t, ".") {
		t = strings.Replace(t, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(t, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		if strings.Contains(t, ",") {
			return 0, fault.New(fault.Invalid, "%.20q is no number", s).
				WithHint("write 0.431 or 0,431, with nothing between thousands")
		}
		return 0, fault.New(fault.Invalid, "%.20q is no number", s)
	}
	return v, nil
}

// curve is a sample as a file has it.
type curve struct {
	name   string
	points []point
	scale  Scale
	lab    *Lab
	notes  []string
}

// point is a value at a wavelength, and the line it stands on.
type point struct {
	nm, value float64
	line      int
}

// samples puts the readings of a file on the grid.
func samples(list []curve, scale Scale) ([]Sample, error) {
	if len(list) == 0 {
		return nil, fault.New(fault.Invalid, "there is no reading in the file").
			WithHint("export spectral reflectance or Lab")
	}
	guess := Fraction
	for _, c := range list {
		if c.scale == Guess && slices.ContainsFunc(c.points, func(p point) bool { return p.value > 2 }) {
			guess = Percent
		}
	}
	out := make([]Sample, len(list))
	for i, c := range list {
		out[i] = Sample{Name: c.name, Lab: c.lab, Notes: c.notes}
		if len(c.points) == 0 {
			continue
		}
		s := &out[i]
		switch {
		case c.scale == Guess && scale != Guess:
			c.scale = scale
		case c.scale == Guess:
			c.scale = guess
			if guess == Percent {
				s.Notes = append(s.Notes, "taken as percent: values reach above 2")
			}
		}
		if err := c.settle(s); err != nil {
			return nil, err
		}
		if err := c.resample(s); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// settle brings values to parts of 1 and refuses what cannot be reflectance.
func (c *curve) settle(s *Sample) error {
	dark := 0.0
	for i, p := range c.points {
		v := p.value
		if c.scale == Percent {
			v /= 100
		}
		if v < 0 && v >= -noise {
			dark, v = min(dark, v), 0
		}
		if f := believable(v); f != nil {
			if c.scale == Percent && v > highest {
				f = fault.New(fault.Invalid, "reflectance %.4g %% is above %g %%", 100*v, 100*highest).
					WithHint("calibrate on the white tile and measure again")
			}
			return f.At(c.place(i))
		}
		c.points[i].value = v
	}
	if dark < 0 {
		s.Notes = append(s.Notes, fmt.Sprintf("values down to %.4f were taken as 0: noise of the instrument", dark))
	}
	return nil
}

// place names a value for messages: "line 14, 540 nm".
func (c *curve) place(i int) string {
	where := fmt.Sprintf("line %d, %s", c.points[i].line, nm(c.points[i].nm))
	if c.name != "" {
		where += fmt.Sprintf(", sample %.40q", c.name)
	}
	return where
}
