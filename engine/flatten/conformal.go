package flatten

import (
	"math"

	"fettle/geom"
)

// Boundary first flattening (Sawhney, Crane 2017) with the lengths of the
// boundary kept: of all maps that keep angles the one that changes areas least.
//
// The log scale that takes all curvature out of the inside and is 0 on the
// boundary says how much the boundary's turning changes; the boundary is laid
// out by that turning and its own lengths, closed by the least change of
// lengths, and the inside follows as weighted means.

// conformal returns flat positions and the log scale by vertex, pattern over
// surface. Positions may turn faces over, and the boundary may cross itself.
func conformal(s *sheet, l *laplace, boundary []int32, stats *Stats) (at []geom.Point, scale []float64) {
	defect := defects(s, boundary)
	curvature := make([]float64, s.vertices)
	for v := range curvature {
		curvature[v] = -defect[v]
	}
	scale = l.solve(curvature, stats)
	bent := l.difference(scale)
	turn, long := make([]float64, len(boundary)), make([]float64, len(boundary))
	lengths := edgeLengths(s, boundary)
	for i, v := range boundary {
		turn[i] = defect[v] + bent[v]
		long[i] = lengths[i]
	}
	at = make([]geom.Point, s.vertices)
	for i, p := range outline(turn, long) {
		at[boundary[i]] = p
	}
	l.extend(at, stats)
	return at, scale
}

// defects returns by vertex what the angles of its faces lack of a whole turn,
// on the boundary of a half.
func defects(s *sheet, boundary []int32) []float64 {
	d := make([]float64, s.vertices)
	for v := range d {
		d[v] = 2 * math.Pi
	}
	for _, v := range boundary {
		d[v] = math.Pi
	}
	for i, f := range s.faces {
		r := &s.rest[i]
		long, x, y := 1/r.A, -r.B/float64(r.A*r.C), 1/r.C
		first, second := math.Atan2(y, x), math.Atan2(y, long-x)
		d[f[0]] -= first
		d[f[1]] -= second
		d[f[2]] -= math.Pi - first - second
	}
	return d
}

// edgeLengths returns how long the edge from each boundary vertex to the next
// is on the surface.
func edgeLengths(s *sheet, boundary []int32) []float64 {
	place := make(map[int32]int, len(boundary))
	for i, v := range boundary {
		place[v] = i
	}
	long := make([]float64, len(boundary))
	for i, f := range s.faces {
		r := &s.rest[i]
		x, y := -r.B/float64(r.A*r.C), 1/r.C
		sides := [3]float64{1 / r.A, math.Hypot(x-1/r.A, y), math.Hypot(x, y)}
		for c := range 3 {
			if b, ok := place[f[c]]; ok && boundary[(b+1)%len(boundary)] == f[(c+1)%3] {
				long[b] = sides[c]
			}
		}
	}
	return long
}

// outline lays out a closed curve by its turning at each corner and the length
// of each side, lengths changed as little as closes it, weighed by one over
// the length. Corner 0 lies at the origin and side 0 along x.
func outline(turn, long []float64) []geom.Point {
	ways := make([]geom.Point, len(long))
	var angle, xx, xy, yy float64
	var gap geom.Point
	for i := range long {
		if i > 0 {
			angle += turn[i]
		}
		w := geom.Point{X: math.Cos(angle), Y: math.Sin(angle)}
		ways[i] = w
		gap = geom.Point{X: gap.X + float64(long[i]*w.X), Y: gap.Y + float64(long[i]*w.Y)}
		xx += float64(long[i] * float64(w.X*w.X))
		xy += float64(long[i] * float64(w.X*w.Y))
		yy += float64(long[i] * float64(w.Y*w.Y))
	}
	det := float64(xx*yy) - float64(xy*xy)
	kx := (float64(yy*gap.X) - float64(xy*gap.Y)) / det
	ky := (float64(xx*gap.Y) - float64(xy*gap.X)) / det
	points := make([]geom.Point, len(long))
	var p geom.Point
	for i, w := range ways {
		points[i] = p
		side := float64(long[i] * (1 - float64(kx*w.X) - float64(ky*w.Y)))
		p = geom.Point{X: p.X + float64(side*w.X), Y: p.Y + float64(side*w.Y)}
	}
	return points
}

// round lays the boundary on a circle as long as itself, the inside as
// weighted means. With no weight below zero no face can be turned over (Tutte
// 1963), but by rounding.
func round(s *sheet, l *laplace, boundary []int32, stats *Stats) []geom.Point {
	long := edgeLengths(s, boundary)
	var whole float64
	for _, d := range long {
		whole += d
	}
	at := make([]geom.Point, s.vertices)
	var gone float64
	for i, v := range boundary {
		angle := 2 * math.Pi * gone / whole
		at[v] = geom.Point{X: math.Cos(angle) * whole / (2 * math.Pi), Y: math.Sin(angle) * whole / (2 * math.Pi)}
		gone += long[i]
	}
	l.extend(at, stats)
	return at
}
