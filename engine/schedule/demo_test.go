package schedule

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The demo network: day 0 is Monday 14 September 2026.
var demoOrigin = time.Date(2026, 9, 14, 0, 0, 0, 0, time.UTC)

const (
	day      = 1440
	demoDays = 500
)

// at turns "2027-02-05 16:00" into minutes from the origin of the demo.
func at(t testing.TB, text string) Minute {
	t.Helper()
	m, err := time.Parse("2006-01-02 15:04", text)
	if err != nil {
		t.Fatal(err)
	}
	return Minute(m.Sub(demoOrigin) / time.Minute)
}

func moment(m Minute) string {
	if m >= Never {
		return "never"
	}
	return demoOrigin.Add(time.Duration(m) * time.Minute).Format("Mon 2 Jan 2006 15:04")
}

// workday counts the working days from the origin to the day of m.
func workday(c Calendar, m Minute) int {
	n := 0
	for _, w := range c {
		if w.From/day < m/day {
			n++
		}
	}
	return n
}

// weekdays is 08:00 for so many minutes on Monday to Friday, without the
// closure from 24 December to 3 January (days 101 to 111).
func weekdays(minutes Minute, days int) Calendar {
	var c Calendar
	for d := range days {
		if d%7 < 5 && (d < 101 || d > 111) {
			c = append(c, Window{Minute(d)*day + 480, Minute(d)*day + 480 + minutes})
		}
	}
	return c
}

// shop is what a reading of the demo network may choose.
type shop struct {
	after bool // with the fourteen findings
	slow  bool // everybody's day is eight hours at reduced speed; else short days at full speed
	cut   bool // what follows may begin the same day; else the morning after
	now   Minute
}

var demoPeople = []string{"LD", "MW", "PT", "WA", "TR"}
var demoWeek = map[string]Minute{"LD": 24, "MW": 40, "PT": 40, "WA": 38, "TR": 28}

type demo struct {
	Problem
	shop      shop
	milestone map[string]int    // task -> its milestone
	labour    map[string]int    // task+person, or task+"away" -> activity
	wait      map[string]Minute // task -> working time until what follows may begin
}

// Calendars of the demo: working days, every evening, then one by person.
const (
	workdays = iota
	evenings
	firstPerson
)

func newDemo(t testing.TB, s shop) *demo {
	t.Helper()
	text, err := os.ReadFile("testdata/demo.txt")
	if err != nil {
		t.Fatal(err)
	}
	d := &demo{milestone: map[string]int{}, labour: map[string]int{}, wait: map[string]Minute{}, shop: s}
	d.Now = s.now
	d.Calendars = []Calendar{weekdays(480, demoDays), nil}
	for n := range Minute(demoDays) {
		d.Calendars[evenings] = append(d.Calendars[evenings], Window{n*day + 960, n*day + 961})
	}
	for i, p := range demoPeople {
		open := demoWeek[p] * 60 / 5
		if s.slow {
			open = 480
		}
		d.Calendars = append(d.Calendars, weekdays(open, demoDays))
		d.People = append(d.People, Person{ID: p, Calendar: firstPerson + i})
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	lines = slices.DeleteFunc(lines, func(l string) bool { return l[0] == '#' })
	for _, line := range lines {
		f := fields(line)
		if s.after && f[2] != "" {
			f[1] = f[2]
		}
		wait, _ := strconv.Atoi(f[4])
		d.task(f[0], f[1], Minute(wait))
	}
	for _, line := range lines {
		f := fields(line)
		for _, after := range strings.Fields(strings.Trim(f[3], "-")) {
			for _, part := range d.parts(f[0]) {
				d.Links = append(d.Links, Link{From: d.milestone[after], To: part, Lag: d.wait[after], Calendar: workdays})
			}
		}
	}
	return d
}

func fields(line string) []string {
	f := strings.Split(line, "|")
	for i := range f {
		f[i] = strings.TrimSpace(f[i])
	}
	return f
}

// task adds one labour activity per person and the milestone that joins them;
// the wait lies on the links that leave it. A wait without hours, and the turn-
// round of the blast, is a passive activity.
func (d *demo) task(id, hours string, wait Minute) {
	var parts []int
	for _, h := range strings.Fields(strings.Trim(hours, "-")) {
		n, _ := strconv.Atoi(h[2:])
		work := Minute(n) * 60
		if d.shop.slow {
			work = work * 40 / demoWeek[h[:2]]
		}
		parts = append(parts, len(d.Activities))
		d.labour[id+h[:2]] = len(d.Activities)
		d.Activities = append(d.Activities, Activity{ID: id + " " + h[:2], Group: id, Kind: Labour, Work: work, Who: []int{person(h[:2])}})
	}
	evening := Link{Lag: 1, Calendar: evenings}
	if d.shop.cut {
		evening = Link{Calendar: -1}
	}
	if len(parts) == 0 || id == "T05" {
		w := len(d.Activities)
		d.labour[id+"away"] = w
		d.Activities = append(d.Activities, Activity{ID: id + " away", Group: id, Kind: Passive, Work: wait * 480, Calendar: workdays})
		for _, p := range parts {
			d.Links = append(d.Links, Link{From: p, To: w, Lag: evening.Lag, Calendar: evening.Calendar})
		}
		parts, wait, evening = []int{w}, 0, Link{Calendar: -1}
	}
	d.milestone[id], d.wait[id] = len(d.Activities), wait*480
	for _, p := range parts {
		d.Links = append(d.Links, Link{From: p, To: d.milestone[id], Lag: evening.Lag, Calendar: evening.Calendar})
	}
	d.Activities = append(d.Activities, Activity{ID: id, Group: id, Kind: Milestone})
}

// over is when a task and its wait are over.
func (d *demo) over(res Result, task string) Minute {
	k := newClock(d.Calendars[workdays])
	return k.after(res.Times[d.milestone[task]].Finish, d.wait[task])
}

func person(id string) int {
	for i, p := range demoPeople {
		if p == id {
			return i
		}
	}
	return -1
}

// parts are the activities of a task that wait for what it follows.
func (d *demo) parts(task string) []int {
	var list []int
	for j, a := range d.Activities {
		if a.Group == task && a.Kind == Labour {
			list = append(list, j)
		}
	}
	if list != nil {
		return list
	}
	if j, ok := d.labour[task+"away"]; ok {
		return []int{j}
	}
	return []int{d.milestone[task]}
}
