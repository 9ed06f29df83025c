package lags_test

import (
	"context"
	"fmt"

	"fettle/engine/schedule/lags"
)

// Two coats in one booth, the second 4 to 6 hours after the first began, and a
// job of 3 hours that needs the booth as well.
func Example() {
	p := lags.Problem{
		Duration: []int{1, 1, 3},
		Demand:   [][]int{{1}, {1}, {1}},
		Capacity: []int{1},
		Lags: []lags.Lag{
			{From: 0, To: 1, Min: 4},
			{From: 1, To: 0, Min: -6},
		},
	}
	r, err := lags.Solve(context.Background(), p, lags.Options{Steps: 1000})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Status == lags.ProvedBest, r.Makespan, r.Starts)

	p.Lags[1].Min = -3 // within 3 hours, but not before 4
	r, _ = lags.Solve(context.Background(), p, lags.Options{Steps: 1000})
	fmt.Println(r.Status == lags.Infeasible, r.Why.Cycle)
	// Output:
	// true 5 [0 4 1]
	// true [1 0]
}
