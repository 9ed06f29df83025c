package project_test

import (
	"context"
	"fmt"

	"fettle/engine/schedule/project"
)

// Two hands, four jobs of which the last waits for the first two.
func Example() {
	p := project.Problem{
		Duration: []int32{3, 2, 4, 2},
		Demand:   [][]int32{{1}, {1}, {1}, {2}},
		Capacity: []int32{2},
		Succ:     [][]int32{{3}, {3}, nil, nil},
	}
	r, err := project.Solve(context.Background(), p, project.Options{Schedules: 100})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Starts, r.Makespan, r.Status)
	fmt.Println(project.Check(p, []int32{0, 0, 3, 3}))
	// Output:
	// [2 0 0 5] 7 proved best
	// activity 2: starts at 3, when 3 units of resource 0 are held and there are 2
}
