package knockon_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/place/knockon"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

var morning = unit.Day(2026, 10, 6)

// withSheet opens the morning after the blast with the whole sheet on the
// metalworker's slip.
func withSheet(t *testing.T) *placetest.Shop {
	t.Helper()
	s := placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{knockon.Place(d)} })
	changes, err := build.DecodeList(demo.BlastSheet())
	if err != nil {
		t.Fatal(err)
	}
	lay(t, s, changes)
	return s
}

func lay(t *testing.T, s *placetest.Shop, changes []build.Change) {
	t.Helper()
	if err := s.Desk.Shop.SaveSlip(t.Context(), s.Name, s.Person.Code, live.Slip{Changes: changes}); err != nil {
		t.Fatal(err)
	}
}

func TestSlip_ShowsWhatItWouldDo(t *testing.T) {
	s := withSheet(t)
	body := s.Get("slip").Body
	for _, want := range []string{"Findings in metal", "224 h", "310 h", "+86 h", "£49,860", "£52,570", "+£2,710", "Order today", "Q11", "Q12", "Q13", "Decide today"} {
		if !strings.Contains(body, want) {
			t.Errorf("the slip does not say %q", want)
		}
	}
	if n := len(s.Build(t).Findings); n != 31 {
		t.Errorf("looking kept something: %d findings, want 31", n)
	}
	if head := s.Get("slip/headline").Body; !strings.Contains(head, "14") || !strings.Contains(head, "→") {
		t.Errorf("the headline is %q", head)
	}
}

func TestSlip_KeepThenPutBack(t *testing.T) {
	s := withSheet(t)
	before, _ := s.Plan(t)
	if got := s.Post("slip/keep"); got.Status != http.StatusSeeOther || got.See != "/b/pedlar/van" {
		t.Fatalf("keep: %d to %q", got.Status, got.See)
	}
	if n := len(s.Build(t).Findings); n != 45 {
		t.Fatalf("%d findings after keep, want 45", n)
	}
	if left := s.Slip(t); len(left) != 0 {
		t.Errorf("%d changes are still on the slip", len(left))
	}
	_, v := s.Plan(t)
	run := fmt.Sprintf("%d-%d", v.Seq-13, v.Seq)
	if got := s.Post("undo", "undoes", run, "back", "/b/pedlar/metal"); got.Status != http.StatusSeeOther || got.See != "/b/pedlar/metal" {
		t.Fatalf("undo: %d to %q %.200s", got.Status, got.See, got.Body)
	}
	after, _ := s.Plan(t)
	if before.Odds.Ready != after.Odds.Ready || before.Money.Cash != after.Money.Cash || len(s.Build(t).Findings) != 31 {
		t.Error("putting back did not return the old plan")
	}
	if got := s.Post("undo", "undoes", fmt.Sprintf("%d-%d", v.Seq+1, v.Seq+14), "back", "//elsewhere"); got.See != "/b/pedlar/journal" {
		t.Errorf("putting that back leads to %q", got.See)
	}
}

func TestSlip_OneOffAndAllOff(t *testing.T) {
	s := withSheet(t)
	if got := s.Post("slip/drop", "number", "14"); got.Status != http.StatusSeeOther {
		t.Fatalf("drop: %d", got.Status)
	}
	if n := len(s.Slip(t)); n != 13 {
		t.Errorf("%d on the slip, want 13", n)
	}
	s.Post("slip/back")
	if n := len(s.Slip(t)); n != 0 {
		t.Errorf("%d on the slip, want none", n)
	}
	if body := s.Get("slip").Body; !strings.Contains(body, "Nothing on your slip") {
		t.Error("an empty slip does not say what it is for")
	}
}

func TestSlip_SaysWhenTheFactsMovedOn(t *testing.T) {
	s := withSheet(t)
	s.Post("slip/keep")
	changes, _ := build.DecodeList(demo.BlastSheet())
	lay(t, s, changes[:1])
	if body := s.Get("slip").Body; !strings.Contains(body, "The facts have moved on") || !strings.Contains(body, "F32") {
		t.Error("a slip that no longer applies does not say so, and which change")
	}
	if n := len(s.Slip(t)); n != 1 {
		t.Error("what was typed is lost")
	}
}

func TestSlip_IsNotForGuests(t *testing.T) {
	s := withSheet(t)
	s.Person.Role = account.Guest
	for _, path := range []string{"slip/keep", "slip/back", "slip/drop", "undo"} {
		if got := s.Post(path, "number", "1", "undoes", "5"); got.Status != http.StatusForbidden {
			t.Errorf("%s: %d, want 403", path, got.Status)
		}
	}
}

// TestSlip_NamesWhatItAdds: what one change on the slip adds the next names, and a
// check says what to do.
func TestSlip_NamesWhatItAdds(t *testing.T) {
	s := placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{knockon.Place(d)} })
	lay(t, s, []build.Change{&build.AddLook{Look: build.Look{ID: "all-black", Name: "All in Black",
		Zones: []build.LookZone{{Zone: "limewash", Undercoat: "sealer-black"}}}}, &build.ChooseLook{Look: "all-black"}})
	body := s.Get("slip").Body
	for _, want := range []string{"Look chosen: All in Black", "6 coats, not 3", `<span class="knockon-do">Stop`} {
		if !strings.Contains(body, want) {
			t.Errorf("the slip does not say %q", want)
		}
	}
}
