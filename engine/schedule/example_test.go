package schedule_test

import (
	"context"
	"fmt"

	"fettle/engine/schedule"
)

// Two days of work for two people: weld, paint, let it cure over night, fit.
func Example() {
	shop := schedule.Calendar{{From: 480, To: 960}, {From: 1920, To: 2400}} // 08:00 to 16:00, twice
	p := schedule.Problem{
		Calendars: []schedule.Calendar{shop},
		People:    []schedule.Person{{ID: "metal"}, {ID: "paint"}},
		Activities: []schedule.Activity{
			{ID: "weld", Kind: schedule.Labour, Work: 240, Who: []int{0}, Range: schedule.Spread{Low: 0.9, Mode: 1, High: 1.5}},
			{ID: "paint", Kind: schedule.Labour, Work: 120, Who: []int{1}},
			{ID: "fit", Kind: schedule.Labour, Work: 180, Who: []int{0, 1}},
		},
		Links: []schedule.Link{
			{From: 0, To: 1, Calendar: -1},
			{From: 1, To: 2, Calendar: -1, Lag: 960}, // 16 hours of cure, nights count
		},
	}
	ctx := context.Background()
	plan, err := schedule.Solve(ctx, p, schedule.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range schedule.Chain(p, plan) {
		fmt.Printf("%s from %s to %s\n", p.Activities[s.Activity].ID, clock(s.Start), clock(s.Finish))
	}
	odds, err := schedule.Odds(ctx, p, plan.Order, schedule.OddsOptions{Runs: 1000, Seed: 1, Workers: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	chance, _ := odds.Chance(1920 + 300) // the second day, 13:00
	fmt.Printf("by 13:00 on the second day: about %.0f %%\n", 100*chance)
	// Output:
	// fit from day 2 08:00 to day 2 11:00
	// paint from day 1 12:00 to day 1 14:00
	// weld from day 1 08:00 to day 1 12:00
	// by 13:00 on the second day: about 99 %
}

func clock(m schedule.Minute) string {
	return fmt.Sprintf("day %d %02d:%02d", m/1440+1, m%1440/60, m%60)
}
