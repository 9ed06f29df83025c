package pattern

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/figure"
	"fettle/geom"
)

// Headliner is a headlining hung from bows. Bows are numbered from the front;
// they look alike and differ, so each is measured in its place.
type Headliner struct {
	Spans     []Given // mm along the roof: front edge to first bow, bow to bow, last bow to rear edge
	Widths    []Given // mm over the roof at the front edge, each bow, the rear edge: one more than spans
	Bow       Given   // mm across a bow; 8
	Ease      Given   // mm that a sleeve is wider than once round its bow; 10
	Allowance Given   // mm of the seams at the bows; 12
	Sides     Given   // mm over at the sides and ends, to pull and glue; 50
}

// BowHeadliner is what a Headliner comes to.
type BowHeadliner struct {
	Sleeve  Amount   `json:"sleeve"`   // width of a sleeve's strip, cut, mm
	Sleeves []Amount `json:"sleeves"`  // length of each, mm
	Panels  []Piece  `json:"panels"`   // from the front; y forward, the middle of the vehicle on x = 0
	Seams   []Seam   `json:"seams"`    // at the bows
	Cloth   Amount   `json:"cloth_mm"` // along the roof, cut, mm: the panels one after another
}

// Panels returns the panels, their seams and the sleeves of a hung headlining.
func (h Headliner) Panels() (BowHeadliner, error) {
	var out BowHeadliner
	if len(h.Spans) == 0 || len(h.Widths) != len(h.Spans)+1 || len(h.Spans) > 40 {
		return out, fault.New(fault.Invalid, "%d spans and %d widths", len(h.Spans), len(h.Widths)).At("headliner").
			WithHint("a span from each edge to its bow and from bow to bow, and a width at each of their ends")
	}
	var s sum
	bow := s.take(h.Bow, asked{name: "bow", unit: "mm", low: 1, high: 60, habit: 8, has: true, why: "measure the bow across"})
	ease := s.take(h.Ease, asked{name: "ease", unit: "mm", low: 0, high: 100, habit: 10, has: true, why: "so that the sleeve goes over the bow"})
	sa := s.take(h.Allowance, askAllowance)
	var err error
	if out.Sleeve, err = s.is("sleeve strip", math.Pi*bow+ease+2*sa, "mm", 0, "π × bow + ease + 2 × allowance", fmt.Sprintf("π × %s + %s + 2 × %s", num(bow, 1), num(ease, 1), num(sa, 1))); err != nil {
		return out, err
	}
	s = sum{}
	over := s.take(h.Sides, asked{name: "over at sides and ends", unit: "mm", low: 5, high: 200, habit: 50, has: true, why: "to pull by and to glue down"})
	cut := 0.0
	for i := range h.Spans {
		span := s.take(h.Spans[i], asked{name: fmt.Sprintf("span %d", i+1), unit: "mm", low: 20, high: 3000, why: "measure each panel before it is taken down"})
		a := s.take(h.Widths[i], askWidth(i))
		b := s.take(h.Widths[i+1], askWidth(i+1))
		p := h.panel(i, span, a, b, sa, over)
		out.Panels = append(out.Panels, p)
		cut += span + p.Edges[0].Allowance + p.Edges[2].Allowance
	}
	if err := h.join(&out); err != nil {
		return out, err
	}
	out.Cloth, err = s.is("cloth along the roof", cut, "mm", 0, "spans + allowances at the bows + over at both ends",
		fmt.Sprintf("%s mm of spans + 2 × %s × %d + 2 × %s", num(cut-2*sa*float64(len(h.Spans)-1)-2*over, 0), num(sa, 1), len(h.Spans)-1, num(over, 1)))
	out.Cloth = out.Cloth.careful("Work from the middle line: front to rear first, then the sides. The body may be off the middle line; 16 mm has been seen.")
	return out, err
}

func askWidth(i int) asked {
	return asked{name: fmt.Sprintf("width %d", i+1), unit: "mm", low: 100, high: 4000, why: "over the roof, edge to edge"}
}

// panel is the cloth between two bows: y forward, front edge above.
func (h Headliner) panel(i int, span, front, rear, sa, over float64) Piece {
	p := Piece{ID: fmt.Sprintf("headliner-%d", i+1), Name: fmt.Sprintf("headlining panel %d from the front", i+1), Arrow: Arrow{Kind: "grain", Angle: 90},
		Line: Line{{X: -rear / 2, Y: 0}, {X: rear / 2, Y: 0}, {X: front / 2, Y: span}, {X: -front / 2, Y: span}}}
	ends := [2]Edge{{Name: "rear", From: 0, Kind: Plain, Allowance: sa}, {Name: "front", From: 2, Kind: Plain, Allowance: sa}}
	if i == 0 {
		ends[1].Kind, ends[1].Allowance = Wrapped, over
	}
	if i == len(h.Spans)-1 {
		ends[0].Kind, ends[0].Allowance = Wrapped, over
	}
	p.Edges = []Edge{ends[0], {Name: "right", From: 1, Kind: Wrapped, Allowance: over}, ends[1], {Name: "left", From: 3, Kind: Wrapped, Allowance: over}}
	return p
}

// join adds the seams at the bows and the sleeve of each.
func (h Headliner) join(out *BowHeadliner) error {
	for i := range len(h.Spans) - 1 {
		var s sum
		w := s.take(h.Widths[i+1], askWidth(i+1))
		a, err := s.is(fmt.Sprintf("sleeve of bow %d", i+1), w, "mm", 0, "width at the bow", num(w, 1)+" mm")
		if err != nil {
			return err
		}
		out.Sleeves = append(out.Sleeves, a)
		out.Seams = append(out.Seams, Seam{ID: fmt.Sprintf("bow-%d", i+1), Name: fmt.Sprintf("at bow %d, its sleeve sewn in", i+1), Kind: Plain,
			A: []Ref{{out.Panels[i].ID, "rear"}}, B: []Ref{{out.Panels[i+1].ID, "front"}}, Match: []Match{{0.5, 0.5}}}) // the middle line
	}
	return nil
}

// GluedBoard returns the cut size of foam-backed cloth that is glued to a
// board in m²: the board and what goes round its edge, where the board is
// hollow the way through the hollow.
func GluedBoard(length, width, over, hollow Given) (Amount, error) {
	var s sum
	l := s.take(length, asked{name: "length", unit: "mm", low: 10, high: 1e4, why: "over the board, along its face"})
	w := s.take(width, asked{name: "width", unit: "mm", low: 10, high: 1e4, why: "over the board, along its face"})
	o := s.take(over, asked{name: "over", unit: "mm", low: 0, high: 300, habit: 40, has: true, why: "round the edge and on the back"})
	d := s.part(hollow, asked{name: "hollow", low: 0, high: 0.5, has: true, why: "none: the tape lay on the face"})
	v := (l*(1+d) + 2*o) * (w*(1+d) + 2*o) / 1e6
	a, err := s.is("cloth on a board", v, "m²", 3, "(length × (1 + hollow) + 2 × over) × (width × (1 + hollow) + 2 × over)",
		fmt.Sprintf("(%s + 2 × %s) × (%s + 2 × %s) mm ÷ 1,000,000", num(l*(1+d), 1), num(o, 1), num(w*(1+d), 1), num(o, 1)))
	a.Working.Inputs = append(a.Working.Inputs, figure.Input{Name: "order", Value: "from the middle out", Source: figure.TradeDefault, Note: "one face sprayed each"})
	return a.careful(vapour), err
}

// trapezoid is a piece with its long side on x and its sides sewn.
func trapezoid(id, name string, bottom, top, height float64) Piece {
	return Piece{ID: id, Name: name, Line: Line{{X: -bottom / 2, Y: 0}, {X: bottom / 2, Y: 0}, {X: top / 2, Y: height}, {X: -top / 2, Y: height}},
		Edges: []Edge{{Name: "foot", From: 0, Kind: Plain}, {Name: "right", From: 1, Kind: Plain}, {Name: "head", From: 2, Kind: Plain}, {Name: "left", From: 3, Kind: Plain}}}
}

// arc adds the points of a circle's arc about the origin.
func (l Line) arc(radius, from, to float64, chords int) Line {
	for i := range chords + 1 {
		s, c := math.Sincos(from + (to-from)*float64(i)/float64(chords))
		l = append(l, geom.Point{X: radius * c, Y: radius * s})
	}
	return l
}
