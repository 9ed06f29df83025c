package journal

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	store "fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/place/knockon"
	"fettle/internal/placetest"
	"fettle/internal/web"
	"fettle/unit"
)

var after = unit.Day(2026, time.October, 7)

func open(t *testing.T, morning unit.Date) *placetest.Shop {
	return placetest.Open(t, morning, func(d desk.Desk) []web.Place { return []web.Place{Place(d), knockon.Place(d)} })
}

func rowsOf(t *testing.T, s *placetest.Shop, query string) []row {
	t.Helper()
	var rows []row
	if err := json.Unmarshal([]byte(s.Get("journal?as=json"+query).Body), &rows); err != nil {
		t.Fatal(err)
	}
	return rows
}

// entry returns the entry of that kind and thing.
func entry(t *testing.T, s *placetest.Shop, kind, of string) row {
	t.Helper()
	for _, one := range rowsOf(t, s, "&kind="+kind+"&of="+of) {
		return one
	}
	t.Fatalf("the journal has no %s of %s", kind, of)
	return row{}
}

func TestJournal_NewestFirstInWords(t *testing.T) {
	s := open(t, after)
	rows := rowsOf(t, s, "")
	all, err := s.Desk.Shop.Entries(t.Context(), "pedlar")
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != len(all) || rows[0].Seq != all[len(all)-1].Seq || rows[len(rows)-1].Seq != 1 {
		t.Fatalf("%d rows from %d to %d, want all %d, the newest first", len(rows), rows[0].Seq, rows[len(rows)-1].Seq, len(all))
	}
	for _, one := range rows {
		if one.Says == "" || one.Says == one.Kind || one.Person == "" {
			t.Errorf("entry %d says %q by %q", one.Seq, one.Says, one.Person)
		}
	}
	if got := entry(t, s, "order-part", "part/Q11").Says; got != "Q11 gutter repair strip pair ordered" {
		t.Errorf("the order of Q11 says %q", got)
	}
	body := s.Get("journal").Body
	for _, want := range []string{"Tue 6 Oct 2026", "Put back all", "Older entries", "Metalworker"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not show %q", want)
		}
	}
}

func TestJournal_FiltersByThingPersonKindAndDay(t *testing.T) {
	s := open(t, after)
	for _, c := range []struct {
		query string
		fits  func(row) bool
	}{
		{"&of=finding/F33", func(r row) bool { return slices.Contains(r.Of, "finding/F33") }},
		{"&of=load/O1", func(r row) bool { return slices.Contains(r.Of, "load/O1") }},
		{"&of=task/T09", func(r row) bool { return slices.Contains(r.Of, "task/T09") }},
		{"&person=WA", func(r row) bool { return r.Person == "WA" }},
		{"&kind=pay", func(r row) bool { return r.Kind == "pay" }},
		{"&day=2026-10-05", func(r row) bool { return r.At.Format("2006-01-02") == "2026-10-05" }},
	} {
		want := 0
		for _, one := range rowsOf(t, s, "") {
			if c.fits(one) {
				want++
			}
		}
		got := rowsOf(t, s, c.query)
		if want == 0 || len(got) != want {
			t.Errorf("%s: %d rows, want %d and some", c.query, len(got), want)
		}
		if body := s.Get("journal?" + c.query[1:]).Body; strings.Count(body, `class="journal-row`) != want+strings.Count(body, `class="journal-rows`) {
			t.Errorf("%s: the page shows another number of rows than %d", c.query, want)
		}
	}
}

func TestJournal_PagesMeetWithoutGapOrRepeat(t *testing.T) {
	s := open(t, unit.Day(2026, time.December, 21))
	rows := rowsOf(t, s, "")
	var seen []int64
	f := filter{}
	for range len(rows) {
		page, older := f.page(rows)
		for _, one := range page {
			seen = append(seen, one.Seq)
		}
		if older == "" {
			break
		}
		f.Before = page[len(page)-1].Seq
	}
	if len(seen) != len(rows) || seen[len(seen)-1] != 1 || !slices.IsSortedFunc(seen, func(a, b int64) int { return int(b - a) }) {
		t.Errorf("pages hold %d entries, want each of %d once", len(seen), len(rows))
	}
}

func TestJournal_PutsAPastEntryBack(t *testing.T) {
	s := open(t, after)
	order := entry(t, s, "order-part", "part/Q11")
	if got := s.Post("undo", "undoes", order.ID); got.Status != http.StatusSeeOther {
		t.Fatalf("undo: status %d", got.Status)
	}
	if b := s.Build(t); b.Part("Q11").State != build.Wanted {
		t.Errorf("Q11 is %s, want wanted again", b.Part("Q11").State)
	}
	undone := entry(t, s, "order-part", "part/Q11")
	if !undone.Undone || undone.By != "MW" || undone.When.IsZero() {
		t.Errorf("the entry is %+v, want taken back by MW", undone)
	}
	if body := s.Get("journal").Body; !strings.Contains(body, "<s>"+order.Says+"</s>") || !strings.Contains(body, "taken back by Metalworker") {
		t.Error("the page does not strike the entry through and say who took it back")
	}
	undo := rowsOf(t, s, "")[0]
	if undo.Kind != store.KindUndo || !strings.Contains(undo.Says, fmt.Sprintf("Put back entry %d", order.Seq)) {
		t.Errorf("the newest entry says %q", undo.Says)
	}
	s.Post("undo", "undoes", undo.ID)
	if b := s.Build(t); b.Part("Q11").State != build.Promised || entry(t, s, "order-part", "part/Q11").Undone {
		t.Error("taking the undo back does not make the order hold again")
	}
}

func TestJournal_RefusesWhatLaterEntriesNeed(t *testing.T) {
	s := open(t, after)
	sent := entry(t, s, "send-away", "load/O1") // counted back on 5 October
	back := entry(t, s, "receive-away", "load/O1")
	got := s.Post("undo", "undoes", sent.ID)
	if got.Status != http.StatusConflict {
		t.Fatalf("undo of what a later entry needs: status %d, want 409", got.Status)
	}
	for _, want := range []string{fmt.Sprintf("entry %d", back.Seq), "receive-away", "take the later entry back first"} {
		if !strings.Contains(strings.ToLower(got.Body), want) {
			t.Errorf("the refusal does not name %q", want)
		}
	}
	if b := s.Build(t); b.Load("O1").State != build.Back {
		t.Errorf("O1 is %s after the refusal, want back as it was", b.Load("O1").State)
	}
}

func TestJournal_PutsAWholeActBack(t *testing.T) {
	s := open(t, after)
	whole := acts(rowsOf(t, s, "&person=MW&day=2026-10-06&kind=record-finding"))[0][0]
	if len(whole.Rows) != 14 || whole.span() == "" {
		t.Fatalf("the act has %d entries and can be put back as %q, want the fourteen findings", len(whole.Rows), whole.span())
	}
	if got := s.Post("undo", "undoes", whole.span()); got.Status != http.StatusConflict || !strings.Contains(got.Body, "order-part") {
		t.Errorf("undo of findings whose parts are on order: status %d, want 409 that names the order", got.Status)
	}
	for _, part := range []string{"Q13", "Q12", "Q11"} {
		s.Post("undo", "undoes", entry(t, s, "order-part", "part/"+part).ID)
	}
	s.Post("undo", "undoes", whole.span())
	if got := len(s.Build(t).Findings); got != 31 {
		t.Errorf("%d findings once the orders and then the fourteen are put back, want 31", got)
	}
	if got := s.Post("undo", "undoes", "1"); got.Status != http.StatusUnprocessableEntity {
		t.Errorf("undo of the opening: status %d, want 422", got.Status)
	}
}

func TestJournal_FileAndPaper(t *testing.T) {
	s := open(t, after)
	rows, err := csv.NewReader(strings.NewReader(s.Get("journal?as=csv&kind=pay").Body)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if want := len(rowsOf(t, s, "&kind=pay")) + 1; len(rows) != want {
		t.Errorf("%d rows, want %d with the headings", len(rows), want)
	}
	if got := s.Get("journal?as=paper"); got.Status != http.StatusOK || strings.Contains(got.Body, "/undo\" data-guard") {
		t.Errorf("paper: status %d, or with forms", got.Status)
	}
}

func TestWhy_AddsUpAndNamesTheBlast(t *testing.T) {
	s := open(t, after)
	page := s.Get("journal/why?since=2026-10-06")
	if page.Status != http.StatusOK || !strings.Contains(page.Body, `hx-get="/b/pedlar/journal/why/table?since=2026-10-06"`) {
		t.Fatalf("the page: status %d, or does not fetch its table", page.Status)
	}
	var told story
	if err := json.Unmarshal([]byte(s.Get("journal/why?since=2026-10-06&as=json").Body), &told); err != nil {
		t.Fatal(err)
	}
	sum := told.Flow
	for _, one := range told.Reasons {
		sum += one.Days
	}
	if sum != told.Days || told.Days != int(told.After-told.Before) {
		t.Errorf("reasons and flow come to %d days, the whole move is %d", sum, told.Days)
	}
	if len(told.Reasons) == 0 || !strings.Contains(told.Reasons[0].Says, "F32") || !strings.Contains(told.Reasons[0].Says, "and 12 more") {
		t.Errorf("reasons = %+v, want the fourteen findings first", told.Reasons)
	}
	if table := s.Get("journal/why/table?since=2026-10-06").Body; strings.Contains(table, "<html") || !strings.Contains(table, "In all") {
		t.Error("the table is not a fragment with its sum")
	}
	for since, want := range map[string]int{"soon": http.StatusUnprocessableEntity, "2026-01-01": http.StatusNotFound} {
		if got := s.Get("journal/why/table?since=" + since).Status; got != want {
			t.Errorf("since %s: status %d, want %d", since, got, want)
		}
	}
}

func TestJournal_GuestsReadOnly(t *testing.T) {
	s := open(t, after)
	s.Person.Role = account.Guest
	if got := s.Get("journal"); got.Status != http.StatusOK || strings.Contains(got.Body, `name="undoes"`) {
		t.Errorf("a guest reads: status %d, with ways to put back: %v", got.Status, strings.Contains(got.Body, `name="undoes"`))
	}
	if got := s.Post("undo", "undoes", "5").Status; got != http.StatusForbidden {
		t.Errorf("a guest puts back: status %d, want 403", got)
	}
}

func TestThings_ReadsIDsWhereverTheyStand(t *testing.T) {
	for change, want := range map[string]string{
		`{"parts":["Q11","Q12"],"day":"2026-10-06"}`:                                    "part/Q11 part/Q12",
		`{"finding":{"id":"F32","panels":["P02"],"task":"T09"},"parts":[{"id":"Q11"}]}`: "finding/F32 panel/P02 part/Q11 task/T09",
		`{"payment":{"id":"Y001","for":"parts","ref":"Q28"}}`:                           "payment/Y001",
		`{"pour":{"id":"M04","product":"clear","parts":[{"part":0,"tin":"N11"}]}}`:      "pour/M04 product/clear tin/N11",
		`{"note":{"on":"bag/G04-11","text":"short"}}`:                                   "bag/G04-11",
		`{"build":{"parts":[{"id":"Q01"}]}}`:                                            "",
		`not JSON`:                                                                      "",
	} {
		if got := strings.Join(things(json.RawMessage(change)), " "); got != want {
			t.Errorf("%s is about %q, want %q", change, got, want)
		}
	}
}

func TestShares_AreListedByCause(t *testing.T) {
	told := story{Days: 3, Flow: -1, Still: 2, Reasons: []reason{{Share: live.Share{Cause: live.ByChange}, Days: 4, Says: "a finding"}}}
	rows := told.list(sheet{Base: "/b/pedlar"}).Records()
	for i, want := range []string{"+4", "−1", "0"} {
		if rows[i+1][3] != want {
			t.Errorf("row %d moves by %s, want %s", i+1, rows[i+1][3], want)
		}
	}
}
