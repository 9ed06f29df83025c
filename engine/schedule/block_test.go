package schedule

import (
	"context"
	"slices"
	"testing"
)

// coats is a painter (0) and a helper (1): coat, flash of 20 minutes, coat, in
// the booth, the second coat within 60 minutes of the first, then a bake of 30
// minutes that has to begin within 30. One person has another job, earlier in
// the list.
func coats(other Activity) Problem {
	p := shopOf(2, other,
		Activity{ID: "coat 1", Kind: Session, Work: 60, Who: []int{0}, Uses: []Use{{0, 1}}},
		Activity{ID: "flash", Kind: Passive, Work: 20, Calendar: -1},
		Activity{ID: "coat 2", Kind: Session, Work: 60, Who: []int{0}, Uses: []Use{{0, 1}}},
		Activity{ID: "bake", Kind: Passive, Work: 30, Calendar: -1, Uses: []Use{{0, 1}}})
	p.Places = []Place{{ID: "booth", Units: 1}}
	p.Links = []Link{after(1, 2), after(2, 3), {From: 1, To: 3, Lag: 60, Calendar: -1, Max: true},
		after(3, 4), {From: 3, To: 4, Lag: 30, Calendar: -1, Max: true}}
	return p
}

func TestBlock_IsPlacedAsOne(t *testing.T) {
	late := func(a Activity, release Minute) Activity { a.Release = release; return a }
	cases := []struct {
		name                string
		other               Activity
		first, second, bake Minute
	}{
		// 08:00 to 09:00, flash to 09:20, 09:20 to 10:20, bake to 10:50.
		{"in an empty shop", labour("other", 0, 1), clockTime(0, 8, 0), clockTime(0, 9, 20), clockTime(0, 10, 20)},
		// other until 14:00 leaves 120 minutes, and 140 are needed: the morning after.
		{"the rest of the day is too short", labour("other", 360, 0), clockTime(1, 8, 0), clockTime(1, 9, 20), clockTime(1, 10, 20)},
		// other until 13:40 leaves just 140.
		{"the rest of the day is just enough", labour("other", 340, 0), clockTime(0, 13, 40), clockTime(0, 15, 0), clockTime(0, 16, 0)},
		// The painter is not given away in the flash time.
		{"a job that comes in the flash time waits", late(labour("other", 60, 0), clockTime(0, 9, 5)), clockTime(0, 8, 0), clockTime(0, 9, 20), clockTime(0, 10, 20)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := coats(c.other)
			n, err := compile(p)
			if err != nil || len(n.blocks) != 1 || !slices.Equal(n.blocks[0].members, []int{1, 2, 3, 4}) {
				t.Fatalf("blocks %+v, %v", n.blocks, err)
			}
			// In serial generation what is earlier in the list is placed first, so the last case needs the block to be first.
			for _, serial := range []bool{false, true} {
				res := generated(t, p, []int{1, 2, 3, 4, 0}, serial)
				if c.other.Release == 0 {
					res = generated(t, p, nil, serial)
				}
				if a, b, d := res.Times[1].Start, res.Times[3].Start, res.Times[4].Start; a != c.first || b != c.second || d != c.bake || len(res.Overruns) > 0 {
					t.Errorf("serial %v: %s, %s, %s; overruns %v", serial, moment(a), moment(b), moment(d), res.Overruns)
				}
			}
		})
	}
}

// The first coat waits for what a later member waits for: masking that the
// second coat needs ends at 10:00.
func TestBlock_WaitsForLinksFromOutside(t *testing.T) {
	p := coats(labour("mask", 120, 1))
	p.Links = append(p.Links, after(0, 3))
	both(t, p, clockTime(0, 8, 0), clockTime(0, 10, 0), clockTime(0, 11, 0), clockTime(0, 11, 20), clockTime(0, 12, 20))
}

// What waits for the first coat and is waited for by the second cannot wait
// outside: the first coat is placed by
// itself, and the second with its bake.
func TestBlock_NotAroundOtherWork(t *testing.T) {
	p := coats(labour("wipe", 10, 1))
	p.Links = append(p.Links, after(1, 0), after(0, 3))
	n, err := compile(p)
	if err != nil || len(n.blocks) != 1 || !slices.Equal(n.blocks[0].members, []int{3, 4}) {
		t.Errorf("blocks %+v, %v", n.blocks, err)
	}
	both(t, p, clockTime(0, 9, 0), clockTime(0, 8, 0), clockTime(0, 9, 0), clockTime(0, 9, 20), clockTime(0, 10, 20))
}

// Nine hours of coats fit into no day of eight: the members are placed one by
// one and the window of the second is missed and named.
func TestBlock_ThatFitsNoWindow(t *testing.T) {
	p := coats(labour("other", 0, 1))
	p.Activities[1].Work, p.Activities[3].Work = 270, 270
	for _, res := range both(t, p, clockTime(0, 8, 0), clockTime(0, 8, 0), clockTime(0, 12, 30), clockTime(1, 8, 0), clockTime(1, 12, 30)) {
		if len(res.Overruns) != 1 || res.Overruns[0] != (Overrun{Link: 2, By: clockTime(1, 8, 0) - clockTime(0, 13, 30)}) {
			t.Errorf("overruns %+v", res.Overruns)
		}
	}
}

// Two flexible painters of one crew: the best is off at noon and cannot do both
// coats, so the crew is the other.
func TestBlock_CrewWithHoursForAllOfIt(t *testing.T) {
	p := coats(labour("other", 0, 1))
	p.Calendars = append(p.Calendars, weekdays(120, 14))
	p.People[0].Calendar = 1
	for _, j := range []int{1, 3} {
		p.Activities[j].Who, p.Activities[j].Crew = []int{0, 1}, "painters"
	}
	for _, res := range both(t, p, clockTime(0, 8, 0), clockTime(0, 8, 0)) {
		if !slices.Equal(res.Times[1].People, []int{1}) || !slices.Equal(res.Times[3].People, []int{1}) {
			t.Errorf("painted by %v and %v", res.Times[1].People, res.Times[3].People)
		}
	}
}

// When the first coat takes half as long again the second follows 20 minutes
// after it all the same; the painter is kept, the job in between waits.
func TestBlock_MovesWithItsDurations(t *testing.T) {
	p := coats(Activity{ID: "other", Kind: Labour, Work: 60, Who: []int{0}, Release: clockTime(0, 9, 10)})
	p.Activities[1].Range = Spread{1.5, 1.5, 1.5}
	odds, err := Odds(context.Background(), p, nil, OddsOptions{Runs: 20, Seed: 1, Starts: true})
	if err != nil {
		t.Fatal(err)
	}
	// 08:00 to 09:30, flash to 09:50, coat to 10:50, then the other job.
	for j, want := range map[int]Minute{1: clockTime(0, 8, 0), 3: clockTime(0, 9, 50), 4: clockTime(0, 10, 50), 0: clockTime(0, 10, 50)} {
		if got := odds.Start(j, 0.5); got != want {
			t.Errorf("%s starts %s, want %s", p.Activities[j].ID, moment(got), moment(want))
		}
	}
}

// A coat that has begun takes the rest of the chain with it.
func TestBlock_ThatHasBegun(t *testing.T) {
	p := coats(labour("other", 240, 0))
	p.Now = clockTime(0, 8, 0)
	p.Activities[1].State, p.Activities[1].Work = Started, 30
	both(t, p, clockTime(0, 9, 50), 0, clockTime(0, 8, 30), clockTime(0, 8, 50), clockTime(0, 9, 50))
}
