package geom

import "math"

// maxPieces bounds how finely one curve is cut, whatever the tolerance.
const maxPieces = 512

// Flatten returns one polyline a stroke. A polyline starts with the stroke's
// start; the polyline of a closed stroke does not repeat it at the end. No
// point of the true curve is further than tolerance from its polyline, as
// long as 512 pieces a curve are enough for that; a tolerance of zero or less
// asks for the finest cut.
func (p Path) Flatten(tolerance float64) [][]Point {
	lines := make([][]Point, 0, len(p.rings))
	for _, r := range p.rings {
		line := []Point{r.start}
		r.pieces(false, func(from Point, s seg) { line = s.flatten(line, from, tolerance) })
		if n := len(line); r.closed && n > 1 && line[n-1] == r.start {
			line = line[:n-1]
		}
		lines = append(lines, line)
	}
	return lines
}

func (s seg) flatten(line []Point, from Point, tolerance float64) []Point {
	n := s.cuts(from, tolerance)
	for i := 1; i < n; i++ {
		line = append(line, s.at(from, float64(i)/float64(n)))
	}
	return append(line, s.end)
}

// cuts returns how many equal steps of t keep the chords within tolerance.
// A chord over a step h strays by at most h² |B”| / 8, and |B”| of a cubic
// is at most 6 times the larger second difference of its control points.
func (s seg) cuts(from Point, tolerance float64) int {
	if s.straight {
		return 1
	}
	a := from.Sub(s.c1).Add(s.c2.Sub(s.c1))
	b := s.c1.Sub(s.c2).Add(s.end.Sub(s.c2))
	bend := 6 * max(math.Hypot(a.X, a.Y), math.Hypot(b.X, b.Y))
	if tolerance <= 0 {
		return maxPieces
	}
	n := math.Ceil(math.Sqrt(bend / (8 * tolerance)))
	return int(min(max(n, 1), maxPieces))
}

// at returns the point of the piece at t in 0 to 1.
func (s seg) at(from Point, t float64) Point {
	a, b, c := from.lerp(s.c1, t), s.c1.lerp(s.c2, t), s.c2.lerp(s.end, t)
	return a.lerp(b, t).lerp(b.lerp(c, t), t)
}

// slope returns the derivative of the piece at t.
func (s seg) slope(from Point, t float64) Point {
	a, b, c := s.c1.Sub(from), s.c2.Sub(s.c1), s.end.Sub(s.c2)
	return a.lerp(b, t).lerp(b.lerp(c, t), t).Scale(3)
}

// Bounds returns the smallest upright box around the path: curves count with
// their own reach, not with that of their control points. An empty path has
// the zero box.
func (p Path) Bounds() Box {
	if p.Empty() {
		return Box{}
	}
	box := Box{p.rings[0].start, p.rings[0].start}
	for _, r := range p.rings {
		box = box.with(r.start)
		r.pieces(false, func(from Point, s seg) { box = s.bounds(box, from) })
	}
	return box
}

func (s seg) bounds(box Box, from Point) Box {
	box = box.with(s.end)
	if s.straight {
		return box
	}
	for _, t := range turns(from.X, s.c1.X, s.c2.X, s.end.X) {
		box = box.with(s.at(from, t))
	}
	for _, t := range turns(from.Y, s.c1.Y, s.c2.Y, s.end.Y) {
		box = box.with(s.at(from, t))
	}
	return box
}

// turns returns the t strictly inside 0 to 1 where a cubic coordinate stands
// still: the roots of a t² + b t + c, a third of its derivative.
func turns(p0, p1, p2, p3 float64) []float64 {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	var roots []float64
	keep := func(t float64) {
		if t > 0 && t < 1 {
			roots = append(roots, t)
		}
	}
	d := float64(b*b) - float64(4*a*c)
	if d < 0 {
		return nil
	}
	// The stable form: no difference of nearly equal numbers.
	q := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	if a != 0 {
		keep(q / a)
	}
	if q != 0 {
		keep(c / q)
	}
	return roots
}
