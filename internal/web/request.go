package web

import (
	"context"
	"net/http"
	"strings"
	"time"

	"fettle/internal/account"
)

// Request is one thing asked by one person on one device, with the ways to
// answer it (see answer.go). It lives as long as the handler runs.
type Request struct {
	s      *Server
	w      http.ResponseWriter
	r      *http.Request
	id     string
	person account.Person
	known  bool
	limit  int64
}

// Context ends when the asker goes away.
func (r *Request) Context() context.Context { return r.r.Context() }

// ID marks this request in the log.
func (r *Request) ID() string { return r.id }

// Person is who asks; the zero person on a route for anyone.
func (r *Request) Person() account.Person { return r.person }

// Build is the build's short name in the path, or nothing. A page that is not
// there still belongs to the build whose path it has.
func (r *Request) Build() string {
	if build := r.r.PathValue("build"); build != "" {
		return build
	}
	rest, _ := strings.CutPrefix(r.r.URL.Path, "/b/")
	build, _, below := strings.Cut(rest, "/")
	if !below || len(rest) == len(r.r.URL.Path) {
		return ""
	}
	return build
}

// Path returns a named part of the path.
func (r *Request) Path(name string) string { return r.r.PathValue(name) }

// Query returns a value after the question mark, or nothing.
func (r *Request) Query(name string) string { return r.r.URL.Query().Get(name) }

// Theme is the theme remembered on this device: day, bright or night.
func (r *Request) Theme() string { return themeOf(r.r) }

// Device is a lasting name of the tablet, made on its first visit.
func (r *Request) Device() string { return r.r.Header.Get(deviceHeader) }

// Now is the server's time.
func (r *Request) Now() time.Time { return r.s.cfg.Now() }

// TLS tells whether the server speaks HTTPS.
func (r *Request) TLS() bool { return r.s.cfg.TLS }

// HTTP is the request underneath, for what this type does not cover.
func (r *Request) HTTP() *http.Request { return r.r }

// Writer is the response underneath, for streams.
func (r *Request) Writer() http.ResponseWriter { return r.w }

// Partial tells that a script asks for a fragment rather than a page.
func (r *Request) Partial() bool { return r.r.Header.Get("HX-Request") == "true" }

// Refresh tells that an open page fetches itself anew because something was
// kept: nobody waits for the answer.
func (r *Request) Refresh() bool { return r.r.Header.Get(refreshHeader) != "" }

// As is the form asked for: "csv", "json" or "paper" by ?as=, "json" by the
// Accept header, else "page".
func (r *Request) As() string {
	switch as := r.Query("as"); as {
	case "csv", "json", "paper":
		return as
	}
	if wantsJSON(r.r) {
		return "json"
	}
	return "page"
}

func wantsJSON(r *http.Request) bool {
	accept := r.Header.Get("Accept")
	json := strings.Index(accept, "application/json")
	html := strings.Index(accept, "text/html")
	return json >= 0 && (html < 0 || json < html)
}
