package people

import (
	"encoding/csv"
	"net/http"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

var blast = unit.Day(2026, time.October, 6)

func open(t *testing.T) *placetest.Shop {
	return placetest.Open(t, blast, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

func TestLines_AddUpToThePlan(t *testing.T) {
	s := open(t)
	p, v := s.Plan(t)
	booked, left := map[build.PersonID]unit.Effort{}, map[build.PersonID]unit.Effort{}
	for _, l := range linesOf(p, &v.Build) {
		booked[l.Person] += l.Booked
		left[l.Person] += l.Left
	}
	for _, who := range p.People {
		if booked[who.ID] != who.Booked || left[who.ID] != who.Left {
			t.Errorf("%s: lines of %s booked and %s left, the plan has %s and %s", who.ID, booked[who.ID], left[who.ID], who.Booked, who.Left)
		}
	}
}

func TestPeople_MoneyIsTheOwners(t *testing.T) {
	s := open(t)
	if strings.Contains(s.Get("people").Body, "Cost") {
		t.Error("the crew sees what people cost")
	}
	s.Person.Role = account.Owner
	if !strings.Contains(s.Get("people").Body, "Cost") {
		t.Error("the owner does not see what people cost")
	}
	for _, list := range []string{"people?as=csv", "people?as=csv&list=people"} {
		rows, err := csv.NewReader(strings.NewReader(s.Get(list).Body)).ReadAll()
		if err != nil || len(rows) < 5 {
			t.Errorf("%s holds %d lines, %v", list, len(rows), err)
		}
	}
}

func TestPeople_Propose(t *testing.T) {
	s := open(t)
	s.Post("people/absence", "away-who", "PT", "away-first", "2026-10-19", "away-why", "dentist")
	s.Post("people/closure", "shut-first", "2026-11-05", "shut-last", "2026-11-06", "shut-why", "floor painted")
	s.Post("people/saturdays", "extra-who", "MW", "extra-hours", "6", "extra-day", "2026-10-10", "extra-day", "2026-10-17")
	slip := s.Slip(t)
	if len(slip) != 3 {
		t.Fatalf("%d changes on the slip, want three", len(slip))
	}
	if got := slip[0].(*build.AddAbsence).Absence; got.First != got.Last || got.Person != "PT" {
		t.Errorf("an absence without a last day runs from %s to %s, want one day", got.First, got.Last)
	}
	if got := slip[2].(*build.AddOvertime); len(got.Days) != 2 || got.Hours != 6*unit.Hour {
		t.Errorf("%d Saturdays of %s, want two of 6 h", len(got.Days), got.Hours)
	}
	b := s.Build(t)
	if len(b.Absences)+len(b.Overtime) != 0 {
		t.Error("something was kept before it was seen")
	}
}

// TestPeople_Judge: the owner says what may happen, how likely it is and whether
// it did; the page shows it, and what nobody has judged.
func TestPeople_Judge(t *testing.T) {
	s := open(t)
	s.Person.Role = account.Owner
	body := s.Get("people").Body
	for _, want := range []string{"a fault in the side colours sends them back", "8 in 100", "not judged yet", "the task once more, up to 2 times", "Say whether it happened"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	s.Post("people/judge", "risk-id", "E3", "risk-what", "a gap that does not close", "risk-task", "T12", "risk-chance", "12.5", "risk-times", "1", "risk-costs", "MW", "risk-hours", "10")
	s.Post("people/judge", "risk-id", "E4", "risk-what", "dust in the clear", "risk-task", "T18", "risk-chance", "10", "risk-times", "2", "risk-costs", "whole task")
	s.Post("people/range", "range-of", "late parts", "range-low", "0", "range-mode", "1", "range-high", "6.5", "range-source", "last year")
	s.Post("people/settle", "settle-event", "E2", "settle-did", "no")
	slip := s.Slip(t)
	if len(slip) != 4 {
		t.Fatalf("%d changes on the slip, want four", len(slip))
	}
	if e := slip[0].(*build.JudgeEvent).Event; e.Chance != 0.125 || len(e.Work) != 1 || e.Work[0].Hours != 10*unit.Hour {
		t.Errorf("judged %+v", e)
	}
	if e := slip[1].(*build.JudgeEvent).Event; !e.Again() || e.Times != 2 {
		t.Errorf("judged %+v", e)
	}
	if c := slip[2].(*build.JudgeRange); c.Range != (build.Span{Mode: 1, High: 6.5}) {
		t.Errorf("judged %+v", c)
	}
	if got := s.Post("people/range", "range-of", "people", "range-low", "0", "range-mode", "1", "range-high", "2"); got.Status != http.StatusUnprocessableEntity {
		t.Errorf("people who need nothing: status %d", got.Status)
	}
	s.Person.Role = account.Crew
	if got := s.Post("people/judge").Status; got != http.StatusForbidden {
		t.Errorf("the crew judges: status %d, want 403", got)
	}
}

func TestPeople_Refuse(t *testing.T) {
	s := open(t)
	for _, c := range []struct {
		path, want string
		pairs      []string
	}{
		{"people/absence", "one of: LD", []string{"away-who", "ZZ", "away-first", "2026-10-19", "away-why", "x"}},
		{"people/absence", "lies before the first day", []string{"away-who", "PT", "away-first", "2026-10-19", "away-last", "2026-10-12", "away-why", "x"}},
		{"people/closure", "has passed already", []string{"shut-first", "2026-09-15", "shut-why", "x"}},
		{"people/saturdays", "needs at least one Saturday", []string{"extra-who", "MW", "extra-hours", "6", "extra-day", "2026-10-07"}},
	} {
		got := s.Post(c.path, c.pairs...)
		if got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, c.want) {
			t.Errorf("%s %v: status %d, want 422 that says %q", c.path, c.pairs, got.Status, c.want)
		}
	}
	s.Person.Role = account.Guest
	if got := s.Get("people").Status; got != http.StatusForbidden {
		t.Errorf("a guest looks at the people: status %d, want 403", got)
	}
	if got := s.Post("people/closure").Status; got != http.StatusForbidden {
		t.Errorf("a guest shuts the shop: status %d, want 403", got)
	}
}
