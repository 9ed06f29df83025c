package away

import (
	"encoding/csv"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/unit"
)

func open(t *testing.T, morning unit.Date) *placetest.Shop {
	return placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d)} })
}

func loadOf(t *testing.T, s *placetest.Shop, id build.OutworkID) plan.Load {
	t.Helper()
	p, _ := s.Plan(t)
	i := slices.IndexFunc(p.Loads, func(l plan.Load) bool { return l.ID == id })
	if i < 0 {
		t.Fatalf("no load %s", id)
	}
	return p.Loads[i]
}

// starts are the days on which every task begins in the plain plan.
func starts(t *testing.T, s *placetest.Shop) map[build.TaskID]unit.Date {
	t.Helper()
	p, _ := s.Plan(t)
	days := map[build.TaskID]unit.Date{}
	for _, task := range p.Tasks {
		days[task.ID] = task.Start.Date()
	}
	return days
}

// TestAway_TwentyTwoOfTwentyThree counts the plating back short by one.
func TestAway_TwentyTwoOfTwentyThree(t *testing.T) {
	s := open(t, unit.Day(2026, time.December, 21))
	before := starts(t, s)
	if got := s.Post("load/O2/receive", "counted", "22"); got.Status != http.StatusUnprocessableEntity || !strings.Contains(got.Body, "22 of 23 came back, please say what is missing") {
		t.Fatalf("22 without words: status %d, want 422 that asks what is missing", got.Status)
	}
	got := s.Post("load/O2/receive", "counted", "22", "short", "left handle escutcheon of G04-11", "bag", "G04-11", "task", "T29")
	if got.Status != http.StatusSeeOther || got.See != "/b/pedlar/load/O2" {
		t.Fatalf("22 with words: status %d to %q", got.Status, got.See)
	}
	b := s.Build(t)
	if o := b.Load("O2"); o.State != build.Claimed || o.Counted != 22 || o.Returned != unit.Day(2026, 12, 21) {
		t.Errorf("O2 is %s with %d back on %v, want claimed, 22, today", o.State, o.Counted, o.Returned)
	}
	if bag := b.Bag("G04-11"); bag.State != build.BagShort {
		t.Errorf("the bag is %s, want short", bag.State)
	}
	var wanted []build.Part
	for _, p := range b.Parts {
		if strings.HasPrefix(p.Name, missingMark("O2")) {
			wanted = append(wanted, p)
		}
	}
	if len(wanted) != 1 || wanted[0].Task != "T29" || wanted[0].Quantity != 1 {
		t.Fatalf("wanted = %+v, want the one piece, for T29", wanted)
	}
	after := starts(t, s)
	for id, day := range before {
		if id != "T29" && id != "T31" && id != "T33" && after[id] != day { // T31 and T33 follow T29
			t.Errorf("%s began %v and now %v: only T29 may be held", id, day, after[id])
		}
	}
	if after["T29"] <= before["T29"] {
		t.Errorf("T29 began %v and now %v, want it held", before["T29"], after["T29"])
	}
	if body := s.Get("load/O2").Body; !strings.Contains(body, "Only T29 Doors, lamps, bright work waits for it.") {
		t.Error("the load does not say that only T29 waits")
	}
}

func TestAway_AWayToGetThePieceAgain(t *testing.T) {
	s := open(t, unit.Day(2026, time.December, 21))
	s.Post("load/O2/receive", "counted", "22", "short", "left handle escutcheon", "bag", "G04-11", "task", "T29")
	if got := s.Post("load/O2/way", "how", "left handle escutcheon, made anew", "lead", "9", "price", "85"); got.See != "/b/pedlar/slip" {
		t.Fatalf("a way leads to %q with status %d, want the slip", got.See, got.Status)
	}
	slip := s.Slip(t)
	if len(slip) != 2 || slip[0].Kind() != "cancel-part" {
		t.Fatalf("slip = %v, want what stood for the piece off and the way on", slip)
	}
	if p := slip[1].(*build.AddPart).Part; p.Price != 85_00 || p.Lead != 9 || p.Task != "T29" {
		t.Errorf("the way is %d in %d days for %s, want 8500, 9, T29", p.Price, p.Lead, p.Task)
	}
	trial, err := s.Desk.Shop.Try(t.Context(), "pedlar", slip)
	if err != nil {
		t.Fatal(err)
	}
	if got := trial.KnockOn.After.Cash - trial.KnockOn.Before.Cash; got != 85_00 {
		t.Errorf("cash moves by %d, want 8500", got)
	}
}

func TestAway_ClaimAndNotePapers(t *testing.T) {
	s := open(t, unit.Day(2026, time.December, 21))
	if got := s.Get("load/O2/claim"); got.Status != http.StatusNotFound {
		t.Errorf("a claim with nothing missing: status %d, want 404", got.Status)
	}
	s.Post("load/O2/receive", "counted", "22", "short", "left handle escutcheon of G04-11", "task", "T29")
	for path, want := range map[string][]string{
		"load/O2/claim": {"22 of 23", "left handle escutcheon of G04-11", "Tue 20 Oct 2026", "Received by"},
		"load/O2/note":  {"Dispatch note", "copper-nickel-chrome", "23", "Photo as sent", "Photo as returned", "Handed over"},
		"away?as=paper": {"Bright plating", "Glass"},
	} {
		got := s.Get(path)
		for _, w := range want {
			if got.Status != http.StatusOK || !strings.Contains(got.Body, w) {
				t.Errorf("%s: status %d, without %q", path, got.Status, w)
			}
		}
	}
}

// TestAway_ChasedOnTheSlip lays what the plater says on the slip: 45 working
// days move nothing, 65 move the date.
func TestAway_ChasedOnTheSlip(t *testing.T) {
	for _, c := range []struct {
		form  []string
		days  int
		moves bool
	}{
		{[]string{"likely", "45"}, 45, false},
		{[]string{"likely", "65", "said", "tank down"}, 65, true},
		{[]string{"back", "2026-12-22"}, 45, false}, // the 45th working day after 20 October
	} {
		s := open(t, unit.Day(2026, time.December, 1))
		if got := s.Post("load/O2/chase", c.form...); got.See != "/b/pedlar/slip" {
			t.Fatalf("%v leads to %q with status %d", c.form, got.See, got.Status)
		}
		slip := s.Slip(t)
		if got := slip[0].(*build.ChaseAway).Likely; got != c.days {
			t.Errorf("%v: %d working days, want %d", c.form, got, c.days)
		}
		trial, err := s.Desk.Shop.Try(t.Context(), "pedlar", slip)
		if err != nil {
			t.Fatal(err)
		}
		moved := int(trial.KnockOn.After.P80 - trial.KnockOn.Before.P80)
		if (moved > 3) != c.moves {
			t.Errorf("%v moves the 80 %% date by %d days, want a move: %v", c.form, moved, c.moves)
		}
	}
}

func TestAway_HoldsBackWhatIsNotEngraved(t *testing.T) {
	s := open(t, unit.Day(2026, time.October, 7))
	if body := s.Get("load/O2").Body; !strings.Contains(body, "O4 Engraving must be back first") {
		t.Error("the plating does not say that the engraving comes first")
	}
	if got := s.Post("load/O2/send", "pieces", "23"); got.Status != http.StatusUnprocessableEntity {
		t.Errorf("sent before the engraving is back: status %d, want 422", got.Status)
	}
	if got := s.Post("load/O2/send", "pieces", "11", "anyway", "yes", "bags", "G01-01, G04-05"); got.Status != http.StatusSeeOther {
		t.Fatalf("11 plain pieces: status %d", got.Status)
	}
	b := s.Build(t)
	if o := b.Load("O2"); o.State != build.Away || o.Pieces != 11 || b.Bag("G04-05").State != build.BagOut {
		t.Errorf("O2 is %s with %d pieces, the bag is %s", o.State, o.Pieces, b.Bag("G04-05").State)
	}
}

func TestAway_ListShowsRoom(t *testing.T) {
	s := open(t, unit.Day(2026, time.November, 6))
	want := loadOf(t, s, "O2")
	rows, err := csv.NewReader(strings.NewReader(s.Get("away?as=csv").Body)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 7 {
		t.Fatalf("%d rows, want six loads and the headings", len(rows))
	}
	i := slices.IndexFunc(rows, func(r []string) bool { return strings.HasPrefix(r[0], "O2") })
	if rows[i][3] != want.Back.String() || rows[i][4] != want.NeedBy.String() || rows[i][5] != days(want.Float)+" to spare" {
		t.Errorf("O2 is written %v, want back %v, needed %v, float %d", rows[i], want.Back, want.NeedBy, want.Float)
	}
	for _, l := range s.Build(t).Outwork {
		if got := s.Get("load/" + string(l.ID)); got.Status != http.StatusOK {
			t.Errorf("%s: status %d", l.ID, got.Status)
		}
	}
	if got := s.Get("load/O9"); got.Status != http.StatusNotFound {
		t.Errorf("a load that is not there: status %d, want 404", got.Status)
	}
}

// TestAway_RoomGoesThroughTheNextLoad expects the engraving to have the room of
// the plating that alone waits for it.
func TestAway_RoomGoesThroughTheNextLoad(t *testing.T) {
	s := open(t, unit.Day(2026, time.October, 7))
	engraving, plating := loadOf(t, s, "O4"), loadOf(t, s, "O2")
	if engraving.Float != plating.Float || plating.Float < 28 || plating.Float > 36 {
		t.Fatalf("floats of O4 and O2 = %d and %d, want the same, about 33", engraving.Float, plating.Float)
	}
	if body := s.Get("load/O4").Body; !strings.Contains(body, days(engraving.Float)+" to spare") {
		t.Errorf("the engraving does not show %d days to spare", engraving.Float)
	}
}

func TestAway_HidesPrices(t *testing.T) {
	s := open(t, unit.Day(2026, time.November, 6))
	for _, path := range []string{"away?prices=hide", "away?prices=hide&as=csv", "away?prices=hide&as=json", "load/O2?prices=hide"} {
		if body := s.Get(path).Body; strings.Contains(body, "2,380") || strings.Contains(body, "2380") {
			t.Errorf("%s shows what plating costs", path)
		}
	}
}

func TestAway_GuestsLookOnly(t *testing.T) {
	s := open(t, unit.Day(2026, time.December, 21))
	s.Person.Role = account.Guest
	if got := s.Get("load/O2"); got.Status != http.StatusOK || strings.Contains(got.Body, `method="post" action="/b/`) {
		t.Errorf("a guest looks: status %d, with forms: %v", got.Status, strings.Contains(got.Body, `action="/b/`))
	}
	for _, act := range []string{"send", "chase", "receive", "way"} {
		if got := s.Post("load/O2/"+act, "counted", "22").Status; got != http.StatusForbidden {
			t.Errorf("a guest posts to %s: status %d, want 403", act, got)
		}
	}
}
