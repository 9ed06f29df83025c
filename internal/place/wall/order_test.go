package wall

import (
	"encoding/csv"
	"net/http"
	"strings"
	"testing"

	"fettle/build"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/placetest"
	"fettle/unit"
)

// november is a morning on which the doors are better done before the sides.
var november = unit.Day(2026, 11, 6)

func TestOrder_FromTheWallToTheSlip(t *testing.T) {
	s := open(t, november)
	promise(t, s, unit.Day(2027, 2, 15)) // by the day that was promised a smaller move is enough
	if body := s.Get("wall").Body; !strings.Contains(body, `hx-get="/b/pedlar/wall/order/line"`) || !strings.Contains(body, "wall/order?now=1") {
		t.Error("the wall has neither a line to fetch nor a plain link to a better order")
	}
	if body := s.Get("wall/order").Body; !strings.Contains(body, `hx-get="/b/pedlar/wall/order/found"`) || !strings.Contains(body, "order?now=1") {
		t.Error("the page answers at once with neither a fragment to fetch nor a plain link")
	}
	b, _, err := s.Desk.Shop.Better(t.Context(), "pedlar", 0)
	if err != nil || !b.Found {
		t.Fatalf("%+v, %v; want a better order", b, err)
	}
	page := s.Get("wall/order?now=1").Body
	for _, want := range []string{b.Says, "T11 Metal D: doors, wings, front comes before T10 Metal C", "Look at the knock-on</button>", "within 3 days of the bound",
		"Lead designer-builder was on T23", "No order finishes before Mon 1 Feb 2027", `name="finding"`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if line := s.Get("wall/order/line").Body; !strings.Contains(line, b.Says) {
		t.Errorf("the line is %q", line)
	}
	if body := s.Get("wall").Body; !strings.Contains(body, b.Says) {
		t.Error("what is known is not on the wall at once")
	}
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(s.Get("wall/order?as=csv").Body, "\ufeff"))).ReadAll()
	if err != nil || len(rows) != len(b.Shifts)+1 {
		t.Errorf("%d lines in the file, %v; want %d", len(rows), err, len(b.Shifts)+1)
	}
	if got := s.Post("wall/order/put", "finding", "the moon first"); got.Status != http.StatusConflict {
		t.Errorf("another finding: status %d, want 409", got.Status)
	}
	if got := s.Post("wall/order/put", "finding", b.Says); got.See != "/b/pedlar/slip" {
		t.Fatalf("put: status %d, leads to %q", got.Status, got.See)
	}
	trial, err := s.Desk.Shop.Try(t.Context(), "pedlar", s.Slip(t))
	if err != nil || trial.After.Odds.Ready != b.After.Ready || trial.After.Dates.Plain != b.After.Plain {
		t.Errorf("the slip gives odds of %.4f by %s, %v; the page promised %+v", trial.After.Odds.Ready, trial.After.Dates.Plain, err, b.After)
	}
}

// promise promises the demo for another day.
func promise(t *testing.T, s *placetest.Shop, ready unit.Date) {
	t.Helper()
	draft := []live.Draft{{Change: &build.SetPromise{Ready: ready, Day: s.Build(t).Promise.Day, Why: "a test"}}}
	if _, err := s.Desk.Shop.Record(t.Context(), "pedlar", journal.AnySeq, live.Who{Person: "LD", Device: "test"}, draft); err != nil {
		t.Fatal(err)
	}
}

func TestOrder_NoneToFind(t *testing.T) {
	s := open(t, blast)
	page := s.Get("wall/order?now=1").Body
	for _, want := range []string{"No other order finishes earlier: the list as it stands is proved best", "No order finishes before Wed 20 Jan 2027"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(page, "<form method=\"post\" action=\"/b/pedlar/wall/order/put\"") {
		t.Error("nothing was found, and yet it can be put on the slip")
	}
	if got := s.Post("wall/order/put", "finding", "No other order finishes earlier: the list as it stands is proved best"); got.Status != http.StatusConflict {
		t.Errorf("put nothing: status %d, want 409", got.Status)
	}
}

func TestOrder_FinishedBuild(t *testing.T) {
	page := open(t, unit.Day(2027, 3, 13)).Get("wall/order?now=1").Body
	if want := "There is no order to better: nothing is left to do"; !strings.Contains(page, want) {
		t.Errorf("the page does not say %q", want)
	}
}
