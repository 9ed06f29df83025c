// Package placetest serves places over the demo build in memory, as it is on
// the morning after the blast, for tests that ask as a browser does.
package placetest

import (
	"bytes"
	"context"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/internal/vault/folder"
	"fettle/internal/web"
	"fettle/unit"
)

// Build is the build's short name.
const Build = "pedlar"

// Bench is a server of some places with one build.
type Bench struct {
	Desk   desk.Desk
	server http.Handler
	role   *account.Role
}

// gate names one person whose role a test can change.
type gate struct {
	web.Fixed
	role *account.Role
}

func (g gate) Identify(*http.Request) (account.Person, bool) {
	return account.Person{ID: "1", Code: "MW", Name: "Metalworker", Role: *g.role}, true
}

// titles knows the one build.
type titles struct{ shop *live.Shop }

func (t titles) Title(ctx context.Context, id string) (web.Title, error) {
	v, err := t.shop.View(ctx, id)
	return web.Title{Build: id, Vehicle: v.Build.Vehicle.Name, Revision: v.Seq, Day: v.Now.Date()}, err
}

func (titles) Home(context.Context) (string, error) { return "/b/" + Build + "/van", nil }

// New serves the places that make returns, to a person of the crew.
func New(t *testing.T, places func(desk.Desk) []web.Place) *Bench {
	t.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	return Of(t, file, places)
}

// Of serves places over another build.
func Of(t *testing.T, file scenario.File, places func(desk.Desk) []web.Place) *Bench {
	t.Helper()
	morning := unit.Day(2026, time.October, 6)
	entries, err := scenario.Entries(file, morning)
	if err != nil {
		t.Fatal(err)
	}
	now := morning.Time().Add(8*time.Hour + 10*time.Minute)
	shop := live.Open(memory.New(), live.Options{Now: func() time.Time { return now }, Runs: 40, Seed: 1})
	if err := shop.Create(t.Context(), entries); err != nil {
		t.Fatal(err)
	}
	photos, err := folder.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	role := account.Crew
	b := &Bench{Desk: desk.Desk{Shop: shop, Vault: photos}, role: &role}
	b.server = web.New(web.Config{Places: places(b.Desk), Builds: titles{shop}, Gate: gate{role: &role}})
	return b
}

// As makes all further requests those of a role.
func (b *Bench) As(role account.Role) { *b.role = role }

// Answer is what came back.
type Answer struct {
	Status int
	See    string // where a redirect leads
	Body   string
	Header http.Header
}

// Get asks for a page.
func (b *Bench) Get(path string) Answer {
	return b.ask(httptest.NewRequest(http.MethodGet, path, nil))
}

// Post sends a form.
func (b *Bench) Post(path string, form url.Values) Answer {
	r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return b.ask(r)
}

// Send sends a form with one file.
func (b *Bench) Send(path string, form url.Values, field, name string, data []byte) Answer {
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	for k, all := range form {
		for _, v := range all {
			_ = w.WriteField(k, v) // into memory: it cannot fail
		}
	}
	file, _ := w.CreateFormFile(field, name)
	_, _ = file.Write(data)
	_ = w.Close()
	r := httptest.NewRequest(http.MethodPost, path, &body)
	r.Header.Set("Content-Type", w.FormDataContentType())
	return b.ask(r)
}

func (b *Bench) ask(r *http.Request) Answer {
	w := httptest.NewRecorder()
	r.Header.Set("Accept", "text/html")
	r.AddCookie(&http.Cookie{Name: "test", Value: "1"})
	b.server.ServeHTTP(w, r)
	body, _ := io.ReadAll(w.Body)
	return Answer{w.Code, w.Header().Get("Location"), string(body), w.Header()}
}

// Slip returns what the person has put together.
func (b *Bench) Slip(t *testing.T) []build.Change {
	t.Helper()
	slip, err := b.Desk.Shop.Slip(t.Context(), Build, "MW")
	if err != nil {
		t.Fatal(err)
	}
	return slip.Changes
}

// KeepSlip keeps it all, as the knock-on's largest button does.
func (b *Bench) KeepSlip(t *testing.T) build.Build {
	t.Helper()
	var drafts []live.Draft
	for _, c := range b.Slip(t) {
		drafts = append(drafts, live.Draft{Change: c})
	}
	if _, err := b.Desk.Shop.Record(t.Context(), Build, -1, live.Who{Person: "MW"}, drafts); err != nil {
		t.Fatal(err)
	}
	return b.Now(t)
}

// Now returns the build as it stands.
func (b *Bench) Now(t *testing.T) build.Build {
	t.Helper()
	v, err := b.Desk.Shop.View(t.Context(), Build)
	if err != nil {
		t.Fatal(err)
	}
	return v.Build
}
