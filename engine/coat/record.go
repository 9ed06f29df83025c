package coat

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Bounds of films in µm (trade defaults).
const (
	ClearKept  = 40.0  // clear that must be left after polishing, where it is thinnest
	PolishMost = 20.0  // what all polishing may take
	StripOver  = 305.0 // a build thicker than this comes off first
)

// Film is film readings in µm taken together.
type Film struct {
	N                       int
	Low, High, Mean, Spread float64 // µm; spread is the standard deviation, 0 for one reading
}

// Measure returns the low, high, mean and spread of readings in µm.
func Measure(readings []float64) (Film, error) {
	if len(readings) == 0 {
		return Film{}, fault.New(fault.Invalid, "no readings").At("film").WithHint("read five places of a panel, edges too")
	}
	f := Film{N: len(readings), Low: math.Inf(1), High: math.Inf(-1)}
	for i, r := range readings {
		if err := within(fmt.Sprintf("reading %d", i+1), r, 0, mostFilm, "µm", "readings are in µm: 1 mil is 25.4 µm"); err != nil {
			return Film{}, err
		}
		f.Low, f.High, f.Mean = min(f.Low, r), max(f.High, r), f.Mean+r/float64(len(readings))
	}
	if f.N > 1 {
		sum := 0.0
		for _, r := range readings {
			sum += (r - f.Mean) * (r - f.Mean)
		}
		f.Spread = math.Sqrt(sum / float64(f.N-1))
	}
	return f, nil
}

// Between returns the film of one layer from readings before and after it at
// the same places.
func Between(before, after []float64) (Film, error) {
	if len(before) != len(after) {
		return Film{}, fault.New(fault.Invalid, "%d readings before, %d after", len(before), len(after)).At("film").WithHint("read the same places before and after, marked with tape beside them")
	}
	diff := make([]float64, len(after))
	for i := range after {
		if diff[i] = after[i] - before[i]; diff[i] < 0 {
			return Film{}, fault.New(fault.Invalid, "%g µm after, %g before", after[i], before[i]).At(fmt.Sprintf("place %d", i+1)).WithHint("a layer cannot make the film thinner: read again, or it was sanded")
		}
	}
	return Measure(diff)
}

// Against returns in words where the readings leave a layer's least and most
// in µm; nothing where they keep it.
func (f Film) Against(least, most float64) []string {
	var list []string
	if f.Low < least {
		list = append(list, fmt.Sprintf("thinnest %.0f µm, %.0f under the least of %g", f.Low, least-f.Low, least))
	}
	if f.High > most {
		list = append(list, fmt.Sprintf("thickest %.0f µm, %.0f over the most of %g", f.High, f.High-most, most))
	}
	return list
}

// PolishLeft returns how many µm of clear may still be taken where it is
// thinnest: down to 40, and no more than 20 in all, of which some are gone
// already. None is 0.
func (f Film) PolishLeft(taken float64) float64 {
	return max(0, min(f.Low-ClearKept, PolishMost-taken))
}

// Layer is what a film of a kind should come to: dry µm in all and a coat, and
// how many coats.
type Layer struct {
	Name                  string
	Least, Most           float64 // µm, all coats
	CoatLeast, CoatMost   float64 // µm, a coat
	CoatsLeast, CoatsMost int
}

// Layers returns trade defaults by kind; the maker's sheet replaces each.
func Layers() []Layer {
	return []Layer{
		{"epoxy primer on steel", 40, 60, 20, 30, 2, 2},
		{"high build before blocking", 100, 200, 35, 50, 2, 4},
		{"high build after blocking", 50, 100, 35, 50, 2, 4},
		{"sealer", 15, 30, 15, 30, 1, 2},
		{"base", 15, 25, 6, 10, 2, 4},
		{"pearl mid coat", 10, 20, 4, 7, 2, 4},
		{"candy mid coat", 20, 40, 6, 8, 4, 8},
		{"clear", 51, 64, 20, 35, 2, 3},
		{"two-pack single stage", 40, 60, 15, 15, 2, 3},
	}
}
