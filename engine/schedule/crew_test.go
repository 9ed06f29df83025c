package schedule

import (
	"slices"
	"testing"
)

func TestCrew_TheFirstToBeginDecides(t *testing.T) {
	crewed := func(busy Minute, first, second []int) Problem {
		p := shopOf(2, labour("busy", busy, 0), labour("a", 60, first...), labour("b", 60, second...))
		p.Activities[1].Crew, p.Activities[2].Crew = "painters", "painters"
		p.Links = []Link{after(1, 2)}
		return p
	}
	begun := crewed(60, []int{1}, []int{0, 1})
	begun.Activities[1].State = Started
	done := crewed(60, []int{1}, []int{0, 1})
	done.Activities[1].State, done.Now = Done, 480
	cases := []struct {
		name    string
		p       Problem
		a, b    int
		aAt, at Minute
	}{
		{"best first", crewed(0, []int{0, 1}, []int{1, 0}), 0, 0, clockTime(0, 8, 0), clockTime(0, 9, 0)},
		{"whoever is free, and then the same though the best is free again", crewed(60, []int{0, 1}, []int{0, 1}), 1, 1, clockTime(0, 8, 0), clockTime(0, 9, 0)},
		{"only who may do both", crewed(60, []int{0, 1}, []int{0}), 0, 0, clockTime(0, 9, 0), clockTime(0, 10, 0)},
		{"a start is a fact", begun, 1, 1, 0, clockTime(0, 9, 0)},
		{"so is what is done", done, -1, 1, 0, clockTime(0, 8, 0)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, serial := range []bool{false, true} {
				res := generated(t, c.p, nil, serial)
				a, b := res.Times[1], res.Times[2]
				if c.a >= 0 && (!slices.Equal(a.People, []int{c.a}) || a.Start != c.aAt) || !slices.Equal(b.People, []int{c.b}) || b.Start != c.at {
					t.Errorf("serial %v: a %v at %s, b %v at %s", serial, a.People, moment(a.Start), b.People, moment(b.Start))
				}
			}
		})
	}
}

// The best goes first, whatever else; where they are alike, the one with less
// that only they can do, then the one who has worked on the group.
func TestContinuity_OnlyWhereAlike(t *testing.T) {
	p := shopOf(3, labour("a", 60, 1), labour("b", 60, 0, 1, 2), labour("rare", 60, 2))
	p.Activities[1].Group = "a"
	p.Activities[1].Release, p.Activities[2].Release = clockTime(0, 9, 0), clockTime(1, 8, 0)
	p.Activities = append(p.Activities, labour("rare too", 60, 0))
	p.Activities[3].Release = clockTime(1, 8, 0)
	want := map[bool]int{false: 0, true: 1}
	for alike, who := range want {
		p.Activities[1].Alike = alike
		for _, res := range both(t, p) {
			if !slices.Equal(res.Times[1].People, []int{who}) {
				t.Errorf("alike %v: %v, want %d", alike, res.Times[1].People, who)
			}
		}
	}
	// Person 1 now has two things that nobody else can do, the others one each.
	p.Activities = append(p.Activities, labour("rare three", 60, 1))
	p.Activities[4].Release = clockTime(1, 8, 0)
	for _, res := range both(t, p) {
		if !slices.Equal(res.Times[1].People, []int{0}) {
			t.Errorf("scarce: %v, want 0", res.Times[1].People)
		}
	}
}
