package schedule

import (
	"cmp"
	"math"
	"slices"
)

// momentsOf are the mean and the standard deviation of a list.
func momentsOf(list []Minute) (mean, deviation float64) {
	for _, x := range list {
		mean += float64(x)
	}
	mean /= float64(len(list))
	squares := 0.0
	for _, x := range list {
		squares += float64((float64(x) - mean) * (float64(x) - mean))
	}
	return mean, math.Sqrt(squares / float64(len(list)))
}

// ranks are twice the ranks in a list, from 0; equals share the mean of theirs.
func ranks(list []Minute) []Minute {
	by := natural(len(list))
	slices.SortFunc(by, func(a, b int) int { return cmp.Compare(list[a], list[b]) })
	rank := make([]Minute, len(list))
	for from, to := 0, 0; from < len(by); from = to {
		for to = from; to < len(by) && list[by[to]] == list[by[from]]; to++ {
		}
		for _, i := range by[from:to] {
			rank[i] = Minute(from + to - 1)
		}
	}
	return rank
}

// correlation is that of two lists as they are; of ranks it is Spearman's.
func correlation(a, b []Minute) float64 {
	meanA, devA := momentsOf(a)
	meanB, devB := momentsOf(b)
	sum := 0.0
	for i := range a {
		sum += float64((float64(a[i]) - meanA) * (float64(b[i]) - meanB))
	}
	return sum / float64(len(a)) / (devA * devB)
}
