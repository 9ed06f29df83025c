package schedule

import (
	"slices"
	"testing"
)

func TestHold_BegunWork(t *testing.T) {
	begun := func(change func(a *Activity)) Problem {
		p := shopOf(1, labour("begun", 60, 0), labour("open", 60, 0))
		p.Now, p.Places = clockTime(0, 8, 0), []Place{{ID: "lift", Units: 1}}
		p.Activities[0].State, p.Activities[0].Start = Started, clockTime(0, 7, 0)
		change(&p.Activities[0])
		return p
	}
	noon := Hold{Activity: 0, Until: clockTime(0, 12, 0)}
	cases := []struct {
		name   string
		p      Problem
		holds  []Hold
		resume Minute
	}{
		{"goes on first", begun(func(*Activity) {}), nil, clockTime(0, 8, 0)},
		{"may wait", begun(func(*Activity) {}), []Hold{noon}, clockTime(0, 12, 0)},
		{"not where it stands in a place", begun(func(a *Activity) { a.Uses = []Use{{0, 1}} }), []Hold{noon}, clockTime(0, 8, 0)},
		{"nor in the middle of a session", begun(func(a *Activity) { a.Kind = Session }), []Hold{noon}, clockTime(0, 8, 0)},
	}
	for _, c := range cases {
		for _, serial := range []bool{false, true} {
			if got := solved(t, c.p, Options{Serial: serial, Holds: c.holds}).Times[0].Resume; got != c.resume {
				t.Errorf("begun work %s; serial %v: it goes on %s", c.name, serial, moment(got))
			}
		}
	}
}

// coated is primer begun by A, and a coat by B within three hours of A's hours
// after it. B comes in the next morning at ten.
func coated() Problem {
	p := shopOf(2, labour("primer", 60, 0), Activity{ID: "coat", Kind: Session, Work: 60, Who: []int{1}})
	p.Calendars, p.People[1].Calendar = append(p.Calendars, Calendar{{From: clockTime(1, 10, 0), To: clockTime(1, 12, 0)}}), 1
	p.Activities[0].State, p.Activities[0].Start, p.Now = Started, clockTime(0, 7, 0), clockTime(0, 8, 0)
	p.Links = []Link{after(0, 1), {From: 0, To: 1, Lag: 180, Calendar: 0, Max: true}}
	return p
}

func TestSolve_LetsBegunWorkWaitForAWindow(t *testing.T) {
	if got := solved(t, coated(), Options{}); len(got.Overruns) != 1 || got.Times[0].Resume != clockTime(0, 8, 0) {
		t.Errorf("the plain plan: %+v, overruns %v", got.Times[0], got.Overruns)
	}
	// By the end of 14:00 to 15:00 the three hours last until ten the next day.
	got := solved(t, coated(), Options{Schedules: 200})
	if len(got.Overruns) > 0 || !slices.Equal(got.Holds, []Hold{{0, clockTime(0, 14, 0)}}) || got.Times[1].Start != clockTime(1, 10, 0) {
		t.Errorf("held %v, overruns %v, coat %s", got.Holds, got.Overruns, moment(got.Times[1].Start))
	}
}

// At noon the window would close at closing time; a minute later it closes the
// next morning, but nobody plans by a minute.
func TestAim_TakesAFullHourPastClosedTime(t *testing.T) {
	p := coated()
	n, err := compile(p)
	if err != nil {
		t.Fatal(err)
	}
	i := newIsland(n, &Options{}, 0, 1)
	i.plain()
	for _, c := range []struct{ closes, start Minute }{
		{clockTime(0, 14, 30), clockTime(0, 10, 30)}, {clockTime(0, 16, 0), clockTime(0, 12, 0)},
		{clockTime(0, 16, 1), clockTime(0, 13, 0)}, {clockTime(1, 10, 0), clockTime(0, 14, 0)}, {0, p.Now},
	} {
		if got := i.aim(1, c.closes, i.best); got != c.start {
			t.Errorf("for a window until %s it begins %s, want %s", moment(c.closes), moment(got), moment(c.start))
		}
	}
}

// B is at work on the first day only: if A's work began later for the window's
// sake, it would not fit any more.
func TestSolve_MissesAWindowRatherThanTheCalendar(t *testing.T) {
	p := shopOf(2, labour("base", 60, 0), labour("coat", 60, 0), labour("last", 60, 1))
	p.Calendars, p.People[1].Calendar = append(p.Calendars, Calendar{{From: clockTime(0, 8, 0), To: clockTime(0, 16, 0)}}), 1
	p.Links = []Link{after(0, 2), {From: 0, To: 1, Lag: 2 * day, Calendar: -1}, {From: 0, To: 1, Lag: day, Calendar: -1, Max: true}}
	p.Activities[1].Release = clockTime(3, 8, 0)
	for _, budget := range []int{0, 200} {
		if got := solved(t, p, Options{Schedules: budget}); got.Status == OutOfHours || len(got.Overruns) != 1 {
			t.Errorf("%d schedules: status %d, overruns %v", budget, got.Status, got.Overruns)
		}
	}
}
