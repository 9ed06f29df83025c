package geom

import "math"

// Area returns the area inside the path, in squared units of its
// coordinates. Open strokes count as if closed. Rings that run the other way
// round are holes and are taken off.
func (p Path) Area() float64 {
	a, _ := p.moments()
	return math.Abs(a)
}

// Centroid returns the point at which the path's area balances. For a path
// without area it is the middle of its box.
func (p Path) Centroid() Point {
	a, m := p.moments()
	box := p.Bounds()
	middle := box.Min.lerp(box.Max, 0.5)
	if math.Abs(a) <= 1e-12*float64(box.Width()*box.Height()) || a == 0 {
		return middle
	}
	return middle.Add(m.Scale(1 / a))
}

// gauss5 are the abscissae and weights of five-point Gauss-Legendre
// integration over 0 to 1: exact for polynomials up to degree 9, and the
// integrands below reach degree 8.
var gauss5 = [5][2]float64{
	{0.046910077030668004, 0.11846344252809454},
	{0.23076534494715845, 0.23931433524968324},
	{0.5, 0.28444444444444444},
	{0.76923465505284155, 0.23931433524968324},
	{0.953089922969332, 0.11846344252809454},
}

// moments returns the signed area and the first moments about the middle of
// the box, by Green's theorem: A = ½∮(x dy − y dx), Mx = ½∮x² dy,
// My = −½∮y² dx.
func (p Path) moments() (area float64, m Point) {
	box := p.Bounds()
	middle := box.Min.lerp(box.Max, 0.5)
	for _, r := range p.rings {
		r.pieces(true, func(from Point, s seg) {
			for _, g := range gauss5 {
				q, d := s.at(from, g[0]).Sub(middle), s.slope(from, g[0])
				area += float64(g[1] * q.Cross(d) / 2)
				m.X += float64(g[1] * q.X * q.X * d.Y / 2)
				m.Y -= float64(g[1] * q.Y * q.Y * d.X / 2)
			}
		})
	}
	return area, m
}

// Contains says whether q lies inside the path by the non-zero rule: holes
// run the other way round. Open strokes count as if closed. Along curves the
// answer may be wrong within a ten-thousandth of the path's size of the edge.
func (p Path) Contains(q Point) bool {
	box := p.Bounds()
	if !box.Contains(q) {
		return false
	}
	winding := 0
	for _, line := range p.Flatten(max(box.Width(), box.Height()) / 10_000) {
		winding += windingOf(line, q)
	}
	return winding != 0
}

// windingOf counts how often the closed polyline runs round q anticlockwise,
// by the edges that cross the ray from q towards +x.
func windingOf(line []Point, q Point) int {
	winding := 0
	for i, a := range line {
		b := line[(i+1)%len(line)]
		side := b.Sub(a).Cross(q.Sub(a))
		if a.Y <= q.Y && b.Y > q.Y && side > 0 {
			winding++
		}
		if a.Y > q.Y && b.Y <= q.Y && side < 0 {
			winding--
		}
	}
	return winding
}

// Distance returns how far q is from the path: zero inside, else the length
// to the nearest point of its edge, to within a ten-thousandth of the path's
// size. The distance to an empty path is infinite.
func (p Path) Distance(q Point) float64 {
	if p.Contains(q) {
		return 0
	}
	box := p.Bounds()
	best := math.Inf(1)
	for i, line := range p.Flatten(max(box.Width(), box.Height()) / 10_000) {
		for j, a := range line {
			if j+1 < len(line) {
				best = min(best, toSegment(q, a, line[j+1]))
			} else if p.rings[i].closed || len(line) == 1 {
				best = min(best, toSegment(q, a, line[0]))
			}
		}
	}
	return best
}

// toSegment returns the distance from q to the straight piece from a to b.
func toSegment(q, a, b Point) float64 {
	d := b.Sub(a)
	square := float64(d.X*d.X) + float64(d.Y*d.Y)
	if square == 0 {
		return q.Distance(a)
	}
	v := q.Sub(a)
	t := (float64(v.X*d.X) + float64(v.Y*d.Y)) / square
	return q.Distance(a.lerp(b, min(max(t, 0), 1)))
}
