package pattern

import (
	"fmt"
	"math"
	"slices"
)

// Notch marks one place of a seam on both its sides.
type Notch struct {
	A      float64 `json:"a"` // share of side A
	B      float64 `json:"b"`
	Double bool    `json:"double,omitempty"` // two slits: nearer the rear end
	Why    string  `json:"why"`              // pitch, curve, corner, crossing, match
}

// Spacing of notches, mm.
const (
	mostApart   = 150.0
	leastApart  = 30.0 // between two notches
	leastCorner = 15.0 // between a notch and the end of a seam, and a mark and a corner
)

// Fit lays the sides of a seam against each other: where the notches come, how
// much of B falls to each part of A between them, and whether that can be sewn.
// Notches stand where a curve is sharpest, where a corner or a crossing seam of
// the other side comes, at the places that must meet, and between these no
// more than 150 mm apart; single in the front half of the seam, double in the
// rear, so that a piece cannot be sewn in the wrong way round.
func (s Set) Fit(m Seam) (Fit, error) {
	a, b, err := s.sides(m)
	if err != nil {
		return Fit{}, err
	}
	f := Fit{Seam: m.ID, A: a.length(), B: b.length(), Designed: m.Ease}
	f.Ease = f.B/f.A - 1
	f.Notches = notches(m, a, b)
	from := Match{}
	for _, n := range append(slices.Clone(f.Notches), Notch{A: 1, B: 1}) {
		p := Part{A: (n.A - from.A) * f.A, B: (n.B - from.B) * f.B}
		p.Ease = p.B/p.A - 1
		if math.Abs(p.Ease) > MostEase+1e-9 {
			p.Tell = fmt.Sprintf("%s over %.0f mm: more than %s cannot be eased in", percent(p.Ease), p.A, percent(MostEase))
		}
		f.Parts, from = append(f.Parts, p), Match{n.A, n.B}
	}
	switch off := f.Ease - m.Ease; {
	case math.Abs(m.Ease) > MostEase+1e-9:
		f.Tell = fmt.Sprintf("an ease of %s is designed, at most %s is sewn", percent(m.Ease), percent(MostEase))
	case math.Abs(off) > MostOff+1e-9:
		f.Tell = fmt.Sprintf("side B is %.1f mm, side A %.1f mm: %s, %s is designed", f.B, f.A, percent(f.Ease), percent(m.Ease))
	}
	f.Fits = f.Tell == "" && !slices.ContainsFunc(f.Parts, func(p Part) bool { return p.Tell != "" })
	return f, nil
}

// notches places them, those that mean most first.
func notches(m Seam, a, b chain) []Notch {
	var out []Notch
	put := func(shareA float64, why string) {
		n := Notch{A: shareA, B: across(m.Match, shareA, false), Why: why}
		room := func(x, y, long float64) bool { return math.Abs(x-y)*long >= leastApart }
		if n.A*a.length() < leastCorner || (1-n.A)*a.length() < leastCorner {
			return
		}
		for _, o := range out {
			if !room(o.A, n.A, a.length()) {
				return
			}
		}
		out = append(out, n)
	}
	for _, x := range m.Match {
		put(x.A, "match")
	}
	for _, c := range []struct {
		chain chain
		back  bool
	}{{a, false}, {b, true}} {
		at := func(way float64) float64 {
			share := way / c.chain.length()
			if c.back {
				share = across(m.Match, share, true)
			}
			return share
		}
		for i, end := range c.chain.ends[:len(c.chain.ends)-1] {
			why := "corner"
			if c.chain.refs[i].Piece != c.chain.refs[i+1].Piece {
				why = "crossing"
			}
			put(at(end), why)
		}
		start := 0.0
		for i, l := range c.chain.lines {
			for _, way := range l.sharpest() {
				put(at(start+way), "curve")
			}
			start = c.chain.ends[i]
		}
	}
	slices.SortFunc(out, func(x, y Notch) int {
		if x.A < y.A {
			return -1
		}
		return 1
	})
	out = filled(out, m, a.length())
	for i := range out {
		out[i].Double = out[i].A > 0.5 != m.RearAtA0 && out[i].A != 0.5
	}
	return out
}

// filled puts notches at equal ways between those that are placed.
func filled(placed []Notch, m Seam, long float64) []Notch {
	var out []Notch
	from := 0.0
	for _, n := range append(placed, Notch{A: 1}) {
		parts := math.Ceil((n.A-from)*long/mostApart - 1e-9)
		for k := 1.0; k < parts; k++ {
			share := from + float64((n.A-from)*(k/parts))
			out = append(out, Notch{A: share, B: across(m.Match, share, false), Why: "pitch"})
		}
		if n.A < 1 {
			out = append(out, n)
		}
		from = n.A
	}
	return out
}
