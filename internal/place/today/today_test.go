package today

import (
	"encoding/csv"
	"net/http"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/turn"
	"fettle/internal/web"
	"fettle/unit"
)

var blast = unit.Day(2026, time.October, 6)

func open(t *testing.T, morning unit.Date) *placetest.Shop {
	return placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

func TestToday_IsTheAskersOwn(t *testing.T) {
	s := open(t, blast)
	body := s.Get("today").Body
	for _, want := range []string{"Metalworker", "T07", "Findings sweep", "Chalk every place", "Parts due in"} {
		if !strings.Contains(body, want) {
			t.Errorf("the metalworker's day does not say %q", want)
		}
	}
	if strings.Contains(body, "Order today") {
		t.Error("orders stand on the list of somebody who does not lead")
	}
	if body := s.Get("today?who=LD").Body; !strings.Contains(body, "Order today") {
		t.Error("orders are missing from the lead's list")
	}
	s.Person.Code = "the treasurer"
	if body := s.Get("today").Body; !strings.Contains(body, "Sets the date") {
		t.Error("who is not of the crew does not see everybody's day")
	}
	if got := s.Get("today?who=ZZ").Status; got != http.StatusNotFound {
		t.Errorf("a stranger's day: status %d, want 404", got)
	}
}

// TestHuddle_AddsUp holds the morning's list to the plan on every day of the
// next weeks: nobody is given more hours than their day has, and every hour
// left is given out once.
func TestHuddle_AddsUp(t *testing.T) {
	s := open(t, blast)
	p, v := s.Plan(t)
	given := map[build.PersonID]unit.Effort{}
	for d := blast; d < blast+200; d++ {
		for _, who := range v.Build.People {
			var sum unit.Effort
			for _, st := range turn.On(p, &v.Build, who.ID, d) {
				sum += st.Hours
			}
			from, to := turn.Hours(&v.Build, who.ID, d)
			if sum > unit.Effort(to-from) {
				t.Errorf("%s on %s: %s of work in a day of %s", who.ID, d, sum, unit.Effort(to-from))
			}
			given[who.ID] += sum
		}
	}
	for _, who := range p.People {
		if d := given[who.ID] - who.Left; d < -5 || d > 5 {
			t.Errorf("%s: %s given out by days, %s left in the plan", who.ID, given[who.ID], who.Left)
		}
	}
}

func TestObstacle_NamesTheNearest(t *testing.T) {
	s := open(t, blast)
	p, v := s.Plan(t)
	stint := func(id build.TaskID) turn.Stint {
		for _, who := range v.Build.People {
			for _, st := range turn.Next(p, who.ID, 0, 100) {
				if st.Task.ID == id {
					return st
				}
			}
		}
		t.Fatalf("%s has no stint", id)
		return turn.Stint{}
	}
	for _, c := range []struct {
		task build.TaskID
		want string
	}{
		{"T07", ""}, {"T09", "after T08"}, {"T26", "O5 Embossed leather is not back"},
	} {
		if got := turn.Obstacle(p, &v.Build, stint(c.task)); !strings.HasPrefix(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("%s: %q is in the way, want %q", c.task, got, c.want)
		}
	}
	b := v.Build.Clone()
	b.Findings = append(b.Findings, build.Finding{ID: "F99", What: "lace under the seal", Task: "T07"})
	if got, want := turn.Obstacle(p, &b, stint("T07")), "F99 lace under the seal is not decided"; got != want {
		t.Errorf("an open decision: %q is in the way, want %q", got, want)
	}
}

func TestToday_File(t *testing.T) {
	s := open(t, blast)
	rows, err := csv.NewReader(strings.NewReader(s.Get("today?who=all&as=csv").Body)).ReadAll()
	if err != nil || len(rows) < 5 {
		t.Errorf("the file holds %d lines, %v; want a head and one for each of four at work", len(rows), err)
	}
}
