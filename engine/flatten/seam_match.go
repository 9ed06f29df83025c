package flatten

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Matched is both edges of a seam made to go together, and what it took.
type Matched struct {
	Edges  [2][]geom.Point
	Before Seam
	After  Seam
	Moved  [2]float64 // the farthest that a vertex was moved, by side
	RMS    [2]float64 // root mean square of what vertices were moved
	Strain [2]float64 // most that an interval was lengthened or shortened, as a share
}

// Match makes the lengths of both edges of a seam agree between each two
// notches to within (in the edges' unit), no further than that needs: the first
// takes share of what is too much, from 0 to 1, the second the rest. Directions
// along an edge stay, its parts are lengthened or shortened, and the edge is then
// laid where its vertices are moved least (by least squares, turned and moved as
// a whole). Notches are as in Compare.
//
// The pieces' insides do not follow by themselves: see Follow.
func Match(first, second []geom.Point, every, within, share float64) (Matched, error) {
	if !(within >= 0) || !(share >= 0 && share <= 1) {
		return Matched{}, fault.New(fault.Invalid, "a tolerance of %g and a share of %g do not match a seam", within, share)
	}
	before, err := Compare(first, second, every)
	if err != nil {
		return Matched{}, err
	}
	m := Matched{Before: before}
	var notches [2][]float64 // by side, where they come to lie
	for k, edge := range [2][]geom.Point{first, second} {
		grow := make([]float64, len(before.Intervals))
		var end float64
		for i, at := range before.Intervals {
			long := at.To[k] - at.From[k]
			grow[i] = 1 + at.gives(k, within, share)/long
			m.Strain[k] = max(m.Strain[k], math.Abs(grow[i]-1))
			if i > 0 {
				notches[k] = append(notches[k], end)
			}
			end += float64(long * grow[i])
		}
		m.Edges[k] = laidOver(lengthened(edge, before.Intervals, k, grow), edge)
		var sum float64
		for i, p := range m.Edges[k] {
			d := p.Distance(edge[i])
			m.Moved[k] = max(m.Moved[k], d)
			sum += float64(d * d)
		}
		m.RMS[k] = math.Sqrt(sum / float64(len(edge)))
	}
	m.After, err = CompareAt(m.Edges[0], m.Edges[1], notches)
	return m, err
}

// gives returns by how much a side of the interval is to grow, the first taking
// a share of what the second is longer by.
func (i Interval) gives(side int, within, share float64) float64 {
	more := (i.To[1] - i.From[1]) - (i.To[0] - i.From[0])
	more = math.Copysign(max(0, math.Abs(more)-within), more)
	if side == 0 {
		return share * more
	}
	return (share - 1) * more
}

// lengthened returns an edge whose parts between notches are longer by factors,
// directions kept, from where it began.
func lengthened(edge []geom.Point, intervals []Interval, side int, factors []float64) []geom.Point {
	out := []geom.Point{edge[0]}
	var gone float64
	at := 0
	for i := 1; i < len(edge); i++ {
		long := edge[i-1].Distance(edge[i])
		var grown float64
		for from, left := gone, long; left > 0; {
			part := left
			if at < len(intervals)-1 {
				part = min(part, max(0, intervals[at].To[side]-from))
			}
			grown += float64(part * factors[at])
			if from, left = from+part, left-part; left > 0 {
				at++
			}
		}
		gone += long
		step := edge[i].Sub(edge[i-1])
		if long > 0 {
			step = step.Scale(grown / long)
		}
		out = append(out, out[i-1].Add(step))
	}
	return out
}

// laidOver turns and moves a line as a whole to where its points are nearest
// those of another, by least squares (Procrustes).
func laidOver(line, over []geom.Point) []geom.Point {
	a, b := middle(line), middle(over)
	var dot, cross float64
	for i := range line {
		p, q := line[i].Sub(a), over[i].Sub(b)
		dot += float64(p.X*q.X) + float64(p.Y*q.Y)
		cross += p.Cross(q)
	}
	c, s := 1.0, 0.0
	if n := math.Hypot(dot, cross); n > 0 {
		c, s = dot/n, cross/n
	}
	out := make([]geom.Point, len(line))
	for i := range line {
		p := line[i].Sub(a)
		out[i] = b.Add(geom.Point{X: float64(c*p.X) - float64(s*p.Y), Y: float64(s*p.X) + float64(c*p.Y)})
	}
	return out
}

// middle returns the mean of points.
func middle(points []geom.Point) geom.Point {
	var sum geom.Point
	for _, p := range points {
		sum = sum.Add(p)
	}
	return sum.Scale(1 / float64(len(points)))
}
