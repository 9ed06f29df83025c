package stores

import (
	"encoding/csv"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

var blast = unit.Day(2026, time.October, 6)

func open(t *testing.T, morning unit.Date) *placetest.Shop {
	return placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

// found keeps the fourteen findings of the morning after the blast.
func found(t *testing.T, s *placetest.Shop) {
	t.Helper()
	changes, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	drafts := make([]live.Draft, len(changes))
	for i, c := range changes {
		drafts[i].Change = c
	}
	if _, err := s.Desk.Shop.Record(t.Context(), "pedlar", journal.AnySeq, live.Who{Person: "LD"}, drafts); err != nil {
		t.Fatal(err)
	}
}

func TestStores_OrderTodayAfterTheBlast(t *testing.T) {
	s := open(t, blast)
	if body := s.Get("stores").Body; !strings.Contains(body, "Nothing is due today. The next last day is") {
		t.Error("before the blast the stores do not say that nothing is due, and what is next")
	}
	found(t, s)
	body := s.Get("stores").Body
	order := body[strings.Index(body, "Order today"):strings.Index(body, "Goods in today")]
	at := -1
	for _, want := range []string{"Q13", "Q12", "Q11"} { // by their last order day, the late one first
		i := strings.Index(order, "/part/"+want)
		if i <= at {
			t.Errorf("%s stands at %d in what to order today, want it after %d", want, i, at)
		}
		at = i
	}
	for _, want := range []string{"/metal/finding/F43", "/metal/finding/F35", "/metal/finding/F33", "/metal/finding/F34", "working days", "passed", ">£</span>", "folded channel 1.6 mm"} {
		if !strings.Contains(order, want) {
			t.Errorf("what to order today does not show %q", want)
		}
	}
	if strings.Count(order, `type="checkbox"`) != 3 {
		t.Errorf("%d parts to tick, want 3", strings.Count(order, `type="checkbox"`))
	}
}

func TestStores_OrdersSeveralAtOnce(t *testing.T) {
	s := open(t, blast)
	found(t, s)
	if got := s.Post("stores/order", "parts", "Q11", "parts", "Q12", "parts", "Q53", "promised", "2026-10-20"); got.Status != http.StatusSeeOther {
		t.Fatalf("order: status %d", got.Status)
	}
	b := s.Build(t)
	for id, from := range map[build.PartID]string{"Q11": "Hollin Panels", "Q12": "Hollin Panels", "Q53": "Loft and Thread"} {
		p := b.Part(id)
		if p.State != build.Promised || p.Ordered != blast || p.Promised != unit.Day(2026, 10, 20) || p.Supplier != from {
			t.Errorf("%s is %s from %s, ordered %v for %v", id, p.State, p.Supplier, p.Ordered, p.Promised)
		}
	}
	if got := s.Post("stores/order"); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, "tick at least one part") {
		t.Errorf("nothing ticked: status %d, want 422 that says so", got.Status)
	}
	if got := s.Post("stores/order", "parts", "Q13", "promised", "2026-10-01"); got.Status != http.StatusUnprocessableEntity {
		t.Errorf("promised before the order: status %d, want 422", got.Status)
	}
	if got := s.Post("stores/order", "parts", "Q99"); got.Status != http.StatusNotFound {
		t.Errorf("a part that is not there: status %d, want 404", got.Status)
	}
}

func TestStores_ReceivesRightAndWrong(t *testing.T) {
	s := open(t, blast)
	if body := s.Get("stores").Body; !strings.Contains(body, `value="Q02" form="receive"`) {
		t.Error("Q02, promised for today, is not among goods in")
	}
	s.Post("stores/receive", "parts", "Q02", "verdict", "right")
	s.Post("stores/receive", "parts", "Q08", "verdict", "wrong", "wrong", "left for right")
	b := s.Build(t)
	if p := b.Part("Q02"); p.State != build.In || p.Arrived != blast || p.Received != 1 {
		t.Errorf("Q02 is %s on %v, %d received; want in today", p.State, p.Arrived, p.Received)
	}
	if p := b.Part("Q08"); p.State != build.Wrong {
		t.Errorf("Q08 is %s, want wrong", p.State)
	}
	if got := s.Post("stores/receive", "parts", "Q04", "verdict", "wrong"); got.Status != http.StatusUnprocessableEntity {
		t.Errorf("wrong without words: status %d, want 422", got.Status)
	}
}

func TestStores_TooFewIsWrongWithTheCount(t *testing.T) {
	s := open(t, unit.Day(2026, time.October, 15))
	if got := s.Post("stores/receive", "parts", "Q13", "verdict", "right", "counted", "1"); got.Status != http.StatusSeeOther {
		t.Fatalf("receive: status %d", got.Status)
	}
	if b := s.Build(t); b.Part("Q13").State != build.Wrong {
		t.Errorf("one of two came: the part is %s, want wrong", b.Part("Q13").State)
	}
	all, err := s.Desk.Shop.Entries(t.Context(), "pedlar")
	if err != nil {
		t.Fatal(err)
	}
	if last := string(all[len(all)-1].Change); !strings.Contains(last, "1 of 2 came") {
		t.Errorf("the journal says %s, want how many came", last)
	}
}

func TestStores_WhatMovesTheDateGoesOnTheSlip(t *testing.T) {
	s := open(t, blast)
	for _, c := range []struct {
		path string
		form []string
		kind string
	}{
		{"part/Q04/promise", []string{"promised", "2026-11-20"}, "promise-part"},
		{"stores/new", []string{"id", "Q70", "name", "roof vent", "quantity", "2", "price", "14,50", "lead", "5", "task", "T10"}, "add-part"},
		{"part/Q53/cancel", []string{"why", "the old frames will do"}, "cancel-part"},
	} {
		if got := s.Post(c.path, c.form...); got.See != "/b/pedlar/slip" {
			t.Errorf("%s leads to %q with status %d, want the slip", c.path, got.See, got.Status)
		}
		if slip := s.Slip(t); len(slip) == 0 || slip[len(slip)-1].Kind() != c.kind {
			t.Errorf("%s: the slip ends otherwise than with %s", c.path, c.kind)
		}
	}
	if late := s.Slip(t)[0].(*build.PromisePart).Late; !late {
		t.Error("a promise after the day it is needed is not called late")
	}
	if p := s.Slip(t)[1].(*build.AddPart).Part; p.Price != 14_50 {
		t.Errorf("price = %d, want 1450 hundredths", p.Price)
	}
	if b := s.Build(t); b.Part("Q70") != nil {
		t.Error("a part on the slip is kept already")
	}
}

func TestStores_FormsSayWhatIsWrong(t *testing.T) {
	s := open(t, blast)
	for _, c := range []struct{ path, name, value, want string }{
		{"part/Q04/promise", "promised", "", "please give the day they said"},
		{"part/Q04/promise", "promised", "2026-09-01", "lies before the order"},
		{"part/Q53/cancel", "why", "", "please fill it in"},
		{"stores/new", "id", "Q01", "is taken"},
		{"stores/new", "task", "T99", "is not on the list of tasks"},
	} {
		if got := s.Post(c.path, c.name, c.value); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, c.want) {
			t.Errorf("%s with %s %q: status %d, want 422 with %q", c.path, c.name, c.value, got.Status, c.want)
		}
	}
}

func TestStores_FileHoldsEveryPart(t *testing.T) {
	s := open(t, blast)
	rows, err := csv.NewReader(strings.NewReader(s.Get("stores?as=csv").Body)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if want := len(s.Build(t).Parts) + 1; len(rows) != want {
		t.Errorf("%d rows, want %d with the headings", len(rows), want)
	}
	cost := slices.Index(rows[0], "Cost, £")
	if i := slices.IndexFunc(rows, func(r []string) bool { return r[0] == "Q09" }); cost < 0 || rows[i][cost] != "given" {
		t.Errorf("headings %v; a given part is not told", rows[0])
	}
}

func TestStores_HidesPrices(t *testing.T) {
	s := open(t, blast)
	for _, as := range []string{"", "&as=csv", "&as=paper"} {
		body := s.Get("stores?prices=hide" + as).Body
		for _, price := range []string{"£385", ">385<", ",385,", "£285"} {
			if strings.Contains(body, price) {
				t.Errorf("prices=hide%s shows %s", as, price)
			}
		}
	}
}

func TestStores_PapersDraw(t *testing.T) {
	s := open(t, blast)
	found(t, s)
	for path, want := range map[string][]string{
		"stores?as=paper":                                    {"Larkmere Pedlar", "To order today", "Q60"},
		"stores/order?supplier=Hollin+Panels":                {"Hollin Panels", "A-post foot section L", "£", "214", "Confirmed for"},
		"stores/order?supplier=Hollin+Panels&day=2026-09-29": {"front wing L", "inner wing L", "599"},
	} {
		got := s.Get(path)
		if got.Status != http.StatusOK {
			t.Errorf("%s: status %d", path, got.Status)
		}
		for _, w := range want {
			if !strings.Contains(got.Body, w) {
				t.Errorf("%s does not show %q", path, w)
			}
		}
	}
}

func TestStores_EveryPartHasItsPage(t *testing.T) {
	s := open(t, unit.Day(2026, time.December, 1))
	for _, p := range s.Build(t).Parts {
		if got := s.Get("part/" + string(p.ID)); got.Status != http.StatusOK || !strings.Contains(got.Body, p.Name) {
			t.Errorf("%s: status %d", p.ID, got.Status)
		}
	}
	if got := s.Get("part/Q99"); got.Status != http.StatusNotFound {
		t.Errorf("a part that is not there: status %d, want 404", got.Status)
	}
}

func TestStores_GuestsLookOnly(t *testing.T) {
	s := open(t, blast)
	s.Person.Role = account.Guest
	if got := s.Get("stores"); got.Status != http.StatusOK || strings.Contains(got.Body, `type="checkbox"`) {
		t.Errorf("a guest looks: status %d, with boxes to tick: %v", got.Status, strings.Contains(got.Body, `type="checkbox"`))
	}
	for _, path := range []string{"stores/order", "stores/receive", "stores/new", "part/Q04/promise", "part/Q53/cancel"} {
		if got := s.Post(path, "parts", "Q53").Status; got != http.StatusForbidden {
			t.Errorf("a guest posts to %s: status %d, want 403", path, got)
		}
	}
}
