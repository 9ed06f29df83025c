package wall

import (
	"encoding/csv"
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"

	"fettle/internal/account"
	"fettle/plan"
	"fettle/unit"
)

func TestWhy_ThePromisedDay(t *testing.T) {
	s := open(t, november)
	if body := s.Get("wall").Body; !strings.Contains(body, "Why not by 19 Feb?") || !strings.Contains(body, `href="/b/pedlar/wall/why"`) {
		t.Error("the wall does not lead to the page")
	}
	if body := s.Get("wall/why").Body; !strings.Contains(body, `hx-get="/b/pedlar/wall/why/found?day=2027-02-19"`) || !strings.Contains(body, "day=2027-02-19&amp;now=1") {
		t.Error("the page answers at once with neither a fragment to fetch nor a plain link")
	}
	found := s.Get("wall/why/found?day=2027-02-19").Body
	for _, want := range []string{"It can be met", "to spare", "Ready by Fri 19 Feb 2027", "What would help", "Painter: an hour longer every day", "At most",
		"yes: ways out", "sheet and their word hold", "Two together, the best"} {
		if !strings.Contains(found, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(found, "What cannot all hold") {
		t.Error("a day that can be met is told to clash")
	}
	if body := s.Get("wall/why").Body; !strings.Contains(body, "It can be met") {
		t.Error("what is known is not on the page at once")
	}
}

func TestWhy_ADayThatIsRuledOut(t *testing.T) {
	s := open(t, november)
	p, v := s.Plan(t)
	day := p.Bound - 1
	body := s.Get("wall/why?now=1&day=" + day.String()).Body
	x, _, err := s.Desk.Shop.Why(t.Context(), "pedlar", day)
	if err != nil || x.Verdict != plan.DayRuled {
		t.Fatalf("%v, %v", x, err)
	}
	for _, want := range []string{"It cannot be met", "What cannot all hold", "Everything is finished by " + day.Long(), "Paint, in order", "T16 ", "Together until that day",
		"Nobody works more than their own hours", "can be left out", "By itself over on", `popovertarget="w-clash-0"`, "The promised day"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	for _, l := range x.Clash {
		for _, id := range slices.Concat(l.Steps...) {
			if name, _, _ := strings.Cut(v.Build.Task(id).Name, ":"); !strings.Contains(body, string(id)+" "+name) {
				t.Errorf("the page does not name %s %s", id, name)
			}
		}
	}
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(s.Get("wall/why?as=csv&day="+day.String()).Body, "\ufeff"))).ReadAll()
	if err != nil || len(rows) != len(x.Helps)+1 {
		t.Errorf("%d lines in the file, %v; want %d", len(rows), err, len(x.Helps)+1)
	}
	var again plan.WhyNot
	if err := json.Unmarshal([]byte(s.Get("wall/why?as=json&day="+day.String()).Body), &again); err != nil || again.Says != x.Says || len(again.Clash) != len(x.Clash) {
		t.Errorf("as JSON: %v, %q", err, again.Says)
	}
}

func TestWhy_WhatCannotBeAsked(t *testing.T) {
	s := open(t, november)
	for _, day := range []string{"soon", "2040-01-01", "0001-01-01"} {
		if got := s.Get("wall/why?day=" + day); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, "is not within two years") {
			t.Errorf("%q: status %d, want 422 with the reason", day, got.Status)
		}
		if got := s.Get("wall/why/found?day=" + day).Status; got != http.StatusUnprocessableEntity {
			t.Errorf("the fragment of %q: status %d, want 422", day, got)
		}
	}
	if _, _, err := s.Desk.Shop.Why(t.Context(), "pedlar", unit.Day(2040, 1, 1)); err == nil {
		t.Error("a day that is too far off is answered")
	}
	if body := s.Get("wall/why?now=1&day=2026-11-01").Body; !strings.Contains(body, "is past, and work is left") {
		t.Error("a day that is past is not told to be")
	}
	s.Person.Role = account.Guest
	if got := s.Get("wall/why").Status; got != http.StatusForbidden {
		t.Errorf("a guest asks: status %d, want 403", got)
	}
}
