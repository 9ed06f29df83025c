package trim

import (
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/geom"
)

// Start is where an edge of an outline begins.
type Start struct {
	Name  string
	First int // place among the points
}

// Starts are the corners of a closed line at which edges begin, by letters:
// where it turns by 35° or more, or its first point.
func Starts(line []geom.Point) []Start {
	var list []Start
	for i := range line {
		if turnAt(line, i) > sharpTurn {
			list = append(list, Start{letters(len(list)), i})
		}
	}
	if len(list) == 0 {
		list = []Start{{letters(0), 0}}
	}
	return list
}

// Drawn gives a pattern another sewn line: anticlockwise, in the corner of its
// drawing, beginning with its first edge. Edges of a name that the pattern has
// keep their seam and allowance; others get a plain seam.
func Drawn(p build.Pattern, line []geom.Point, starts []Start) build.Pattern {
	n := len(line)
	line, starts = slices.Clone(line), slices.Clone(starts)
	if geom.RingArea(line) < 0 {
		slices.Reverse(line)
		back := make([]Start, len(starts))
		for i := range starts { // an edge begins where it ended
			back[i] = Start{starts[i].Name, n - 1 - starts[(i+1)%len(starts)].First}
		}
		starts = back
	}
	first := starts[0].First
	line = append(line[first:len(line):len(line)], line[:first]...)
	old := p.Edges
	p.Edges = nil
	for _, s := range starts {
		e := build.PatternEdge{Name: s.Name, Seam: build.Plain}
		if i := slices.IndexFunc(old, func(o build.PatternEdge) bool { return o.Name == s.Name }); i >= 0 {
			e = old[i]
		}
		e.First = (s.First - first + n) % n
		p.Edges = append(p.Edges, e)
	}
	slices.SortStableFunc(p.Edges, func(a, b build.PatternEdge) int { return a.First - b.First })
	low := geom.Polygon{Outer: line}.Bounds().Min
	for i := range line {
		line[i] = line[i].Sub(low)
	}
	p.Sewn = build.ShapeOf(geom.Polygon{Outer: line}).Outer
	return p
}

// MadeOf makes the first revision of a piece's pattern from what a recipe gives.
func MadeOf(b *build.Build, id build.PieceID, made pattern.Piece) (build.Pattern, error) {
	starts := make([]Start, len(made.Edges))
	p := build.Pattern{Piece: id, Revision: 1, Source: build.PatternSource{Kind: build.ByHand}}
	for i, e := range made.Edges {
		starts[i] = Start{e.Name, e.From}
		one := build.PatternEdge{Name: e.Name, Seam: build.SeamKind(e.Kind)}
		if e.Kind != pattern.Raw && e.Kind != pattern.Butt {
			one.Allowance = build.ShapeOf(geom.Polygon{Outer: []geom.Point{{X: e.Allowance}}}).Outer[0][0]
		}
		p.Edges = append(p.Edges, one)
	}
	p = Drawn(p, made.Line, starts)
	return p, WorkCut(b, &p)
}

// TwinOf is a pattern for the other side of the vehicle, for a piece of its own.
// Its edges keep their names; its cut shape is still to be worked out.
func TwinOf(p build.Pattern, id build.PieceID) build.Pattern {
	q := p
	q.Piece, q.Revision, q.Why = id, 1, ""
	width := p.Sewn[0][0]
	for _, s := range p.Sewn {
		width = max(width, s[0])
	}
	over := func(s build.Spot) build.Spot { return build.Spot{width - s[0], s[1]} }
	turned := func(r build.Ring) build.Ring {
		out := make(build.Ring, len(r))
		for i, s := range r {
			out[i] = over(s)
		}
		return out
	}
	n := len(p.Sewn)
	q.Sewn = turned(p.Sewn)
	slices.Reverse(q.Sewn)
	q.Edges = slices.Clone(p.Edges)
	for i := range q.Edges {
		q.Edges[i].First = n - 1 - p.Edges[(i+1)%len(p.Edges)].First
	}
	slices.SortFunc(q.Edges, func(a, b build.PatternEdge) int { return a.First - b.First })
	q.Marks, q.Lines, q.Holes = slices.Clone(p.Marks), slices.Clone(p.Lines), slices.Clone(p.Holes)
	for i := range q.Marks {
		q.Marks[i].At = over(p.Marks[i].At)
	}
	for i, l := range p.Lines {
		q.Lines[i].Points = turned(l.Points)
		if l.Reads { // lettering comes to the mirrored place and is not mirrored
			mid := middleOf(l.Points)[0]
			for k, s := range l.Points {
				q.Lines[i].Points[k] = build.Spot{s[0] + width - 2*mid, s[1]}
			}
		}
	}
	for i := range q.Holes {
		q.Holes[i].At = over(p.Holes[i].At)
	}
	q.Cut = build.Shape{}
	return q
}

// middleOf is the middle of the box about points.
func middleOf(r build.Ring) build.Spot {
	low, high := r[0], r[0]
	for _, s := range r {
		for i := range s {
			low[i], high[i] = min(low[i], s[i]), max(high[i], s[i])
		}
	}
	return build.Spot{(low[0] + high[0]) / 2, (low[1] + high[1]) / 2}
}

// EvenPleats are so many lines sewn across a pattern at equal distances, at an
// angle in degrees from x, from side to side of the box about it.
func EvenPleats(p build.Pattern, count int, angle float64) []build.PatternLine {
	s, c := math.Sincos(angle * math.Pi / 180)
	along, square := geom.Point{X: c, Y: s}, geom.Point{X: -s, Y: c}
	low, high := geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, q := range lineOf(p.Sewn) {
		a, b := q.X*along.X+q.Y*along.Y, q.X*square.X+q.Y*square.Y
		low, high = geom.Point{X: min(low.X, a), Y: min(low.Y, b)}, geom.Point{X: max(high.X, a), Y: max(high.Y, b)}
	}
	var list []build.PatternLine
	for i := range count {
		at := low.Y + (high.Y-low.Y)*float64(i+1)/float64(count+1)
		ends := []geom.Point{along.Scale(low.X).Add(square.Scale(at)), along.Scale(high.X).Add(square.Scale(at))}
		list = append(list, build.PatternLine{Kind: "pleat", Points: build.ShapeOf(geom.Polygon{Outer: ends}).Outer})
	}
	return list
}

// HolesAlong are clip holes along edges of a pattern, and how many have no room.
func HolesAlong(b *build.Build, p build.Pattern, clips pattern.Clips) ([]build.PatternHole, int, error) {
	piece := PatternOf(b, p, false)
	piece.Pleats, piece.Clips = nil, &clips
	at, left, err := piece.Holes()
	if err != nil {
		return nil, 0, err
	}
	across := build.ShapeOf(geom.Polygon{Outer: []geom.Point{{X: clips.Diameter}}}).Outer[0][0]
	var list []build.PatternHole
	for _, s := range build.ShapeOf(geom.Polygon{Outer: at}).Outer {
		list = append(list, build.PatternHole{At: s, Diameter: across})
	}
	return list, left, nil
}
