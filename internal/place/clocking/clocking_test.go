package clocking

import (
	"encoding/csv"
	"fmt"
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

// entries are the hours of a person on a day, as told on the day sheet.
func entries(b build.Build, who build.PersonID, day unit.Date) (list []string) {
	for _, h := range b.Hours {
		if h.Person == who && h.Start.Date() == day {
			stop := ""
			if h.Stop != 0 {
				stop = h.Stop.Clock()
			}
			list = append(list, fmt.Sprintf("%s %s-%s %s", h.Task, h.Start.Clock(), stop, h.Worked))
		}
	}
	return list
}

func same(t *testing.T, what string, got, want []string) {
	t.Helper()
	if strings.Join(got, "; ") != strings.Join(want, "; ") {
		t.Errorf("%s: %q, want %q", what, got, want)
	}
}

func TestClocking_OnOverAndOff(t *testing.T) {
	s := open(t)
	s.At(blast, 8, 2)
	if got := s.Post("clocking/on", "person", "MW", "task", "T07"); got.See != "/b/pedlar/clocking" {
		t.Fatalf("on: status %d, leads to %q", got.Status, got.See)
	}
	same(t, "on", entries(s.Build(t), "MW", blast), []string{"T07 08:02- 0 h"})
	b := s.Build(t)
	if got := b.Task("T07").State; got != build.Begun {
		t.Errorf("clocking on leaves T07 %s, want begun", got)
	}
	s.At(blast, 10, 2)
	s.Post("clocking/on", "person", "MW", "task", "T24")
	same(t, "moved over", entries(s.Build(t), "MW", blast), []string{"T07 08:02-10:02 2 h", "T24 10:02- 0 h"})
	if body := s.Get("clocking/MW").Body; !strings.Contains(body, "STOP") || !strings.Contains(body, "since 10:02") {
		t.Error("the page of a person at work shows neither STOP nor since when")
	}
	s.At(blast, 11, 32)
	s.Post("clocking/off", "person", "MW")
	same(t, "off", entries(s.Build(t), "MW", blast), []string{"T07 08:02-10:02 2 h", "T24 10:02-11:32 1.5 h"})
	if body := s.Get("clocking/MW").Body; strings.Contains(body, "STOP") {
		t.Error("the page of a person off the clock still shows STOP")
	}
}

func TestClocking_OffersTodaysTasksFirst(t *testing.T) {
	s := open(t)
	body := s.Get("clocking/MW").Body
	today, rest, _ := strings.Cut(body, "Other tasks of your trade")
	for _, id := range []string{"T07", "T06"} {
		if !strings.Contains(today, `name="task" value="`+id+`"`) {
			t.Errorf("%s is not among today's tasks of the metalworker", id)
		}
	}
	if !strings.Contains(rest, `name="task" value="T08"`) || strings.Contains(today, `value="T08"`) {
		t.Error("T08 begins on a later day and belongs with the other tasks")
	}
}

func TestClocking_CountsOnceHoweverOftenItIsSent(t *testing.T) {
	s := open(t)
	const entry = "01900000-0000-7000-8000-000000000001"
	for range 3 {
		s.Post("clocking/on", "person", "PT", "task", "T06", "entry", entry)
	}
	same(t, "sent three times", entries(s.Build(t), "PT", blast), []string{"T06 08:00- 0 h"})
}

// TestClocking_CountsFromTheTouch sends what waited on a tablet that could not
// reach the server.
func TestClocking_CountsFromTheTouch(t *testing.T) {
	for _, c := range []struct {
		name  string
		ago   time.Duration
		start string
	}{
		{"sent at once", 2 * time.Second, "09:00"},
		{"waited for half an hour", 30 * time.Minute, "08:30"},
		{"a tablet with a wrong year", 400 * 24 * time.Hour, "09:00"},
		{"a tablet whose clock is ahead", -time.Hour, "09:00"},
	} {
		s := open(t)
		s.At(blast, 9, 0)
		s.Post("clocking/on", "person", "MW", "task", "T07", "at", fmt.Sprint(s.Clock().Add(-c.ago).UnixMilli()))
		same(t, c.name, entries(s.Build(t), "MW", blast), []string{"T07 " + c.start + "- 0 h"})
	}
}

func TestClocking_OffersAForgottenStopBack(t *testing.T) {
	tomorrow := blast + 1
	forgotten := func(t *testing.T) *placetest.Shop {
		s := open(t)
		s.At(blast, 9, 12)
		s.Post("clocking/on", "person", "MW", "task", "T07")
		s.At(tomorrow, 8, 5)
		return s
	}
	t.Run("it is asked for", func(t *testing.T) {
		body := forgotten(t).Get("clocking/MW").Body
		for _, want := range []string{"You were still on", "09:12", "Tue 6 Oct 2026", `value="16:00"`} {
			if !strings.Contains(body, want) {
				t.Errorf("the page does not say %q", want)
			}
		}
		if strings.Contains(body, "STOP") {
			t.Error("a forgotten stop is offered as one of today")
		}
	})
	t.Run("answered with a time", func(t *testing.T) {
		s := forgotten(t)
		s.Post("clocking/off", "person", "MW", "time", "14:42")
		same(t, "yesterday", entries(s.Build(t), "MW", blast), []string{"T07 09:12-14:42 5.5 h"})
	})
	t.Run("answered with a time before the start", func(t *testing.T) {
		s := forgotten(t)
		got := s.Post("clocking/off", "person", "MW", "time", "08:00")
		if got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, "lies before the start at 09:12") {
			t.Errorf("status %d, want 422 with the reason", got.Status)
		}
	})
	t.Run("not answered", func(t *testing.T) {
		s := forgotten(t)
		s.Post("clocking/on", "person", "MW", "task", "T06")
		same(t, "yesterday", entries(s.Build(t), "MW", blast), []string{"T07 09:12-16:00 6.8 h"})
		same(t, "today", entries(s.Build(t), "MW", tomorrow), []string{"T06 08:05- 0 h"})
	})
}

func TestSheet_MarksGapsAndDoubles(t *testing.T) {
	s := open(t)
	s.At(blast, 17, 0)
	for _, l := range [][3]string{{"08:00", "10:00", "T07"}, {"10:30", "12:30", "T07"}, {"12:00", "16:00", "T06"}} {
		got := s.Post("clocking/line", "person", "MW", "day", "2026-10-06", "from", l[0], "to", l[1], "task", l[2])
		if got.See != "/b/pedlar/clocking/MW/sheet?day=2026-10-06" {
			t.Fatalf("line %v: status %d, leads to %q", l, got.Status, got.See)
		}
	}
	body := s.Get("clocking/MW/sheet?day=2026-10-06").Body
	for _, want := range []string{"gap of 30 min before", "30 min counted twice", "a full day", "Take back"} {
		if !strings.Contains(body, want) {
			t.Errorf("the day sheet does not say %q", want)
		}
	}
	rows, err := csv.NewReader(strings.NewReader(s.Get("clocking/MW/sheet?day=2026-10-06&as=csv").Body)).ReadAll()
	if err != nil || len(rows) != 4 || rows[3][5] != "4" {
		t.Errorf("the file holds %q, %v; want a head and three lines, the last of 4 h", rows, err)
	}
	for _, c := range []struct{ from, to, want string }{
		{"16:00", "15:00", "lies before the start"}, {"18:00", "19:00", "has not come yet"}, {"noon", "13:00", "is not a time"},
	} {
		got := s.Post("clocking/line", "person", "MW", "day", "2026-10-06", "from", c.from, "to", c.to, "task", "T06")
		if got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, c.want) {
			t.Errorf("from %s to %s: status %d, want 422 that says %q", c.from, c.to, got.Status, c.want)
		}
	}
}

func TestSheet_ListsWhatCanBeTakenBack(t *testing.T) {
	s := open(t)
	s.Post("clocking/on", "person", "MW", "task", "T07")
	s.At(blast, 9, 0)
	s.Post("clocking/off", "person", "MW")
	body := s.Get("clocking/MW/sheet").Body
	on, off := strings.Index(body, "MW starts T07"), strings.Index(body, "MW stops at 09:00")
	if on < 0 || off < 0 || off > on {
		t.Errorf("the acts stand at %d and %d, want the stop before the start it follows", on, off)
	}
}

func TestGuest_LooksOnly(t *testing.T) {
	s := open(t)
	s.Person.Role = account.Guest
	for _, path := range []string{"clocking/on", "clocking/off", "clocking/line"} {
		if got := s.Post(path, "person", "MW", "task", "T07").Status; got != http.StatusForbidden {
			t.Errorf("a guest posts to %s: status %d, want 403", path, got)
		}
	}
}

func TestClocking_RefusesStrangers(t *testing.T) {
	s := open(t)
	if got := s.Post("clocking/on", "person", "ZZ", "task", "T07").Status; got != http.StatusNotFound {
		t.Errorf("a stranger: status %d, want 404", got)
	}
	if got := s.Post("clocking/off", "person", "MW").Status; got < 400 {
		t.Errorf("stopping who is off the clock: status %d, want a refusal", got)
	}
}
