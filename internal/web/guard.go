package web

import (
	"context"
	"crypto/rand"
	"encoding/base64"
	"fmt"
	"net/http"
	"runtime/debug"
	"time"

	"github.com/a-h/templ"

	"fettle/fault"
)

type requestIDKey struct{}

// policy is the content security policy; %s is the nonce of this response.
const policy = "default-src 'none'; script-src 'nonce-%s' 'strict-dynamic'; style-src 'self'; img-src 'self' data: blob:; " +
	"font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; form-action 'self'; " +
	"frame-ancestors 'none'; base-uri 'none'"

// outermost numbers and logs a request, sets the headers, and turns a panic
// into a page.
func (s *Server) outermost(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		began := s.cfg.Now()
		id, nonce := word(6), word(16)
		setHeaders(w.Header(), id, nonce)
		s.knowDevice(w, r)
		ctx := templ.WithNonce(context.WithValue(r.Context(), requestIDKey{}, id), nonce)
		r = r.WithContext(ctx)
		rec := &recorder{ResponseWriter: w}
		defer func() {
			s.caught(rec, r, recover())
			s.logged(r, rec.status, s.cfg.Now().Sub(began), id)
		}()
		next.ServeHTTP(rec, r)
	})
}

func (s *Server) logged(r *http.Request, status int, took time.Duration, id string) {
	s.cfg.Log.LogAttrs(r.Context(), 0, "request", requestAttrs(r, status, took, id)...)
}

func (s *Server) caught(w *recorder, r *http.Request, p any) {
	if p == nil {
		return
	}
	if p == http.ErrAbortHandler {
		panic(p)
	}
	s.cfg.Log.Error("panic", "id", idOf(r), "what", fmt.Sprint(p), "stack", string(debug.Stack()))
	if w.status == 0 {
		s.refuse(s.request(w, r), fault.New(fault.Internal, "something broke in the program"))
	}
}

func word(bytes int) string {
	b := make([]byte, bytes)
	_, _ = rand.Read(b) // never fails: crypto/rand ends the program instead
	return base64.RawURLEncoding.EncodeToString(b)
}

func idOf(r *http.Request) string {
	id, _ := r.Context().Value(requestIDKey{}).(string)
	return id
}

// setHeaders leaves out Strict-Transport-Security: it holds for every port of
// a host, and the page that helps a tablet trust the shop is on a plain one.
func setHeaders(h http.Header, id, nonce string) {
	h.Set("X-Request-Id", id)
	h.Set("Content-Security-Policy", fmt.Sprintf(policy, nonce))
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(self), geolocation=(), microphone=(), payment=(), usb=()")
	h.Set("Cache-Control", "no-store")
}

// crossOrigin refuses a change that another site's page would make in the
// name of a person of this shop.
func crossOrigin(s *Server, next http.Handler) http.Handler {
	guard := http.NewCrossOriginProtection()
	guard.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.refuse(s.request(w, r), fault.New(fault.Denied, "this request came from another site, so nothing was done").
			WithHint("Open the page here and try again."))
	}))
	return guard.Handler(next)
}

// recorder remembers the status for the log.
type recorder struct {
	http.ResponseWriter
	status int
}

// WriteHeader notes the status and passes it on.
func (rec *recorder) WriteHeader(status int) {
	if rec.status == 0 {
		rec.status = status
	}
	rec.ResponseWriter.WriteHeader(status)
}

// Write notes that an answer has begun.
func (rec *recorder) Write(b []byte) (int, error) {
	if rec.status == 0 {
		rec.status = http.StatusOK
	}
	return rec.ResponseWriter.Write(b)
}

// Unwrap lets http.ResponseController reach the connection.
func (rec *recorder) Unwrap() http.ResponseWriter { return rec.ResponseWriter }
