package shopfile_test

import (
	"context"
	"fmt"
	"os"

	"fettle/engine/schedule"
	"fettle/engine/schedule/shopfile"
)

// A week with a day in the booth: coats follow one another on one day, and dust
// has settled before them.
func Example() {
	text, err := os.Open("testdata/sprayweek.json")
	if err != nil {
		panic(err)
	}
	defer text.Close()
	f, err := shopfile.Read(text)
	if err != nil {
		panic(err)
	}
	plan, err := schedule.Solve(context.Background(), f.Problem, schedule.Options{Seed: 1, Schedules: 500})
	if err != nil {
		panic(err)
	}
	for j, a := range f.Problem.Activities {
		if a.Group == "paint" && a.Kind == schedule.Session {
			fmt.Println(f.Moment(plan.Times[j].Start), a.ID)
		}
	}
	fmt.Println(f.Moment(plan.Makespan), "done")
	// Output:
	// 2026-10-09 08:00 colour, coat 1
	// 2026-10-09 09:20 colour, coat 2
	// 2026-10-09 10:50 clear
	// 2026-10-12 16:00 done
}
