package trim

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/flatten/pieces"
	"fettle/fault"
	"fettle/geom"
)

// sharpTurn is where an outline has a corner, in radians: 35°.
const sharpTurn = 35 * math.Pi / 180

// FlatPart is one piece of a flattened surface: its sewn line, anticlockwise,
// with the corners at which its edges begin, and its holes.
type FlatPart struct {
	Line    []geom.Point
	Corners []int
	Holes   [][]geom.Point
}

// Parts are the pieces that a surface was cut into, the largest first.
func (f Flattened) Parts() []FlatPart {
	flat := f.Result.Flat
	var parts []FlatPart
	ends := map[int32]bool{} // of cuts, by vertex of the surface
	for _, c := range f.Result.Cuts {
		ends[c[0]], ends[c[len(c)-1]] = true, true
	}
	for _, loops := range pieces.Loops(flat) {
		part := FlatPart{Line: pieces.Ring(flat, loops[0])}
		for i, v := range loops[0] {
			if ends[flat.Source[v]] || turnAt(part.Line, i) > sharpTurn {
				part.Corners = append(part.Corners, i)
			}
		}
		if len(part.Corners) == 0 {
			part.Corners = []int{0}
		}
		for _, hole := range loops[1:] {
			part.Holes = append(part.Holes, pieces.Ring(flat, hole))
		}
		parts = append(parts, part)
	}
	return parts
}

// turnAt is by how much a closed line turns at a point, in size.
func turnAt(line []geom.Point, i int) float64 {
	n := len(line)
	a, b := line[i].Sub(line[(i+n-1)%n]), line[(i+1)%n].Sub(line[i])
	return math.Abs(math.Atan2(a.Cross(b), a.X*b.X+a.Y*b.Y))
}

// FlatPattern makes the next revision of a piece's pattern from one part of a
// flattened surface, with a plain seam all round, in the corner of its drawing.
func FlatPattern(b *build.Build, id build.PieceID, part FlatPart, kind build.SeamKind) (build.Pattern, error) {
	line := slices.Clone(part.Line)
	if geom.RingArea(line) < 0 {
		return build.Pattern{}, fault.New(fault.Internal, "the outline runs the wrong way round")
	}
	p := build.Pattern{Piece: id, Revision: 1, Source: build.PatternSource{Kind: build.FromSurface}}
	if old := b.Pattern(id); old != nil {
		p.Revision = old.Revision + 1
		p.Loss = old.Loss
	}
	// The first edge begins at the first corner.
	first := part.Corners[0]
	turn := func(i int) int { return (i - first + len(line)) % len(line) }
	ring := append(slices.Clone(line[first:]), line[:first]...)
	for n, c := range part.Corners {
		p.Edges = append(p.Edges, build.PatternEdge{Name: letters(n), First: turn(c), Seam: kind})
	}
	low := geom.Point{X: math.Inf(1), Y: math.Inf(1)}
	for _, q := range ring {
		low = geom.Point{X: min(low.X, q.X), Y: min(low.Y, q.Y)}
	}
	move := func(list []geom.Point) build.Ring {
		out := make([]geom.Point, len(list))
		for i, q := range list {
			out[i] = q.Sub(low)
		}
		return build.ShapeOf(geom.Polygon{Outer: out}).Outer
	}
	p.Sewn = move(ring)
	for i, h := range part.Holes {
		p.Lines = append(p.Lines, build.PatternLine{Name: fmt.Sprintf("hole %d", i+1), Kind: "cut", Points: move(h), Closed: true})
	}
	return p, WorkCut(b, &p)
}

// letters are a, b, … z, aa, …
func letters(n int) string {
	name := ""
	for ; n >= 0; n = n/26 - 1 {
		name = string(rune('a'+n%26)) + name
	}
	return name
}

// WorkCut works the cut shape of a pattern out from its sewn line, edges and
// allowances.
func WorkCut(b *build.Build, p *build.Pattern) error {
	flat, err := PatternOf(b, *p, false).Flat()
	if err != nil {
		return err
	}
	cut, err := flat.Cut(0)
	if err != nil {
		return err
	}
	p.Cut = build.ShapeOf(geom.Polygon{Outer: cut.Line})
	return nil
}
