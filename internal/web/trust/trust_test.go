package trust_test

import (
	"bytes"
	"context"
	"crypto/x509"
	"net/http/httptest"
	"strings"
	"testing"

	"fettle/internal/account"
	"fettle/internal/tlsca"
	"fettle/internal/web"
	"fettle/internal/web/trust"
)

type builds struct{}

func (builds) Title(context.Context, string) (web.Title, error) { return web.Title{}, nil }
func (builds) Home(context.Context) (string, error)             { return "/trust", nil }

// nobody is a gate at which nobody is signed in.
type nobody struct{ web.Fixed }

func TestPlain(t *testing.T) {
	ca, err := tlsca.Open(t.TempDir(), "shed", nil)
	if err != nil {
		t.Fatal(err)
	}
	h := trust.Plain(web.New(web.Config{Places: []web.Place{trust.Place(ca, "8443")}, Builds: builds{}, Gate: nobody{web.Fixed(account.Person{})}}), "8443")
	cases := []struct {
		method, path string
		status       int
		location     string
	}{
		{"GET", "/trust", 200, ""}, {"GET", "/trust/shop.crt", 200, ""}, {"GET", "/trust/shop.pem", 200, ""},
		{"GET", "/", 303, "/trust"}, {"GET", "/b/pedlar/van?x=1", 307, "https://shed:8443/b/pedlar/van?x=1"},
		{"POST", "/sign-in/1", 307, "https://shed:8443/sign-in/1"}, {"POST", "/trust", 307, "https://shed:8443/trust"},
	}
	for _, c := range cases {
		r := httptest.NewRequest(c.method, "http://shed:8080"+c.path, nil)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != c.status || w.Header().Get("Location") != c.location {
			t.Errorf("%s %s: %d to %q, want %d to %q", c.method, c.path, w.Code, w.Header().Get("Location"), c.status, c.location)
		}
	}
}

func TestPlace_Certificate(t *testing.T) {
	ca, err := tlsca.Open(t.TempDir(), "shed", nil)
	if err != nil {
		t.Fatal(err)
	}
	s := web.New(web.Config{Places: []web.Place{trust.Place(ca, "8443")}, Builds: builds{}, Gate: nobody{}})
	w := httptest.NewRecorder()
	s.ServeHTTP(w, httptest.NewRequest("GET", "/trust/shop.crt", nil))
	cert, err := x509.ParseCertificate(w.Body.Bytes())
	if err != nil || !cert.IsCA || !bytes.Equal(cert.Raw, ca.DER()) {
		t.Errorf("not the authority's certificate: %v", err)
	}
	w = httptest.NewRecorder()
	s.ServeHTTP(w, httptest.NewRequest("GET", "http://[fd00::5]:8080/trust", nil))
	first := strings.ReplaceAll(ca.Fingerprint()[:23], ":", " ")
	for _, want := range []string{first, "https://[fd00::5]:8443/", "Android", "Apple", "Windows"} {
		if !strings.Contains(w.Body.String(), want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}
