package flatten

import (
	"fmt"
	"math"
	"sort"

	"fettle/fault"
	"fettle/geom"
)

// Seam compares the two edges of a seam, each in the direction of sewing.
type Seam struct {
	Length    [2]float64
	Intervals []Interval
}

// Interval is a stretch of a seam between two notches. Ease is how much longer
// its second side is than its first, over the first.
type Interval struct {
	From, To [2]float64 // from the beginning, by side
	Ease     float64
}

// Ease is how much longer the second edge is than the first, over the first.
func (s Seam) Ease() float64 { return s.Length[1]/s.Length[0] - 1 }

// Compare lays notches on both edges of a seam in the same number, at equal
// shares of the length, no further apart than every (in the edges' unit; 0 for
// none but the ends), and tells the ease between each two.
func Compare(first, second []geom.Point, every float64) (Seam, error) {
	sides := [2][]geom.Point{first, second}
	var s Seam
	for k, side := range sides {
		s.Length[k] = lengthOf(side)
		if !(s.Length[k] > 0) || math.IsInf(s.Length[k], 0) {
			return Seam{}, fault.New(fault.Invalid, "has no length").At(fmt.Sprintf("edge %d", k+1))
		}
	}
	parts := 1
	if every > 0 {
		parts = max(1, int(math.Ceil(max(s.Length[0], s.Length[1])/every-1e-9)))
	}
	if parts > 1e6 {
		return Seam{}, fault.New(fault.TooLarge, "notches every %g make more than a million", every)
	}
	shares := make([]float64, 0, parts-1)
	for i := 1; i < parts; i++ {
		shares = append(shares, float64(i)/float64(parts))
	}
	return s.between(shares, shares), nil
}

// CompareAt is Compare with notches that are marked already: by edge, distances
// from its beginning, the same number on both.
func CompareAt(first, second []geom.Point, notches [2][]float64) (Seam, error) {
	s, err := Compare(first, second, 0)
	if err != nil {
		return Seam{}, err
	}
	if len(notches[0]) != len(notches[1]) {
		return Seam{}, fault.New(fault.Invalid, "%d notches on the first edge do not meet %d on the second", len(notches[0]), len(notches[1]))
	}
	var shares [2][]float64
	for k, list := range notches {
		if !sort.Float64sAreSorted(list) || len(list) > 0 && !(list[0] > 0 && list[len(list)-1] < s.Length[k]) {
			return Seam{}, fault.New(fault.Invalid, "notches are not in order between its ends").At(fmt.Sprintf("edge %d", k+1))
		}
		for _, at := range list {
			shares[k] = append(shares[k], at/s.Length[k])
		}
	}
	return s.between(shares[0], shares[1]), nil
}

// between returns the seam with the intervals of notches at shares of the lengths.
func (s Seam) between(first, second []float64) Seam {
	s.Intervals = nil
	var from [2]float64
	for i := range len(first) + 1 {
		to := s.Length
		if i < len(first) {
			to = [2]float64{first[i] * s.Length[0], second[i] * s.Length[1]}
		}
		ease := (to[1]-from[1])/(to[0]-from[0]) - 1
		s.Intervals, from = append(s.Intervals, Interval{From: from, To: to, Ease: ease}), to
	}
	return s
}

// lengthOf returns the length of a line of points.
func lengthOf(line []geom.Point) float64 {
	var sum float64
	for i := 1; i < len(line); i++ {
		sum += line[i-1].Distance(line[i])
	}
	return sum
}
