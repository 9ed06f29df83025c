// Package trust helps a tablet trust the shop's own certificate authority: a
// page with the certificate to download, its fingerprint to compare, and what
// to touch on each kind of tablet. A second, plain port serves only this page,
// since a tablet that does not trust the shop yet cannot open the other.
package trust

import (
	"net"
	"net/http"
	"strings"
	"time"

	"fettle/internal/web"
)

// Authority is what the page shows; *tlsca.Authority is one.
type Authority interface {
	DER() []byte
	PEM() []byte
	Fingerprint() string
	Ends() time.Time
}

// Place returns the page's routes; it has no plate. port is that of the
// server that speaks HTTPS.
func Place(a Authority, port string) web.Place {
	return web.Place{Key: "trust", Routes: []web.Route{
		{Pattern: "GET /trust", Who: web.Anyone, Handle: func(r *web.Request) error {
			p := page{finger: groups(a.Fingerprint()), ends: a.Ends().Format("2 January 2006"), secure: "https://" + hostPort(r.HTTP().Host, port) + "/"}
			return r.Page(web.Sheet{Place: "Trust", Shown: "the shop's own certificate"}, trustPage(p))
		}},
		{Pattern: "GET /trust/shop.crt", Who: web.Anyone, Handle: func(r *web.Request) error {
			return r.File("fettle-shop.crt", "application/x-x509-ca-cert", a.DER())
		}},
		{Pattern: "GET /trust/shop.pem", Who: web.Anyone, Handle: func(r *web.Request) error {
			return r.File("fettle-shop.pem", "application/x-pem-file", a.PEM())
		}},
	}}
}

type page struct {
	finger []string
	ends   string
	secure string
}

// groups breaks a fingerprint into lines of eight pairs, to compare by eye.
func groups(finger string) []string {
	pairs := strings.Split(finger, ":")
	var out []string
	for len(pairs) > 8 {
		out = append(out, strings.Join(pairs[:8], " "))
		pairs = pairs[8:]
	}
	return append(out, strings.Join(pairs, " "))
}

// Plain wraps a server that has only Place, for the plain port: it answers for
// the page, the certificate and the style, and sends all else to HTTPS.
func Plain(s *web.Server, port string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		known := r.Method == http.MethodGet || r.Method == http.MethodHead
		switch {
		case known && (r.URL.Path == "/trust" || strings.HasPrefix(r.URL.Path, "/trust/") || strings.HasPrefix(r.URL.Path, "/static/")):
			s.ServeHTTP(w, r)
		case known && r.URL.Path == "/":
			http.Redirect(w, r, "/trust", http.StatusSeeOther)
		default:
			http.Redirect(w, r, "https://"+hostPort(r.Host, port)+r.URL.RequestURI(), http.StatusTemporaryRedirect)
		}
	})
}

// hostPort puts another port behind the host of a request.
func hostPort(host, port string) string {
	if bare, _, err := net.SplitHostPort(host); err == nil {
		host = bare
	}
	host = strings.Trim(host, "[]")
	if port == "443" {
		if strings.Contains(host, ":") {
			return "[" + host + "]"
		}
		return host
	}
	return net.JoinHostPort(host, port)
}
