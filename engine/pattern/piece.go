package pattern

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Most is what one pattern may hold.
const (
	MostPoints    = 20_000
	mostAllowance = 200 // mm
)

// Check holds a piece to the rules that everything here relies on: a simple
// outline that runs anticlockwise, edges that divide it in rising order, each
// with a name of its own, a known kind and an allowance of 0 to 200 mm.
func (p Piece) Check() error {
	if p.ID == "" {
		return fault.New(fault.Invalid, "a piece without an ID").At("piece")
	}
	return fault.Within(p.check(), "piece "+p.ID)
}

func (p Piece) check() error {
	if len(p.Line) > MostPoints {
		return fault.New(fault.TooLarge, "its outline has %d points, at most %d", len(p.Line), MostPoints).At("line").WithHint("leave out points that lie nearly on a line")
	}
	if err := geom.Ring(p.Line).Check(); err != nil {
		return fault.Within(err, "line")
	}
	if geom.RingArea(p.Line) < 0 {
		return fault.New(fault.Invalid, "its outline runs clockwise").At("line").WithHint("turn the order of its points round; seen from the face it runs anticlockwise")
	}
	if len(p.Edges) == 0 {
		return fault.New(fault.Invalid, "its outline is not divided into edges").At("edges").WithHint("one edge from point 0 goes all the way round")
	}
	seen := map[string]bool{}
	for i, e := range p.Edges {
		at := "edge " + e.Name
		_, known := habitOf(e.Kind)
		switch {
		case e.Name == "" || seen[e.Name]:
			return fault.New(fault.Invalid, "two edges, or none, of the name %q", e.Name).At("edges")
		case !known:
			return fault.New(fault.Invalid, "no kind of seam %q", e.Kind).At(at).WithHint("raw, butt, plain, top-stitched, french, piped, hem, wrapped, sleeve")
		case e.From < 0 || e.From >= len(p.Line) || i > 0 && e.From <= p.Edges[i-1].From:
			return fault.New(fault.Invalid, "it starts at point %d", e.From).At(at).WithHint("edges start at points of the outline, each further along than the one before")
		case !(e.Allowance >= 0 && e.Allowance <= mostAllowance):
			return fault.New(fault.Invalid, "an allowance of %g mm", e.Allowance).At(at).WithHint("allowances are 0 to 200 mm, outwards")
		case (e.Kind == Raw || e.Kind == Butt) && e.Allowance != 0:
			return fault.New(fault.Invalid, "a %s edge with an allowance", e.Kind).At(at).WithHint("it is cut on the line; name another kind where something is left outside it")
		}
		seen[e.Name] = true
	}
	return nil
}

// edge returns the place of an edge in the list, -1 where there is none.
func (p Piece) edge(name string) int {
	for i, e := range p.Edges {
		if e.Name == name {
			return i
		}
	}
	return -1
}

// side returns the points of an edge, both its ends included.
func (p Piece) side(edge int) Line {
	n := len(p.Line)
	from, to := p.Edges[edge].From, p.Edges[(edge+1)%len(p.Edges)].From
	count := (to - from + n) % n
	if count == 0 {
		count = n
	}
	out := make(Line, count+1)
	for i := range out {
		out[i] = p.Line[(from+i)%n]
	}
	return out
}

// allowances returns what is left outside each straight side of the outline,
// by the point at which the side starts.
func (p Piece) allowances() []float64 {
	n := len(p.Line)
	out := make([]float64, n)
	for k, e := range p.Edges {
		for i := range len(p.side(k)) - 1 {
			out[(e.From+i)%n] = e.Allowed()
		}
	}
	return out
}

// Length returns how long the row is, mm; as an outline its closing side does
// not count.
func (l Line) Length() float64 {
	sum := 0.0
	for i := 1; i < len(l); i++ {
		sum += l[i].Distance(l[i-1])
	}
	return sum
}

// at returns the point a way of s along the row, and the direction there.
func (l Line) at(s float64) (at, heading geom.Point) {
	for i := 1; i < len(l); i++ {
		d := l[i].Distance(l[i-1])
		if s <= d || i == len(l)-1 {
			heading = l[i].Sub(l[i-1]).Scale(1 / d)
			return l[i-1].Add(heading.Scale(math.Min(s, d))), heading
		}
		s -= d
	}
	return l[0], geom.Point{X: 1}
}

// outward is to the right of a heading: outlines run anticlockwise.
func outward(heading geom.Point) geom.Point { return geom.Point{X: heading.Y, Y: -heading.X} }

func dot(a, b geom.Point) float64 { return float64(a.X*b.X) + float64(a.Y*b.Y) }

// step returns p moved by k times a direction.
func step(p, dir geom.Point, k float64) geom.Point {
	return geom.Point{X: p.X + float64(dir.X*k), Y: p.Y + float64(dir.Y*k)}
}
