package shopfile_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fettle/engine/schedule"
	"fettle/engine/schedule/shopfile"
	"fettle/fault"
	"fettle/unit"
)

func written(t *testing.T, f shopfile.File) string {
	t.Helper()
	var b bytes.Buffer
	if err := shopfile.Write(&b, f); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func read(t *testing.T, text string) shopfile.File {
	t.Helper()
	f, err := shopfile.Read(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return f
}

// TestRead_WhatWasWritten holds Read(Write(f)) to f, and Write to its bytes, on five
// hundred problems that use everything the form has.
func TestRead_WhatWasWritten(t *testing.T) {
	for seed := range uint64(500) {
		f := invented(rand.New(rand.NewPCG(seed, 4)))
		text := written(t, f)
		back := read(t, text)
		if !reflect.DeepEqual(back, f) {
			t.Fatalf("seed %d: read %+v\nwrote %+v\n%s", seed, back, f, text)
		}
		if again := written(t, back); again != text {
			t.Fatalf("seed %d: written twice, two texts:\n%s\n%s", seed, text, again)
		}
	}
}

// invented is a problem in its plainest form: nothing stands in it that has no
// meaning for its kind or state.
func invented(r *rand.Rand) shopfile.File {
	f := shopfile.File{Origin: unit.Day(2026, 10, 1) + unit.Date(r.IntN(9))}
	p := &f.Problem
	p.Now, p.Goal, p.Near = minute(r, 5000), minute(r, 90000), minute(r, 20000)
	p.Absence = float64(r.IntN(3)) / 7
	if r.IntN(2) == 0 {
		p.Weights = &schedule.Weights{Late: r.Float64(), Length: 1, Moved: float64(r.IntN(9))}
	}
	for range 1 + r.IntN(4) {
		p.Calendars = append(p.Calendars, calendar(r))
	}
	for i := range 1 + r.IntN(3) {
		p.People = append(p.People, schedule.Person{ID: fmt.Sprint("hand ", i, `"`), Calendar: r.IntN(len(p.Calendars)), Range: spread(r), Learned: lognormal(r)})
		p.Places = append(p.Places, schedule.Place{ID: fmt.Sprint("booth\\", i), Units: 1 + r.IntN(3)})
		p.Factors = append(p.Factors, schedule.Factor{ID: fmt.Sprint("all of ", i), Range: spread(r), Learned: lognormal(r), Seen: slices.Repeat([]float64{r.Float64()}, r.IntN(3))})
		if len(p.Factors[i].Seen) == 0 {
			p.Factors[i].Seen = nil
		}
	}
	n := 2 + r.IntN(6)
	for i := range n {
		p.Activities = append(p.Activities, activity(r, p, i))
	}
	for range r.IntN(8) {
		l := schedule.Link{From: r.IntN(n), To: r.IntN(n), Lag: minute(r, 5000), Calendar: r.IntN(len(p.Calendars)+1) - 1, FromStart: r.IntN(2) == 0, Max: r.IntN(3) == 0}
		p.Links = append(p.Links, l)
		for range r.IntN(3) {
			if l.Max {
				p.Remedies = append(p.Remedies, schedule.Remedy{Link: len(p.Links) - 1, Activity: r.IntN(n)})
			}
		}
	}
	if r.IntN(2) == 0 {
		p.Clashes = []schedule.Clash{{Dirty: []int{0}, Clean: []int{1}, Settle: minute(r, 3000), Calendar: r.IntN(len(p.Calendars)+1) - 1}}
		p.Overtime = []schedule.Overtime{{Person: r.IntN(len(p.People)), Window: calendar(r)[0], Price: int64(r.IntN(1000))}}
		p.Risks = []schedule.Risk{{ID: "rust", Chance: r.Float64(), Activities: []int{r.IntN(n)}}}
	}
	if r.IntN(2) == 0 {
		p.Published = make([]schedule.Slot, n)
		for j := range p.Published {
			p.Published[j].Start = schedule.Never
		}
		p.Published[r.IntN(n)] = schedule.Slot{Start: minute(r, 9000), People: []int{r.IntN(len(p.People))}}
	}
	return f
}

func minute(r *rand.Rand, below int) schedule.Minute {
	return schedule.Minute(r.IntN(below) * r.IntN(2))
}

func spread(r *rand.Rand) schedule.Spread {
	if r.IntN(2) == 0 {
		return schedule.Spread{}
	}
	low := r.Float64() * 1000
	return schedule.Spread{Low: low, Mode: low + float64(r.IntN(3000)), High: low + 3000 + r.Float64()}
}

func lognormal(r *rand.Rand) schedule.Lognormal {
	if r.IntN(2) == 0 {
		return schedule.Lognormal{}
	}
	return schedule.Lognormal{Mu: r.NormFloat64(), Sigma: r.Float64()}
}

// calendar is a week with exceptions, or windows anywhere, some over midnights.
func calendar(r *rand.Rand) schedule.Calendar {
	var c schedule.Calendar
	if r.IntN(2) == 0 {
		at := schedule.Minute(r.IntN(9000) - 3000)
		for range 1 + r.IntN(12) {
			at += schedule.Minute(1 + r.IntN(2000))
			to := at + schedule.Minute(1+r.IntN(3000))
			c = append(c, schedule.Window{From: at, To: to})
			at = to
		}
		return c
	}
	open, first := [7]int{}, r.IntN(10)-3
	for i := range open {
		open[i] = r.IntN(3)
	}
	for d := first; d < first+10+r.IntN(60); d++ {
		at := schedule.Minute(d*1440 + 480)
		if many := open[(d+70)%7]; many > 0 && r.IntN(9) > 0 {
			c = append(c, schedule.Window{From: at, To: at + 240})
			if many > 1 {
				c = append(c, schedule.Window{From: at + 270, To: at + 480})
			}
		}
		if r.IntN(15) == 0 {
			c = append(c, schedule.Window{From: at + 900, To: at + 960}) // up to midnight
		}
	}
	if len(c) == 0 {
		return schedule.Calendar{{From: 0, To: 1440}}
	}
	return c
}

func activity(r *rand.Rand, p *schedule.Problem, i int) schedule.Activity {
	a := schedule.Activity{
		ID: fmt.Sprint("job ", i), Group: fmt.Sprint("<task> ", i/2), Kind: schedule.Kind(r.IntN(4)), Release: minute(r, 9000), Pinned: r.IntN(4) == 0,
		Range: spread(r), Learned: lognormal(r), Factors: nil, Extra: spread(r), Late: spread(r), State: schedule.State(r.IntN(3)),
	}
	switch a.Kind {
	case schedule.Labour, schedule.Session:
		a.Who, a.Heads, a.Crew = []int{r.IntN(len(p.People))}, r.IntN(2), []string{"", "crew"}[r.IntN(2)]
	case schedule.Passive:
		a.Calendar = r.IntN(len(p.Calendars)+1) - 1
	}
	if a.Kind != schedule.Milestone {
		a.Work = minute(r, 6000)
		a.Begun = schedule.Begun{Planned: minute(r, 6000), Spent: minute(r, 6000)}
		a.Uses = []schedule.Use{{Place: r.IntN(len(p.Places)), Units: 1}}
	}
	if r.IntN(2) == 0 {
		a.Factors = []int{r.IntN(len(p.Factors))}
	}
	if a.State != schedule.Open {
		a.Start = -minute(r, 5000)
	}
	if a.State == schedule.Done {
		a.Finish = a.Start + minute(r, 5000)
	}
	return a
}

// TestRead_Weeks lays weeks out and holds them to windows worked out by hand.
func TestRead_Weeks(t *testing.T) {
	const frame = `{"form": "fettle", "origin": "2026-10-05", "until": "2026-10-11", "calendars": [{"id": "c", %s}]}`
	for _, c := range []struct {
		name, calendar string
		want           schedule.Calendar
	}{
		{"a week from Monday", `"week": "mon-tue 08:00-16:00; sat 08:00-12:00"`, schedule.Calendar{{From: 480, To: 960}, {From: 1920, To: 2400}, {From: 7680, To: 7920}}},
		{"a day closed, another open", `"week": "mon-tue 08:00-16:00", "closed": ["2026-10-05"], "also": ["2026-10-07 09:00-10:00"]`, schedule.Calendar{{From: 1920, To: 2400}, {From: 3420, To: 3480}}},
		{"days closed in a row", `"week": "mon-sun 08:00-09:00", "closed": ["2026-10-05 to 2026-10-10"]`, schedule.Calendar{{From: 9120, To: 9180}}},
		{"over midnight", `"week": "mon 22:00-24:00; tue 00:00-06:00"`, schedule.Calendar{{From: 1320, To: 1800}}},
		{"breaks", `"week": "wed 08:00-12:00, 12:30-16:00", "from": "2026-10-06"`, schedule.Calendar{{From: 3360, To: 3600}, {From: 3630, To: 3840}}},
		{"two days and a run", `"week": "mon wed-thu 08:00-09:00"`, schedule.Calendar{{From: 480, To: 540}, {From: 3360, To: 3420}, {From: 4800, To: 4860}}},
		{"windows", `"windows": ["2026-10-04 23:00-2026-10-05 01:00", "2026-10-05 23:00-24:00"]`, schedule.Calendar{{From: -60, To: 60}, {From: 1380, To: 1440}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := read(t, fmt.Sprintf(frame, c.calendar))
			if got := f.Problem.Calendars[0]; !slices.Equal(got, c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

// TestWrite_AWeekIsShort wants a year of working days as one line with its
// exceptions, not as its 250 windows.
func TestWrite_AWeekIsShort(t *testing.T) {
	text := `{"form": "fettle", "origin": "2026-10-05", "until": "2027-10-04", "calendars": [
	{"id": "hours 1", "week": "mon-thu 08:00-16:00; fri 08:00-14:00", "closed": ["2026-12-24 to 2027-01-01", "2027-05-06"], "also": ["2026-10-10 08:00-12:00"]}]}`
	got := written(t, read(t, text))
	want := `{"id": "hours 1", "week": "mon-thu 08:00-16:00; fri 08:00-14:00", "closed": ["2026-12-24 to 2027-01-01", "2027-05-06"], "also": ["2026-10-10 08:00-12:00"]}`
	if !strings.Contains(got, want) {
		t.Errorf("written as\n%s", got)
	}
}

// TestRead_Faults wants the place and a way out of every fault.
func TestRead_Faults(t *testing.T) {
	good, err := os.ReadFile("testdata/sprayweek.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, old, new, where, hint string }{
		{"unknown name", `"takes": "6h30m"`, `"hours": "6h30m"`, `activities[0] fill the roof: there is nothing called "hours"`, "takes"},
		{"unknown name at the top", `"absence"`, `"abscence"`, `there is nothing called "abscence"`, "absence"},
		{"said twice", `"takes": "6h30m"`, `"takes": "6h30m", "takes": "1h"`, `activities[0] fill the roof: "takes" is said twice`, "leave"},
		{"no such person", `"who": ["Otis"]`, `"who": ["Otto"]`, `activities[2] sand the roof, who[0]: there is no person "Otto"`, "id"},
		{"a day of labour", `"takes": "5h"`, `"takes": "1d"`, "activities[2] sand the roof, takes", "hours"},
		{"no span", `"takes": "5h"`, `"takes": "5"`, `activities[2] sand the roof, takes: "5" is not a span`, "6h30m"},
		{"half a minute", `"takes": "5h"`, `"takes": "0.5m"`, "activities[2] sand the roof, takes", "round"},
		{"no moment", `"now": "2026-10-05 08:00"`, `"now": "5 October"`, "now: ", "2026-10-06 08:00"},
		{"no week", "mon-thu 08:00", "mon-thu 8:00", "calendars[0] shop, week", "mon-fri"},
		{"no end", `"until": "2026-12-18",`, ``, "calendars[0] shop: the week has no end", "until"},
		{"a kind unknown", `"kind": "session", "takes": "2h"`, `"kind": "spray", "takes": "2h"`, "activities[4] prime, kind", "labour, session"},
		{"a remedy of nothing", `"at_most": "3d", `, ``, "links[4], remedy", "at_most"},
		{"a window backwards", "08:00-13:00", "08:00-07:00", "overtime[0], window", "second day"},
		{"two numbers", "[0.9, 1, 1.4]", "[0.9, 1]", "factors[0] prep, range", "three"},
		{"not JSON", `"places": [`, `"places": `, "places", ""},
		{"a number for a text", `"takes": "5h"`, `"takes": 5`, "activities[2] sand the roof, takes: 5 does not fit", "text"},
		{"a fact of what is open", `"takes": "5h"`, `"takes": "5h", "started": "2026-10-05 08:00"`, "activities[2] sand the roof, started", "state"},
		{"another form", `"form": "fettle"`, `"form": "other"`, "form", "fettle"},
		{"more behind it", "\n}\n", "\n}\n{}", "something follows", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(string(good), c.old, c.new, 1)
			if text == string(good) {
				t.Fatal("the file does not hold what is to be replaced")
			}
			_, err := shopfile.Read(strings.NewReader(text))
			if err == nil || !strings.Contains(err.Error(), c.where) || !strings.Contains(fault.HintOf(err), c.hint) {
				t.Errorf("fault %v, hint %q; want %q, hint with %q", err, fault.HintOf(err), c.where, c.hint)
			}
			if fault.KindOf(err) != fault.Invalid {
				t.Errorf("kind %v", fault.KindOf(err))
			}
		})
	}
}

// TestWrite_Faults wants indices that point nowhere refused.
func TestWrite_Faults(t *testing.T) {
	f := shopfile.File{Origin: unit.Day(2026, 10, 5)}
	for _, p := range []schedule.Problem{
		{People: []schedule.Person{{ID: "A"}}}, {Activities: []schedule.Activity{{ID: "a", Who: []int{0}}}},
		{Links: []schedule.Link{{}}}, {Remedies: []schedule.Remedy{{}}}, {Places: []schedule.Place{{ID: "\xff"}}},
		{Places: []schedule.Place{{ID: "a"}, {ID: "a"}}}, {Overtime: []schedule.Overtime{{Person: 3}}},
	} {
		f.Problem = p
		if err := shopfile.Write(&bytes.Buffer{}, f); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: %v", p, err)
		}
	}
	if err := shopfile.Write(&bytes.Buffer{}, shopfile.File{}); err == nil {
		t.Error("a file without an origin is written")
	}
}

// FuzzRead wants no panic, and what is read to be written and read again.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"sprayweek", "midjob"} {
		text, err := os.ReadFile("testdata/" + name + ".json")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		file, err := shopfile.Read(bytes.NewReader(text))
		if err != nil {
			return
		}
		var b bytes.Buffer
		if shopfile.Write(&b, file) != nil {
			return // two things with one ID, which Solve refuses
		}
		first := b.String()
		back, err := shopfile.Read(&b)
		if err != nil {
			t.Fatalf("%v\n%s", err, first)
		}
		if again := written(t, back); again != first {
			t.Fatalf("two texts:\n%s\n%s", first, again)
		}
	})
}
