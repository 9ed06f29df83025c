package loom_test

import (
	"context"
	"fmt"

	"fettle/engine/loom"
)

// A pair of dipped beams known by a list, on one fuse each: the longer side needs
// 1 mm² for its drop, and the pair rule gives both the same.
func Example() {
	run := func(id string, metres float64) loom.Run {
		return loom.Run{ID: id, LengthM: metres, DropPercent: 3, Pair: "dip", Colour: "U/R"}
	}
	p := loom.Problem{
		Rules: loom.ByList,
		Fuses: []loom.Fuse{{Name: "F5", Amps: 7.5}, {Name: "F6", Amps: 7.5}},
		Circuits: []loom.Circuit{
			{Run: run("left", 2.2), From: "dip relay", To: "headlamp L", Amps: 4.6, Fuse: "F5"},
			{Run: run("right", 2.9), From: "dip relay", To: "headlamp R", Amps: 4.6, Fuse: "F6"},
		},
	}
	r, err := loom.Solve(context.Background(), p, loom.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, one := range r.Runs {
		fmt.Printf("%s %s (%s): %.2f V of %.2f V\n", one.ID, one.Working.Text, one.Rule, one.DropV, one.DropMaxV)
	}
	// Output:
	// left 1.0 mm² (pair): 0.19 V of 0.38 V
	// right 1.0 mm² (voltage drop): 0.25 V of 0.38 V
}
