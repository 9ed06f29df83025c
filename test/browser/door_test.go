package browser

import (
	"context"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/base64"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

var firstCode = regexp.MustCompile(`this code: (\d{4}-\d{4})`)

// shop serves a shop that nobody owns yet, over HTTPS.
func shop(t *testing.T) (*server, string) {
	t.Helper()
	dir := t.TempDir()
	run(t, "new", "pedlar", "--from", "../../internal/demo/pedlar.json", "--until", "2026-10-06", "--data", dir)
	s := start(t, "serve", "--no-open", "--addr", "127.0.0.1:0", "--plain=", "--data", dir, "--now", "2026-10-06")
	return s, dir
}

// trusting starts a browser that trusts the shop's certificate and no other
// unknown one, after checking that the shop's own authority signed it.
func trusting(t *testing.T, s *server) context.Context {
	t.Helper()
	look := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{InsecureSkipVerify: true}}}
	res, err := look.Get(s.url + "/trust/shop.crt")
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	der, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	ca, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	pool := x509.NewCertPool()
	pool.AddCert(ca)
	strict := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}}}
	res, err = strict.Get(s.url + "/sign-in")
	if err != nil {
		t.Fatalf("a tablet that trusts the shop refuses its page: %v", err)
	}
	res.Body.Close()
	key := sha256.Sum256(res.TLS.PeerCertificates[0].RawSubjectPublicKeyInfo)
	ctx, err := chrome(t.TempDir(), chromedp.Flag("ignore-certificate-errors-spki-list", base64.StdEncoding.EncodeToString(key[:])))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = chromedp.Cancel(ctx) })
	return ctx
}

// keypad signs a person in by name plate and keypad.
func (p *tab) keypad(name, pin string) {
	p.Helper()
	p.open("/")
	p.follow(p.labelled(".door-plate", name))
	for _, digit := range pin {
		p.tap("[data-key='" + string(digit) + "']")
	}
	p.follow(p.labelled("button", "Sign in"))
}

// TestSignIn is a shop's first day: the owner takes it with the printed code
// and adds people; a crew member signs in with a PIN and records; a guest looks.
func TestSignIn(t *testing.T) {
	s, dir := shop(t)
	browser := trusting(t, s)
	code := firstCode.FindStringSubmatch(s.log.String())
	if code == nil {
		t.Fatalf("no code was printed: %s", s.log)
	}
	owner := tabOf(t, browser, s.url)
	owner.open("/")
	owner.says("h1", "This shop has no owner yet")
	owner.until("the worker is let in over HTTPS", "isSecureContext && navigator.serviceWorker.controller")
	owner.audited("first-run")
	for field, text := range map[string]string{"start": code[1], "name": "Lead designer-builder", "code": "LD", "password": "copper anvil teapot", "again": "copper anvil teapot"} {
		owner.write("[name="+field+"]", text)
	}
	owner.follow(owner.labelled("button", "This is my shop"))
	owner.open("/people")
	for _, p := range []struct{ name, code, role, pin string }{{"Metalworker", "MW", "crew", "2580"}, {"Neighbour", "NB", "guest", "8642"}} {
		owner.write("#name", p.name)
		owner.write("#code", p.code)
		owner.tap("input[name=role][value=" + p.role + "] + .choice-word")
		owner.write("#pin", p.pin)
		owner.follow(owner.labelled("button", "Add"))
	}
	owner.says(".door-people", "Neighbour")
	owner.audited("people")
	owner.open("/builds")
	owner.audited("builds")
	owner.open("/trust")
	owner.audited("trust")
	owner.quiet()

	crew := tabOf(t, browser, s.url)
	crew.open("/")
	crew.audited("sign-in")
	crew.follow(crew.labelled(".door-plate", "Metalworker"))
	crew.audited("keypad")
	crew.keypad("Metalworker", "2580")
	crew.open("/b/pedlar/metal/new?panel=P41&x=1750&z=560")
	crew.tap("input[value=pinholes] + .choice-word")
	crew.write("#width", "240")
	crew.write("#height", "160")
	crew.follow(crew.labelled("button", "On my slip"))
	crew.follow("#slipbar a")
	crew.follow(".button-keep")
	crew.says(".undo", "Finding F32 on body side lower front, left")
	crew.says(".block", "Metalworker")
	crew.quiet()

	guest := tabOf(t, browser, s.url)
	guest.keypad("Neighbour", "8642")
	guest.open("/b/pedlar/van")
	guest.says("main", "£")
	guest.open("/b/pedlar/metal")
	if got := guest.text("main"); strings.Contains(got, "Enter one by number") || strings.Contains(got, "Touch the place where it is") {
		t.Error("a guest is invited to record")
	}
	guest.quiet()
	guest.open("/b/pedlar/metal/new?panel=P41")
	guest.shoot("guest-refused")
	if status := eval[int](guest, `fetch("/b/pedlar/clocking/on", { method: "POST", body: new URLSearchParams({ person: "MW", task: "T08", entry: "01999c5e-0000-7000-8000-000000000000" }) }).then((r) => r.status)`); status != http.StatusForbidden {
		t.Errorf("a guest clocks somebody on: status %d, want %d", status, http.StatusForbidden)
	}
	guest.quiet("403")
	if strings.Contains(run(t, "export", "pedlar", "--data", dir), "01999c5e") {
		t.Error("the guest's entry was kept")
	}
}
