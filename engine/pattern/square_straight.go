package pattern

import (
	"math"
	"slices"

	"fettle/geom"
)

// least is the turn between two sides below which they are taken for chords of
// a curve.
const least = 20 * math.Pi / 180

// straightened keeps the points that the outline cannot do without: from two
// points far apart, the furthest from the line between is kept, and so on
// [DouglasPeucker1973]. Where that leaves a side that is short, or runs on into
// the next as the chord of a curve does, the points in it stay.
func (q Squaring) straightened(old Line) (kept []int) {
	n := len(old)
	start := furthest(old, geom.Ring(old).Centroid())
	line := slices.Concat(old[start:], old[:start])
	far := furthest(line, line[0])
	keep := []int{0}
	var split func(i, j int)
	split = func(i, j int) {
		worst, at := q.Straight, -1
		for k := i + 1; k < j; k++ {
			if d := geom.SegmentDistance(line[k], line[k], line[i], line[j%n]); d > worst {
				worst, at = d, k
			}
		}
		if at < 0 {
			keep = append(keep, j)
			return
		}
		split(i, at)
		split(at, j)
	}
	split(0, far)
	split(far, n)
	m := len(keep) - 1 // the last is the first again
	turn := make([]float64, m)
	for i := range m {
		a, b := line[keep[i]].Sub(line[keep[(i+m-1)%m]]), line[keep[i+1]%n].Sub(line[keep[i]])
		turn[i] = math.Abs(math.Atan2(a.Cross(b), dot(a, b)))
	}
	for i := range m {
		a, b := keep[i], keep[i+1]
		for k := a; k < b; k++ {
			if k == a || m < 3 || line[a].Distance(line[b%n]) < q.Side || turn[i] < least || turn[(i+1)%m] < least {
				kept = append(kept, (k+start)%n)
			}
		}
	}
	slices.Sort(kept)
	return kept
}

func furthest(line Line, from geom.Point) int {
	far := 0
	for i, p := range line {
		if p.Distance(from) > line[far].Distance(from) {
			far = i
		}
	}
	return far
}
