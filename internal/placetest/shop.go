// Package placetest serves places over the demo build in memory on any of its
// days, with a clock that a test can set, to a person that a test can choose.
package placetest

import (
	"bytes"
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/demo"
	"fettle/internal/desk"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/internal/vault/folder"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/unit"
)

// Shop is a server of some places with the demo build.
type Shop struct {
	Name   string // the build's short name
	Desk   desk.Desk
	Person account.Person // who asks
	now    time.Time
	server http.Handler
}

// Open serves the places that make returns on the morning of a day, at eight.
func Open(t testing.TB, morning unit.Date, places func(desk.Desk) []web.Place) *Shop {
	t.Helper()
	file, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	return Of(t, file, morning, places)
}

// Of serves places over another build.
func Of(t testing.TB, file scenario.File, morning unit.Date, places func(desk.Desk) []web.Place) *Shop {
	t.Helper()
	entries, err := scenario.Entries(file, morning)
	if err != nil {
		t.Fatal(err)
	}
	s := &Shop{Name: file.Build.Name, Person: account.Person{ID: "1", Code: "MW", Name: "Metalworker", Role: account.Crew}}
	s.At(morning, 8, 0)
	shop := live.Open(memory.New(), live.Options{Now: func() time.Time { return s.now }, Runs: 100, Seed: 1})
	if err := shop.Create(t.Context(), entries); err != nil {
		t.Fatal(err)
	}
	photos, err := folder.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for _, scan := range demo.Scans() {
		if _, err := photos.Put(t.Context(), bytes.NewReader(scan), 1<<20); err != nil {
			t.Fatal(err)
		}
	}
	s.Desk = desk.Desk{Shop: shop, Vault: photos, Jobs: newLazy(t)}
	s.server = web.New(web.Config{Places: places(s.Desk), Builds: titles{shop}, Gate: gate{s: s}, Now: func() time.Time { return s.now }})
	return s
}

// At sets the clock.
func (s *Shop) At(d unit.Date, hour, minute int) {
	s.now = d.Time().Add(time.Duration(hour)*time.Hour + time.Duration(minute)*time.Minute)
}

// Clock is what the clock shows.
func (s *Shop) Clock() time.Time { return s.now }

// Answer is what came back.
type Answer struct {
	Status int
	See    string // where a redirect leads
	Body   string
}

// Get asks for a path below the build's own.
func (s *Shop) Get(path string) Answer {
	return s.ask(httptest.NewRequest(http.MethodGet, "/b/"+s.Name+"/"+path, nil))
}

// Post sends a form of names and values to a path below the build's own. An
// entry's ID is made where none is given.
func (s *Shop) Post(path string, pairs ...string) Answer {
	form := url.Values{"entry": {uuid.NewString()}}
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i] == "entry" {
			form.Del("entry")
		}
		form.Add(pairs[i], pairs[i+1])
	}
	r := httptest.NewRequest(http.MethodPost, "/b/"+s.Name+"/"+path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return s.ask(r)
}

func (s *Shop) ask(r *http.Request) Answer {
	r.Header.Set("Accept", "text/html")
	w := httptest.NewRecorder()
	s.server.ServeHTTP(w, r)
	return Answer{w.Code, w.Header().Get("Location"), w.Body.String()}
}

// Build returns the build as it stands.
func (s *Shop) Build(t testing.TB) build.Build {
	t.Helper()
	v, err := s.Desk.Shop.View(t.Context(), s.Name)
	if err != nil {
		t.Fatal(err)
	}
	return v.Build
}

// Plan returns the plan and the facts as they stand.
func (s *Shop) Plan(t testing.TB) (*plan.Plan, live.View) {
	t.Helper()
	p, v, err := s.Desk.Shop.Plan(t.Context(), s.Name)
	if err != nil {
		t.Fatal(err)
	}
	return p, v
}

// Slip returns the changes that the person has put on their slip.
func (s *Shop) Slip(t testing.TB) []build.Change {
	t.Helper()
	slip, err := s.Desk.Shop.Slip(t.Context(), s.Name, s.Person.Code)
	if err != nil {
		t.Fatal(err)
	}
	return slip.Changes
}

type gate struct {
	web.Fixed
	s *Shop
}

// Identify names the person that the test chose.
func (g gate) Identify(*http.Request) (account.Person, bool) { return g.s.Person, true }

type titles struct{ shop *live.Shop }

// Title describes the one build.
func (t titles) Title(ctx context.Context, id string) (web.Title, error) {
	v, err := t.shop.View(ctx, id)
	return web.Title{Build: id, Vehicle: v.Build.Vehicle.Name, Revision: v.Seq, Day: v.Now.Date()}, err
}

// Home is the build's wall.
func (titles) Home(context.Context) (string, error) { return "/b/pedlar/wall", nil }
