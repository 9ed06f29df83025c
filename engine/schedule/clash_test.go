package schedule

import "testing"

// both plans a problem with either generation and compares starts.
func both(t *testing.T, p Problem, starts ...Minute) []Result {
	t.Helper()
	var all []Result
	for _, serial := range []bool{false, true} {
		res := generated(t, p, nil, serial)
		for j, want := range starts {
			if got := res.Times[j].Start; got != want {
				t.Errorf("serial %v: %s starts %s, want %s", serial, p.Activities[j].ID, moment(got), moment(want))
			}
		}
		all = append(all, res)
	}
	return all
}

func TestClash_DustSettles(t *testing.T) {
	p := shopOf(2, labour("sand", 120, 1), labour("spray", 60, 0), labour("sand more", 60, 1))
	p.Clashes = []Clash{{Dirty: []int{0, 2}, Clean: []int{1}, Settle: 60, Calendar: -1}}
	// Sand until 10:00, clean at 11:00; the second sanding would make dust at
	// 10:00 that keeps the spraying, earlier in the list, until 12:00.
	for _, res := range both(t, p, clockTime(0, 8, 0), clockTime(0, 11, 0), clockTime(0, 12, 0)) {
		if b := res.Times[1].Binding; b.Cause != ByAir || b.Activity != 0 || b.At != clockTime(0, 11, 0) {
			t.Errorf("spray by %+v", b)
		}
		if b := res.Times[2].Binding; b.Cause != ByAir || b.Activity != 1 {
			t.Errorf("the second sanding by %+v", b)
		}
	}
}

// Three people; the second sanding could begin at 09:00 while the first runs
// until 10:00, and again and again: the spraying would wait for ever longer.
func TestClash_CleanWorkIsNotStarved(t *testing.T) {
	p := shopOf(3, labour("sand", 120, 1), labour("spray", 60, 0), labour("sand more", 120, 2))
	p.Activities[1].Release, p.Activities[2].Release = clockTime(0, 9, 0), clockTime(0, 9, 0)
	p.Clashes = []Clash{{Dirty: []int{0, 2}, Clean: []int{1}, Calendar: -1}}
	both(t, p, clockTime(0, 8, 0), clockTime(0, 10, 0), clockTime(0, 11, 0))
}

// Two evenings between dust and paint. Sand on day 0: clean on the evening of
// day 1, spray on day 2. More dust on day 0 does no harm; dust on day 1 would.
func TestClash_NoSandingOnTheEve(t *testing.T) {
	p := shopOf(2, labour("sand", 120, 1), labour("spray", 60, 0), labour("same day", 60, 1), labour("the eve", 60, 1))
	p.Activities[3].Release = clockTime(1, 9, 0)
	evenings := Calendar{}
	for d := range Minute(14) {
		evenings = append(evenings, Window{clockTime(d, 17, 0), clockTime(d, 17, 1)})
	}
	p.Calendars = append(p.Calendars, evenings)
	p.Clashes = []Clash{{Dirty: []int{0, 2, 3}, Clean: []int{1}, Settle: 2, Calendar: 1}}
	both(t, p, clockTime(0, 8, 0), clockTime(2, 8, 0), clockTime(0, 10, 0), clockTime(2, 9, 0))
}

// A cure without people needs clean air too, and starts only in it.
func TestClash_OfWhatNeedsNobody(t *testing.T) {
	p := shopOf(1, labour("sand", 120, 0), Activity{ID: "cure", Kind: Passive, Work: 60, Calendar: -1})
	p.Clashes = []Clash{{Dirty: []int{0}, Clean: []int{1}, Settle: 30, Calendar: -1}}
	both(t, p, clockTime(0, 8, 0), 0) // 00:00 to 01:00, before anybody sands
	p.Activities[1].Release = clockTime(0, 9, 0)
	both(t, p, clockTime(0, 8, 0), clockTime(0, 10, 30))
}

// Facts meet as they are; open work keeps clear of them. The sanding done at
// 07:00 settles at 09:00; the spraying begun stands against no fact.
func TestClash_Facts(t *testing.T) {
	p := shopOf(3, labour("done", 60, 0), labour("begun", 60, 1), labour("spraying", 180, 2), labour("spray", 60, 0), labour("sand", 60, 1))
	p.Now = clockTime(0, 8, 0)
	p.Activities[0].State, p.Activities[0].Start, p.Activities[0].Finish = Done, 60, clockTime(0, 7, 0)
	p.Activities[1].State, p.Activities[2].State = Started, Started
	p.Clashes = []Clash{
		{Dirty: []int{0}, Clean: []int{3}, Settle: 120, Calendar: -1},
		{Dirty: []int{1, 4}, Clean: []int{2}, Calendar: -1},
	}
	res := both(t, p, 60, 0, 0, clockTime(0, 9, 0), clockTime(0, 11, 0))[0]
	if res.Times[1].Finish != clockTime(0, 9, 0) || res.Times[2].Finish != clockTime(0, 11, 0) {
		t.Errorf("facts finish %s and %s", moment(res.Times[1].Finish), moment(res.Times[2].Finish))
	}
}

// The spraying is promised for 10:00: sanding that lasts until 10:30 waits.
func TestClash_PinnedSpraying(t *testing.T) {
	p := shopOf(2, labour("sand", 150, 1), labour("spray", 60, 0))
	p.Activities[1].Pinned, p.Activities[1].Release = true, clockTime(0, 10, 0)
	p.Clashes = []Clash{{Dirty: []int{0}, Clean: []int{1}, Calendar: -1}}
	both(t, p, clockTime(0, 11, 0), clockTime(0, 10, 0))
}
