package schedule

import (
	"os"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The demo network: day 0 is Monday 14 September 2026.
var demoOrigin = time.Date(2026, 9, 14, 0, 0, 0, 0, time.UTC)

const day = 1440

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
	short bool // short days at full speed; else long days at reduced speed
	now   Minute
}

var demoPeople = []string{"LD", "MW", "PT", "WA", "TR"}
var demoWeek = map[string]Minute{"LD": 24, "MW": 40, "PT": 40, "WA": 38, "TR": 28}

type demo struct {
	Problem
	milestone map[string]int // task -> its milestone
	labour    map[string]int // task+person -> activity
}

func newDemo(t testing.TB, s shop) *demo {
	t.Helper()
	text, err := os.ReadFile("testdata/demo.txt")
	if err != nil {
		t.Fatal(err)
	}
	d := &demo{milestone: map[string]int{}, labour: map[string]int{}}
	d.Calendars = []Calendar{weekdays(480, 500)}
	for i, p := range demoPeople {
		open := Minute(480)
		if s.short {
			open = demoWeek[p] * 60 / 5
		}
		d.Calendars = append(d.Calendars, weekdays(open, 500))
		d.People = append(d.People, Person{ID: p, Calendar: i + 1})
	}
	d.Now = s.now
	type follow struct{ task, after string }
	var follows []follow
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		f := strings.Split(line, "|")
		for i := range f {
			f[i] = strings.TrimSpace(f[i])
		}
		hours := f[1]
		if s.after && f[2] != "" {
			hours = f[2]
		}
		wait, _ := strconv.Atoi(f[4])
		d.task(f[0], hours, Minute(wait), s.short)
		for _, after := range strings.Fields(f[3]) {
			if after != "-" {
				follows = append(follows, follow{f[0], after})
			}
		}
	}
	for _, f := range follows {
		for _, part := range d.parts(f.task) {
			d.Links = append(d.Links, Link{From: d.milestone[f.after], To: part, Calendar: -1})
		}
	}
	return d
}

// task adds one labour activity per person, the wait, and the milestone.
func (d *demo) task(id, hours string, wait Minute, short bool) {
	var parts []int
	for _, h := range strings.Fields(hours) {
		if h == "-" {
			continue
		}
		n, _ := strconv.Atoi(h[2:])
		work := Minute(n) * 60
		if !short {
			work = work * 40 / demoWeek[h[:2]]
		}
		parts = append(parts, len(d.Activities))
		d.labour[id+h[:2]] = len(d.Activities)
		d.Activities = append(d.Activities, Activity{ID: id + " " + h[:2], Group: id, Kind: Labour, Work: work, Who: []int{person(h[:2])}})
	}
	if len(parts) == 0 || id == "T05" {
		w := len(d.Activities)
		d.Activities = append(d.Activities, Activity{ID: id + " away", Group: id, Kind: Passive, Work: wait * 480, Calendar: 0})
		for _, p := range parts {
			d.Links = append(d.Links, Link{From: p, To: w, Calendar: -1})
		}
		d.labour[id+"away"] = w
		parts, wait = []int{w}, 0
	}
	m := len(d.Activities)
	d.milestone[id] = m
	d.Activities = append(d.Activities, Activity{ID: id, Group: id, Kind: Milestone})
	for _, p := range parts {
		d.Links = append(d.Links, Link{From: p, To: m, Lag: wait * 480, Calendar: 0})
	}
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
