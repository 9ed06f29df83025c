package placetest

import (
	"bytes"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/account"
	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/internal/web"
	"fettle/unit"
)

// Build is the demo build's short name.
const Build = "pedlar"

// Bench is a shop on the morning after the blast, asked by whole paths and
// whole forms.
type Bench struct{ *Shop }

// blast is the morning after the blast.
var blast = unit.Day(2026, time.October, 6)

// New serves the places that make returns over the demo build.
func New(t *testing.T, places func(desk.Desk) []web.Place) *Bench {
	t.Helper()
	return &Bench{Open(t, blast, places)}
}

// NewOf serves places over another build.
func NewOf(t *testing.T, file scenario.File, places func(desk.Desk) []web.Place) *Bench {
	t.Helper()
	return &Bench{Of(t, file, blast, places)}
}

// As makes all further requests those of a role.
func (b *Bench) As(role account.Role) { b.Person.Role = role }

// Get asks for a page.
func (b *Bench) Get(path string) Answer {
	return b.ask(httptest.NewRequest(http.MethodGet, path, nil))
}

// Refresh asks for a page as an open one does that fetches itself anew.
func (b *Bench) Refresh(path string) Answer {
	r := httptest.NewRequest(http.MethodGet, path, nil)
	r.Header.Set("Fettle-Refresh", "yes")
	return b.ask(r)
}

// Post sends a form.
func (b *Bench) Post(path string, form url.Values) Answer {
	r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return b.ask(r)
}

// Waited is a page once what it waits for is there.
func (b *Bench) Waited(t testing.TB, path string) string {
	t.Helper()
	for range 600 {
		if page := b.Get(path).Body; !strings.Contains(page, "data-wait") {
			return page
		}
		time.Sleep(100 * time.Millisecond)
	}
	t.Fatal("it does not end")
	return ""
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

// KeepSlip keeps all that the person has put together, as the knock-on's
// largest button does.
func (b *Bench) KeepSlip(t *testing.T) build.Build {
	t.Helper()
	var drafts []live.Draft
	for _, c := range b.Slip(t) {
		drafts = append(drafts, live.Draft{Change: c})
	}
	if _, err := b.Desk.Shop.Record(t.Context(), b.Name, -1, live.Who{Person: b.Person.Code}, drafts); err != nil {
		t.Fatal(err)
	}
	return b.Now(t)
}

// Now returns the build as it stands.
func (b *Bench) Now(t *testing.T) build.Build {
	t.Helper()
	return b.Build(t)
}
