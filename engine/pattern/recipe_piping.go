package pattern

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Piping is a cord covered with a strip that is sewn into a seam.
type Piping struct {
	Length    Given // mm of seam, all of it
	Corners   Given // on the way; none
	Cord      Given // mm across; 4
	Thickness Given // mm of the cover
	Allowance Given // mm beside the cord; 12
	Piece     Given // mm of material that a strip comes from: its width where it is cut on the bias, else its length
	Bias      bool  // cut at 45°; leather and stretchy vinyl may be cut straight
}

// PipingStrips is what a Piping comes to.
type PipingStrips struct {
	Width  Amount `json:"width"`  // of the strip, mm
	Length Amount `json:"length"` // of the finished piping, mm
	Each   Amount `json:"each"`   // of one strip, mm
	Count  Amount `json:"count"`  // strips
	Joins  int    `json:"joins"`  // keep them off corners and off the middle of what is seen
	Area   Amount `json:"area"`   // of the strips, m²
}

var (
	askCord      = asked{name: "cord", unit: "mm", low: 0.5, high: 60, habit: 4, has: true, why: "5/32 in; cords are 3/32–6/32 in"}
	askThickness = asked{name: "thickness", unit: "mm", low: 0.1, high: 20, why: "measure the material"}
	askAllowance = asked{name: "allowance", unit: "mm", low: 1, high: 100, habit: 12, has: true, why: "10–12 mm, half an inch in America"}
)

// Strip returns how wide the cover of a cord is cut: once round the cord on the
// middle of the material, and both allowances.
func (p Piping) Strip() (Amount, error) {
	var s sum
	d, t, sa := s.take(p.Cord, askCord), s.take(p.Thickness, askThickness), s.take(p.Allowance, askAllowance)
	return s.is("piping strip", math.Pi*(d+t)+2*sa, "mm", 0, "π × (cord + thickness) + 2 × allowance", fmt.Sprintf("π × (%s + %s) + 2 × %s", num(d, 2), num(t, 2), num(sa, 2)))
}

// Strips returns the strips of a piping: 25 mm more for each corner, and an
// allowance for each end of a strip where two are joined.
func (p Piping) Strips() (PipingStrips, error) {
	width, err := p.Strip()
	if err != nil {
		return PipingStrips{}, err
	}
	var s sum
	seam := s.take(p.Length, askLength)
	corners := s.take(p.Corners, asked{name: "corners", whole: true, low: 0, high: 1000, has: true, why: "none"})
	out := PipingStrips{Width: width}
	if out.Length, err = s.is("piping length", seam+25*corners, "mm", 0, "seam + 25 mm × corners", fmt.Sprintf("%s + 25 × %g", num(seam, 1), corners)); err != nil {
		return out, err
	}
	s = sum{}
	piece := s.take(p.Piece, asked{name: "piece", unit: "mm", low: 50, high: 1e5, why: "the width of the roll, or how long a strip the hide gives"})
	each, formula, with := piece, "length of the piece", num(piece, 1)
	if p.Bias {
		each, formula, with = piece*math.Sqrt2, "width ÷ sin 45°", num(piece, 1)+" ÷ 0.7071"
	}
	if out.Each, err = s.is("one strip", each, "mm", 0, formula, with); err != nil {
		return out, err
	}
	s = sum{}
	sa := s.take(p.Allowance, askAllowance)
	long, one := s.worked("piping length", out.Length), s.worked("one strip", out.Each)
	if s.err == nil && one < 2*sa+20 {
		s.err = fault.New(fault.Invalid, "strips of %s with %s mm at each join", out.Each.Working.Text, num(sa, 1)).WithHint("longer strips, or piping from another piece")
	}
	n := max(math.Ceil((long-2*sa)/(one-2*sa)-1e-9), 1)
	if long <= 0 {
		n = 0
	}
	out.Joins = max(int(n)-1, 0)
	if out.Count, err = s.is("strips", n, "", 0, "(length − 2 × allowance) ÷ (strip − 2 × allowance), rounded up: each join takes two allowances",
		fmt.Sprintf("(%s − 2 × %s) ÷ (%s − 2 × %s), rounded up", num(long, 0), num(sa, 1), num(one, 0), num(sa, 1))); err != nil {
		return out, err
	}
	s = sum{}
	s.worked("strips", out.Count)
	s.worked("one strip", out.Each)
	s.worked("piping strip", width)
	out.Area, err = s.is("material of the strips", n*one*width.Value/1e6, "m²", 3, "strips × length × width", fmt.Sprintf("%g × %s × %s mm ÷ 1,000,000", n, num(one, 0), num(width.Value, 1)))
	return out, err
}

// Bias returns how long one strip is that is cut at 45° across a roll.
func Bias(roll Given) (Amount, error) {
	var s sum
	w := s.take(roll, asked{name: "width", unit: "mm", low: 10, high: 1e4, why: "measure the roll"})
	return s.is("one strip on the bias", w*math.Sqrt2, "mm", 0, "width ÷ sin 45°", num(w, 1)+" ÷ 0.7071")
}

// BiasYield returns the metres of bias strip that a length of roll gives when
// its ends are joined to a tube and it is cut in one spiral.
func BiasYield(roll, length, strip Given) (Amount, error) {
	var s sum
	w := s.take(roll, asked{name: "width", unit: "mm", low: 10, high: 1e4, why: "measure the roll"})
	l := s.take(length, asked{name: "length", unit: "mm", low: 10, high: 1e5, why: "how much of the roll is cut off"})
	b := s.take(strip, asked{name: "strip", unit: "mm", low: 2, high: 500, why: "the width of the strip"})
	return s.is("bias strip", w*l/b/1000, "m", 2, "width × length ÷ strip", fmt.Sprintf("%s × %s ÷ %s mm ÷ 1000", num(w, 1), num(l, 1), num(b, 1)))
}
