package schedule_test

import (
	"context"
	"fmt"

	"fettle/engine/schedule"
)

// sprayed is an hour of paint and a day of sanding for one pair of hands.
func sprayed() schedule.Problem {
	return schedule.Problem{
		Calendars: []schedule.Calendar{{{From: 480, To: 960}, {From: 1920, To: 2400}, {From: 3360, To: 3840}}},
		People:    []schedule.Person{{ID: "painter"}},
		Activities: []schedule.Activity{
			{ID: "sand", Kind: schedule.Labour, Work: 480, Who: []int{0}},
			{ID: "paint", Kind: schedule.Session, Work: 60, Who: []int{0}},
			{ID: "cure", Kind: schedule.Passive, Work: 1440, Calendar: -1},
		},
		Links: []schedule.Link{{From: 0, To: 1, Calendar: -1}, {From: 1, To: 2, Calendar: -1}},
		Goal:  2880,
	}
}

// Why the cure is not over by the end of the second day.
func ExampleConflict() {
	out, _ := schedule.Conflict(context.Background(), sprayed(), schedule.ConflictOptions{})
	for _, f := range out.Facts {
		fmt.Println(f)
	}
	fmt.Println("smallest:", out.Least)
	// Output:
	// over by day 2
	// paint waits 0 min
	// cure waits 0 min
	// the hours of painter
	// smallest: true
}

// What would bring it nearer. The cure is a limit, not an offer.
func ExampleHelps() {
	out, _ := schedule.Helps(context.Background(), sprayed(), schedule.Options{}, schedule.HelpOptions{})
	for _, h := range out.Helps {
		fmt.Println(h)
	}
	fmt.Println("limits:", len(out.Limits))
	// Output:
	// painter 1 h longer a day: 16 h sooner, 9 h less late
	// limits: 1
}
