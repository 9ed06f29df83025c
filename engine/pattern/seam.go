package pattern

import (
	"math"
	"slices"

	"fettle/fault"
)

// Limits of the trade for the two sides of a seam.
const (
	MostOff  = 0.01 // sides may differ so much from what is designed
	MostEase = 0.03 // and so much may be designed, or fall between two notches
)

// Part is the stretch of a seam between two notches.
type Part struct {
	A    float64 `json:"a_mm"`
	B    float64 `json:"b_mm"`
	Ease float64 `json:"ease"` // B over A, less 1: above 0, B is eased in
	Tell string  `json:"tell,omitempty"`
}

// Fit is how the two sides of a seam go together.
type Fit struct {
	Seam     string  `json:"seam"`
	A        float64 `json:"a_mm"`
	B        float64 `json:"b_mm"`
	Ease     float64 `json:"ease"`
	Designed float64 `json:"designed,omitempty"`
	Fits     bool    `json:"fits"` // within a hundredth of what is designed, and no part over three
	Notches  []Notch `json:"notches,omitempty"`
	Parts    []Part  `json:"parts"` // from the start of A
	Tell     string  `json:"tell,omitempty"`
}

// piece returns a piece of the set by its ID, nil where there is none.
func (s Set) piece(id string) *Piece {
	for i := range s.Pieces {
		if s.Pieces[i].ID == id {
			return &s.Pieces[i]
		}
	}
	return nil
}

// chain is one side of a seam as a row of edges laid end to end.
type chain struct {
	refs  []Ref
	lines []Line // each in the direction of the seam
	back  bool   // the lines run against the outlines
	ends  []float64
}

// chain gathers a side. Where the next edge belongs to the same piece it must
// go on where the one before ends.
func (s Set) chain(refs []Ref, back bool) (chain, error) {
	c := chain{refs: refs, back: back}
	if len(refs) == 0 {
		return c, fault.New(fault.Invalid, "a side of no edge").WithHint("name the edges that are sewn, in their order")
	}
	sum := 0.0
	for i, r := range refs {
		p := s.piece(r.Piece)
		if p == nil {
			return c, fault.New(fault.Invalid, "no piece %q in the set", r.Piece)
		}
		k := p.edge(r.Edge)
		if k < 0 {
			return c, fault.New(fault.Invalid, "piece %s has no edge %q", r.Piece, r.Edge)
		}
		line := p.side(k)
		if back {
			line = slices.Clone(line)
			slices.Reverse(line)
		}
		if i > 0 && refs[i-1].Piece == r.Piece && c.lines[i-1][len(c.lines[i-1])-1] != line[0] {
			return c, fault.New(fault.Invalid, "edge %s of piece %s does not go on where edge %s ends", r.Edge, r.Piece, refs[i-1].Edge).
				WithHint("side A runs along the outlines, side B against them")
		}
		sum += line.Length()
		c.lines, c.ends = append(c.lines, line), append(c.ends, sum)
	}
	return c, nil
}

func (c chain) length() float64 { return c.ends[len(c.ends)-1] }

// find returns the edge at a way along the chain, and the way along that edge.
// Where two meet it is the first.
func (c chain) find(way float64) (edge int, along float64) {
	start := 0.0
	for i, end := range c.ends {
		if way <= end+1e-9 || i == len(c.ends)-1 {
			return i, min(max(way-start, 0), end-start)
		}
		start = end
	}
	return 0, 0
}

// sides returns both sides of a seam.
func (s Set) sides(m Seam) (a, b chain, err error) {
	if a, err = s.chain(m.A, false); err != nil {
		return a, b, fault.Within(fault.Within(err, "side A"), "seam "+m.ID)
	}
	if b, err = s.chain(m.B, true); err != nil {
		return a, b, fault.Within(fault.Within(err, "side B"), "seam "+m.ID)
	}
	if h, known := habitOf(m.Kind); !known || !h.sewn {
		return a, b, fault.New(fault.Invalid, "two pieces are not joined %q", m.Kind).At("seam " + m.ID).WithHint("butt, plain, top-stitched, french or piped")
	}
	if !(math.Abs(m.Ease) <= 0.5) {
		return a, b, fault.New(fault.Invalid, "an ease of %g", m.Ease).At("seam " + m.ID).WithHint("2 % is written 0.02")
	}
	last := Match{}
	for _, x := range m.Match {
		if !(x.A > last.A && x.B > last.B && x.A < 1 && x.B < 1) {
			return a, b, fault.New(fault.Invalid, "places that meet at %g and %g", x.A, x.B).At("seam " + m.ID).WithHint("shares of the sides between 0 and 1, rising on both")
		}
		last = x
	}
	return a, b, nil
}

// across returns the share of B that meets a share of A, and by turning the
// pairs round the other way.
func across(pairs []Match, share float64, back bool) float64 {
	from := Match{}
	for _, to := range append(slices.Clone(pairs), Match{1, 1}) {
		f, t := from, to
		if back {
			f, t = Match{f.B, f.A}, Match{t.B, t.A}
		}
		if share <= t.A || t.A >= 1 {
			return f.B + float64((t.B-f.B)*((share-f.A)/(t.A-f.A)))
		}
		from = to
	}
	return share
}
