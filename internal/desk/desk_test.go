package desk_test

import (
	"context"
	"encoding/base64"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/internal/web"
)

type titles struct{}

func (titles) Title(context.Context, string) (web.Title, error) { return web.Title{}, nil }
func (titles) Home(context.Context) (string, error)             { return "/", nil }

// room is a desk of a shop with the small build. Its one page does what a test
// asks.
type room struct {
	desk.Desk
}

func open(t *testing.T) *room {
	t.Helper()
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	entries, err := scenario.Entries(file, 0)
	if err != nil {
		t.Fatal(err)
	}
	shop := live.Open(memory.New(), live.Options{Runs: 20, Now: func() time.Time { return time.Date(2027, 2, 3, 8, 0, 0, 0, time.UTC) }})
	if err := shop.Create(t.Context(), entries); err != nil {
		t.Fatal(err)
	}
	return &room{Desk: desk.Desk{Shop: shop}}
}

// ask runs do as the answer to a page of the build, asked for by RU.
func (m *room) ask(t *testing.T, referer string, do func(*web.Request) error) *httptest.ResponseRecorder {
	t.Helper()
	place := web.Place{Key: "room", Routes: []web.Route{{Pattern: "GET /b/{build}/room", Who: web.Crew, Handle: func(r *web.Request) error { return do(r) }}}}
	who := web.Fixed(account.Person{ID: "u", Code: "RU", Name: "Rune", Role: account.Crew})
	server := web.New(web.Config{Places: []web.Place{place}, Builds: titles{}, Gate: who})
	r := httptest.NewRequest(http.MethodGet, "http://shop.local/b/bjelke/room", nil)
	if referer != "" {
		r.Header.Set("Referer", referer)
	}
	w := httptest.NewRecorder()
	server.ServeHTTP(w, r)
	return w
}

func TestBack_KeepsToThisHost(t *testing.T) {
	m := open(t)
	for referer, want := range map[string]string{
		"":                                 "/other",
		"http://shop.local/b/bjelke/metal": "/b/bjelke/metal",
		"http://shop.local/b/bjelke/metal?at=F01": "/b/bjelke/metal?at=F01",
		"http://shop.local/b/a%20b":               "/b/a%20b",
		"http://shop.local":                       "/other",
		"http://elsewhere.example/b/bjelke/metal": "/other",
		"http://shop.local:81/b/bjelke/metal":     "/other",
		"http://shop.local//elsewhere.example/x":  "/other",
		"http://shop.local@elsewhere.example/x":   "/other",
		"//elsewhere.example/x":                   "/other",
		"/b/bjelke/metal":                         "/other",
		"javascript:alert(1)":                     "/other",
		"http://shop.local/%zz":                   "/other",
	} {
		got := ""
		m.ask(t, referer, func(r *web.Request) error { got = desk.Back(r, "/other"); return nil })
		if got != want {
			t.Errorf("from %q back to %q, want %q", referer, got, want)
		}
	}
}

func note(text string) build.Change { return &build.WriteNote{Note: build.Note{Text: text}} }

func TestPropose_LaysOnTheSlip(t *testing.T) {
	m := open(t)
	propose := func(c ...build.Change) *httptest.ResponseRecorder {
		return m.ask(t, "", func(r *web.Request) error { return m.Propose(r, "/next", c...) })
	}
	part := &build.AddPart{Part: build.Part{ID: "X1", Name: "hinge", Quantity: 1, Task: "B11"}}
	order := &build.OrderPart{Parts: []build.PartID{"X1"}, Day: 20_000}
	for _, step := range []struct {
		what   string
		change build.Change
		status int
		onSlip int
	}{
		{"what does not apply", order, http.StatusUnprocessableEntity, 0},
		{"a change", part, http.StatusSeeOther, 1},
		{"one that needs what is on the slip", order, http.StatusSeeOther, 2},
		{"the same once more", part, http.StatusUnprocessableEntity, 2},
	} {
		w := propose(step.change)
		slip, err := m.Shop.Slip(t.Context(), "bjelke", "RU")
		if w.Code != step.status || err != nil || len(slip.Changes) != step.onSlip {
			t.Errorf("%s: status %d, %d on the slip, %v, want %d, %d", step.what, w.Code, len(slip.Changes), err, step.status, step.onSlip)
		}
		if w.Code == http.StatusSeeOther && w.Header().Get("Location") != "/next" {
			t.Errorf("%s: goes on to %q", step.what, w.Header().Get("Location"))
		}
	}
	m.ask(t, "", func(r *web.Request) error {
		b, slip, err := m.Drafted(r)
		if err != nil || len(slip.Changes) != 2 || b.Part("X1") == nil || b.Part("X1").State != build.Ordered {
			t.Errorf("drafted: %d changes, %v, want the part on order", len(slip.Changes), err)
		}
		v, err := m.View(r)
		if err != nil || v.Build.Part("X1") != nil {
			t.Errorf("the build itself has the part, %v", err)
		}
		p, v, err := m.Plan(r)
		if err != nil || p.Build != "bjelke" || v.Seq == 0 {
			t.Errorf("plan of %v at %d, %v", p, v.Seq, err)
		}
		return nil
	})
	// Somebody else takes the number meanwhile: the build is shown as it stands.
	if _, err := m.Shop.Record(t.Context(), "bjelke", journal.AnySeq, live.Who{Person: "OD"}, []live.Draft{{Change: part}}); err != nil {
		t.Fatal(err)
	}
	m.ask(t, "", func(r *web.Request) error {
		b, slip, err := m.Drafted(r)
		if err != nil || len(slip.Changes) != 2 || b.Part("X1").State != build.Wanted {
			t.Errorf("drafted on facts that moved on: %d changes, %v, want the build as it stands", len(slip.Changes), err)
		}
		return nil
	})
}

func TestKeep_KeepsAtOnce(t *testing.T) {
	m := open(t)
	id := journal.NewID(time.Now())
	keep := func(c ...build.Change) *httptest.ResponseRecorder {
		return m.ask(t, "", func(r *web.Request) error { return m.Keep(r, id, "noted", "/next", c...) })
	}
	length := func() int {
		all, err := m.Shop.Entries(t.Context(), "bjelke")
		if err != nil {
			t.Fatal(err)
		}
		return len(all)
	}
	before := length()
	for range 2 { // the tablet sends it again
		if w := keep(note("a"), note("b")); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/next" {
			t.Fatalf("status %d to %q, want on to the next page", w.Code, w.Header().Get("Location"))
		}
	}
	all, _ := m.Shop.Entries(t.Context(), "bjelke")
	if len(all) != before+2 || all[before].ID != id || all[before].Person != "RU" || all[before].Device == "" {
		t.Errorf("%d entries, the first %+v, want two more by RU on a named device", len(all)-before, all[before])
	}
	if got, want := kept(t, keep(note("a"), note("b"))), fmt.Sprintf(`"Entry":"%d-%d"`, before+1, before+2); !strings.Contains(got, want) {
		t.Errorf("the next page is told %s, want it to offer to put %s back", got, want)
	}
	id = ""
	for what, c := range map[string][]build.Change{"a broken change": {note("")}, "nothing": nil} {
		if w := keep(c...); w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d, want 422", what, w.Code)
		}
	}
	if length() != before+2 {
		t.Errorf("refusals kept something: %d entries, want %d", length(), before+2)
	}
}

// kept returns what the next page is told, as JSON.
func kept(t *testing.T, w *httptest.ResponseRecorder) string {
	t.Helper()
	for _, c := range w.Result().Cookies() {
		if text, err := base64.RawURLEncoding.DecodeString(c.Value); err == nil && c.Name == "kept" {
			return string(text)
		}
	}
	return ""
}

func TestPage_ShowsTheSlipAtItsFoot(t *testing.T) {
	m := open(t)
	page := func() string {
		return m.ask(t, "", func(r *web.Request) error { return m.Page(r, web.Sheet{}) }).Body.String()
	}
	const bar = `href="/b/bjelke/slip"`
	if strings.Contains(page(), bar) {
		t.Error("a page shows the bar of an empty slip")
	}
	if err := m.Shop.SaveSlip(t.Context(), "bjelke", "RU", live.Slip{Changes: []build.Change{note("a")}}); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(page(), bar) {
		t.Errorf("a page does not lead to the slip")
	}
}

func TestNextID_TheFirstThatIsFree(t *testing.T) {
	taken := map[string]bool{"T03": true, "T04": true}
	if got := desk.NextID("T%02d", 2, func(id string) bool { return taken[id] }); got != "T05" {
		t.Errorf("behind T03 and T04 comes %s", got)
	}
	if got := desk.NextID("R%d", 0, func(string) bool { return false }); got != "R1" {
		t.Errorf("the first is %s", got)
	}
}
