package pattern

import (
	"fmt"
	"math"
)

// Stretched returns what a finished length in mm is cut at when the material
// is pulled on by a part of it that a test strip has shown: finished × (1 − e).
func Stretched(finished, stretch Given) (Amount, error) {
	var s sum
	f := s.take(finished, asked{name: "finished", unit: "mm", low: 0, high: 1e6, why: "over the thing it covers"})
	e := s.part(stretch, asked{name: "stretch", low: 0, high: 0.5, why: "pull a test strip along and across: they differ"})
	return s.is("cut length", f*(1-e), "mm", 1, "finished × (1 − stretch)", fmt.Sprintf("%s × %s", num(f, 1), num(1-e, 4)))
}

// Girth returns the finished size of a cover in mm that is sewn smaller than
// the foam it goes over, 3 to 6 %.
func Girth(foam, under Given) (Amount, error) {
	var s sum
	g := s.take(foam, asked{name: "girth of the foam", unit: "mm", low: 10, high: 1e5, why: "a tape round the foam"})
	e := s.part(under, asked{name: "under size", low: 0, high: 0.15, habit: 0.04, has: true, why: "3–6 %; old foam less, new foam more"})
	return s.is("girth of the cover", g*(1-e), "mm", 1, "girth of the foam × (1 − under size)", fmt.Sprintf("%s × %s", num(g, 1), num(1-e, 4)))
}

// PleatedWidth returns the width that a panel with sewn lines across it is cut
// at in mm: finished, what each line takes up, and both allowances.
func PleatedWidth(finished, lines, loss, allowance Given) (Amount, error) {
	var s sum
	w := s.take(finished, asked{name: "finished width", unit: "mm", low: 1, high: 1e5, why: "between the seams"})
	n := s.take(lines, asked{name: "lines", whole: true, low: 0, high: 1000, why: "sewn lines across the panel"})
	d := s.take(loss, asked{name: "loss a line", unit: "mm", low: 0, high: 100, why: "sew a test piece: rules differ by two, half the foam for each line or an eighth of the width in all"})
	a := s.take(allowance, asked{name: "allowance", unit: "mm", low: 0, high: 100, habit: 12, has: true, why: "10–12 mm, half an inch in America"})
	return s.is("cut width", w+n*d+2*a, "mm", 1, "finished + lines × loss + 2 × allowance", fmt.Sprintf("%s + %g × %s + 2 × %s", num(w, 1), n, num(d, 3), num(a, 1)))
}

// PleatLoss returns the loss of one line in mm that a test piece shows: what
// it measured flat, less what it measures sewn, over its lines.
func PleatLoss(flat, sewn, lines Given) (Amount, error) {
	var s sum
	f := s.take(flat, asked{name: "flat", unit: "mm", low: 1, high: 1e4, why: "the test piece before it is sewn"})
	b := s.take(sewn, asked{name: "sewn", unit: "mm", low: 1, high: f, why: "the test piece after it is sewn, no wider than before"})
	n := s.take(lines, asked{name: "lines", whole: true, low: 1, high: 1000, why: "count them"})
	return s.is("loss a line", (f-b)/n, "mm", 3, "(flat − sewn) ÷ lines", fmt.Sprintf("(%s − %s) ÷ %g", num(f, 2), num(b, 2), n))
}

// Boxing is the strip round a cushion between its faces. Round is the sewn
// length of the face it goes round, in mm; its ends meet in one seam.
func Boxing(round, height, allowance Given) (Amount, Piece, error) {
	var s sum
	l := s.take(round, asked{name: "round the face", unit: "mm", low: 20, high: 1e5, why: "along the sewn line of the face"})
	h := s.take(height, asked{name: "height", unit: "mm", low: 5, high: 2000, why: "between the two sewn lines"})
	sa := s.take(allowance, askAllowance)
	a, err := s.is("boxing", l+2*sa, "mm", 0, "round the face + 2 × allowance", fmt.Sprintf("%s + 2 × %s", num(l, 1), num(sa, 1)))
	p := rectangle("boxing", "boxing strip", l, h, sa)
	p.Edges[0].Name, p.Edges[2].Name = "lower", "upper"
	return a, p, err
}

// Bolster is a roll with a round end: its cover and its ends, in mm, the cover
// under size like a seat's.
func Bolster(length, diameter, under, allowance Given) (cover Amount, body, end Piece, err error) {
	var s sum
	l := s.take(length, asked{name: "length", unit: "mm", low: 20, high: 1e4, why: "between the ends"})
	d := s.take(diameter, asked{name: "diameter", unit: "mm", low: 10, high: 2000, why: "across the foam"})
	e := s.part(under, asked{name: "under size", low: 0, high: 0.15, habit: 0.04, has: true, why: "3–6 %"})
	sa := s.take(allowance, askAllowance)
	girth := math.Pi * d * (1 - e)
	if cover, err = s.is("girth of the cover", girth, "mm", 1, "π × diameter × (1 − under size)", fmt.Sprintf("π × %s × %s", num(d, 1), num(1-e, 4))); err != nil {
		return cover, body, end, err
	}
	body = rectangle("bolster", "bolster cover", l, girth, sa)
	chords := max(24, int(math.Ceil(math.Pi/math.Acos(1-0.02/max(d/2, 1)))))
	r := girth / float64(chords) / (2 * math.Sin(math.Pi/float64(chords))) // its sewn line is as long as the girth
	end = Piece{ID: "bolster-end", Name: "bolster end", Quantity: 2, Line: Line{}.arc(r, 0, 2*math.Pi, chords)[:chords], Edges: []Edge{{Name: "round", Kind: Plain, Allowance: sa}}}
	return cover, body, end, nil
}

// Strap returns the width in mm that a strap is cut at which is folded so that
// its edges meet behind, and sewn down both sides: twice its width, the two
// bends of the material, and what is turned in.
func Strap(width, thickness, turnIn Given) (Amount, error) {
	var s sum
	w := s.take(width, asked{name: "width", unit: "mm", low: 3, high: 500, why: "of the finished strap"})
	t := s.take(thickness, askThickness)
	in := s.take(turnIn, asked{name: "turned in", unit: "mm", low: 0, high: 50, habit: 0, has: true, why: "raw edges meet behind"})
	return s.is("strap, cut", 2*w+math.Pi*t+2*in, "mm", 1, "2 × width + π × thickness + 2 × turned in", fmt.Sprintf("2 × %s + π × %s + 2 × %s", num(w, 1), num(t, 2), num(in, 1)))
}

func rectangle(id, name string, w, h, allowance float64) Piece {
	p := Piece{ID: id, Name: name, Line: Line{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}}
	for i, e := range []string{"side 1", "end 1", "side 2", "end 2"} {
		p.Edges = append(p.Edges, Edge{Name: e, From: i, Kind: Plain, Allowance: allowance})
	}
	return p
}
