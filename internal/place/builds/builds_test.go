package builds

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/internal/web"
	"fettle/unit"
)

type titles struct{}

func (titles) Title(context.Context, string) (web.Title, error) { return web.Title{}, nil }
func (titles) Home(context.Context) (string, error)             { return "/builds", nil }

// ask serves the list of a store with some scenarios in it.
func ask(t *testing.T, path string, files ...scenario.File) *httptest.ResponseRecorder {
	t.Helper()
	day := unit.Day(2026, time.October, 6)
	shop := live.Open(memory.New(), live.Options{Now: func() time.Time { return day.Time().Add(8 * time.Hour) }, Runs: 60})
	for _, f := range files {
		entries, err := scenario.Entries(f, day)
		if err != nil {
			t.Fatal(err)
		}
		if err := shop.Create(t.Context(), entries); err != nil {
			t.Fatal(err)
		}
	}
	guest := web.Fixed(account.Person{ID: "g", Code: "G", Name: "Guest", Role: account.Guest})
	server := web.New(web.Config{Places: []web.Place{Place(desk.Desk{Shop: shop})}, Builds: titles{}, Gate: guest})
	w := httptest.NewRecorder()
	server.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
	return w
}

func TestBuilds_ListsDatesAndOdds(t *testing.T) {
	pedlar, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	second, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	var cards []card
	if err := json.Unmarshal(ask(t, "/builds?as=json", pedlar, second).Body.Bytes(), &cards); err != nil {
		t.Fatal(err)
	}
	if len(cards) != 2 {
		t.Fatalf("%d builds, want 2", len(cards))
	}
	for _, c := range cards {
		if c.P50 == 0 || c.P80 < c.P50 || c.Word == "" || c.Trouble != "" {
			t.Errorf("%s: half by %v, 4 in 5 by %v, %s, trouble %q", c.ID, c.P50, c.P80, c.Word, c.Trouble)
		}
	}
	body := ask(t, "/builds", pedlar, second).Body.String()
	for _, want := range []string{"The Larkmere Pedlar", `href="/b/pedlar/van"`, "/b/" + second.Build.Name + "/van"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not show %q", want)
		}
	}
}

func TestBuilds_EmptySaysHowToMakeOne(t *testing.T) {
	w := ask(t, "/builds")
	if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "fettle new") || !strings.Contains(w.Body.String(), "fettle demo") {
		t.Errorf("an empty store: status %d, or no word on how to make a build", w.Code)
	}
}
