package sparse_test

import (
	"fmt"

	"fettle/engine/sparse"
)

// A chain of three springs, held at its first link and pulled by one at its
// last; then the same chain, twice as stiff.
func Example() {
	entries := []sparse.Entry{{0, 0, 2}, {1, 1, 2}, {2, 2, 1}, {1, 0, -1}, {2, 1, -1}}
	m, slots, err := sparse.AssembleSlots(3, entries)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := sparse.Analyse(m)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := s.Factor(m)
	if err != nil {
		fmt.Println(err)
		return
	}
	x := make([]float64, 3)
	f.Solve(x, []float64{0, 0, 1})
	fmt.Printf("%.3f\n", x)

	clear(m.Value)
	for k, e := range entries {
		m.Value[slots[k]] += 2 * e.Value
	}
	if err := f.Refactor(m); err != nil {
		fmt.Println(err)
		return
	}
	f.Solve(x, []float64{0, 0, 1})
	fmt.Printf("%.3f\n", x)
	// Output:
	// [1.000 2.000 3.000]
	// [0.500 1.000 1.500]
}
