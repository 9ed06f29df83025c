package bench_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fettle/engine/loom/bench"
)

// nose is a feed that is spliced to two lamps, and an earth beside it.
func nose() []bench.Wire {
	return []bench.Wire{
		{ID: "W1", Net: "side", From: "box 1", To: "S1", Keys: [2]string{"box:1", "S1"}, Section: "1.5", MM2: 1.5, Colour: "red", Cut: 1090, MilliOhm: 13.3},
		{ID: "W2", Net: "side", From: "S1", To: "left 58", Keys: [2]string{"S1", "L:58"}, Section: "0.75", MM2: 0.75, Colour: "red", Cut: 655, MilliOhm: 26},
		{ID: "W3", Net: "side", From: "S1", To: "right 58", Keys: [2]string{"S1", "R:58"}, Section: "0.75", MM2: 0.75, Colour: "red", Cut: 755, MilliOhm: 26},
		{ID: "W4", Net: "earth", From: "box 10", To: "right 31", Keys: [2]string{"box:10", "R:31"}, Section: "0.75", MM2: 0.75, Colour: "black", Cut: 1830, MilliOhm: 26},
	}
}

// TestContinuity reads box 1 to left 58 over both wires: 1.09 m × 13.3 mΩ and
// 0.655 m × 26 mΩ are 31.5 mΩ.
func TestContinuity(t *testing.T) {
	joints := map[string]bool{"S1": true}
	plan := bench.Continuity(nose(), joints)
	if len(plan.Nets) != 2 || len(plan.Clashes)+len(plan.Unknown) != 0 {
		t.Fatalf("%+v", plan)
	}
	side := plan.Nets[0]
	if side.Name != "side" || strings.Join(side.Ends, " ") != "box:1 L:58 R:58" || len(side.Pairs) != 2 || len(plan.Nets[1].Pairs) != 1 {
		t.Fatalf("%+v", side)
	}
	if p := side.Pairs[0]; p.From != "box 1" || p.To != "left 58" || len(p.Way) != 2 || p.Way[1].ID != "W2" || p.Working.With != "13.3 mΩ/m × 1.09 m + 26 mΩ/m × 0.66 m + 0.1 Ω = 0.132 Ω" {
		t.Errorf("%s to %s reads %s", p.From, p.To, p.Working.With)
	}

	joined := nose()
	joined[3].Keys[1], joined[2].MilliOhm = "R:58", 0
	plan = bench.Continuity(joined, joints)
	if want := (bench.Clash{Wire: "W4", Net: "earth", Other: "side"}); len(plan.Nets) != 1 || !slices.Equal(plan.Clashes, []bench.Clash{want}) || !slices.Equal(plan.Unknown, []string{"W3"}) {
		t.Errorf("two nets in one cavity: %+v", plan)
	}
	beside := append(nose(), bench.Wire{ID: "W5", Net: "side", From: "box 1", To: "left 58", Keys: [2]string{"box:1", "L:58"}, Cut: 500, MilliOhm: 26})
	if p := bench.Continuity(beside, joints).Nets[0].Pairs[0]; len(p.Way) != 1 || p.Way[0].ID != "W5" {
		t.Errorf("the way of least resistance: %+v", p.Way)
	}
}

// TestReels: 0.655 m and 0.755 m and 5 % are 1.5 m.
func TestReels(t *testing.T) {
	var got []string
	for _, r := range bench.Reels(nose()) {
		got = append(got, fmt.Sprintf("%s %s %.4f", r.Section, r.Colour, r.Metres))
	}
	if want := "0.75 black 1.9215|0.75 red 1.4805|1.5 red 1.1445"; strings.Join(got, "|") != want {
		t.Errorf("%q, want %s", got, want)
	}
}

// TestInOrder: the thinnest first, then by colour, the longest first.
func TestInOrder(t *testing.T) {
	wires := nose()
	slices.SortStableFunc(wires, bench.InOrder)
	var got []string
	for _, w := range wires {
		got = append(got, w.ID)
	}
	if want := "W4 W3 W2 W1"; strings.Join(got, " ") != want {
		t.Errorf("%q, want %s", got, want)
	}
}

func Example() {
	for _, net := range bench.Continuity(nose(), map[string]bool{"S1": true}).Nets {
		for _, p := range net.Pairs {
			fmt.Printf("%s: %s to %s below %.3f Ω\n", net.Name, p.From, p.To, p.Below)
		}
	}
	// Output:
	// side: box 1 to left 58 below 0.132 Ω
	// side: box 1 to right 58 below 0.134 Ω
	// earth: box 10 to right 31 below 0.148 Ω
}
