package tlsca

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func names() Names {
	return Names{DNS: []string{"shed", "shed.local", "localhost"}, IP: []net.IP{net.IPv4(127, 0, 0, 1).To4()}}
}

func open(t *testing.T, dir string, now func() time.Time) *Authority {
	t.Helper()
	a, err := Open(dir, "Shed.example", now)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestTrusted has a client that trusts only the shop open a page over HTTP/2.
func TestTrusted(t *testing.T) {
	a := open(t, t.TempDir(), nil)
	cfg, err := a.TLS(names)
	if err != nil {
		t.Fatal(err)
	}
	srv := httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { io.WriteString(w, r.Proto) }))
	srv.TLS, srv.EnableHTTP2 = cfg, true
	srv.StartTLS()
	defer srv.Close()
	get := func(pool *x509.CertPool) (string, error) {
		tr := &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool, ServerName: "shed.local"}, ForceAttemptHTTP2: true}
		defer tr.CloseIdleConnections()
		res, err := (&http.Client{Transport: tr}).Get(srv.URL)
		if err != nil {
			return "", err
		}
		defer res.Body.Close()
		body, err := io.ReadAll(res.Body)
		return string(body), err
	}
	pool := x509.NewCertPool()
	pool.AppendCertsFromPEM(a.PEM())
	if got, err := get(pool); got != "HTTP/2.0" || err != nil {
		t.Errorf("trusting the shop: got %q, %v", got, err)
	}
	if _, err := get(x509.NewCertPool()); err == nil {
		t.Error("a client that trusts nobody was let in")
	}
}

// TestConstraints signs with the shop's own key for the rest of the world, as
// a thief would, and sees it refused by the standard verifier.
func TestConstraints(t *testing.T) {
	a := open(t, t.TempDir(), nil)
	pool := x509.NewCertPool()
	pool.AddCert(a.cert)
	cases := []struct {
		name, ip string
		want     bool
	}{
		{"shed.local", "", true}, {"shed", "", true}, {"localhost", "", true}, {"tablet.lan", "", true}, {"", "192.168.1.20", true},
		{"", "10.0.0.4", true}, {"", "fd00::5", true}, {"", "127.0.0.1", true},
		{"bank.example", "", false}, {"local.example", "", false}, {"xlocal", "", false}, {"", "8.8.8.8", false},
		{"", "172.32.0.1", false}, {"", "2001:db8::1", false},
	}
	for _, c := range cases {
		leaf := forge(t, a, c.name, c.ip)
		host := c.name + c.ip
		_, err := leaf.Verify(x509.VerifyOptions{Roots: pool, DNSName: host})
		if (err == nil) != c.want {
			t.Errorf("%s: %v, want trusted %v", host, err, c.want)
		}
	}
}

func forge(t *testing.T, a *Authority, name, ip string) *x509.Certificate {
	t.Helper()
	key, _ := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	tmpl := &x509.Certificate{
		SerialNumber: serial(), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	if name != "" {
		tmpl.DNSNames = []string{name}
	}
	if ip != "" {
		tmpl.IPAddresses = []net.IP{net.ParseIP(ip)}
	}
	der, err := x509.CreateCertificate(rand.Reader, tmpl, a.cert, &key.PublicKey, a.key)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return leaf
}

func TestAuthority_CannotMakeAnother(t *testing.T) {
	a := open(t, t.TempDir(), nil)
	if !a.cert.IsCA || !a.cert.MaxPathLenZero || a.cert.MaxPathLen != 0 || !a.cert.PermittedDNSDomainsCritical {
		t.Errorf("CA %v, path length %d, critical %v", a.cert.IsCA, a.cert.MaxPathLen, a.cert.PermittedDNSDomainsCritical)
	}
	if years := time.Until(a.Ends()).Hours() / 24 / 365; years < 9.9 || years > 10.1 {
		t.Errorf("lives %.1f years, want 10", years)
	}
	if got := a.Fingerprint(); len(got) != 95 || strings.Count(got, ":") != 31 {
		t.Errorf("fingerprint %q", got)
	}
}

func TestOpen_KeptAcrossStarts(t *testing.T) {
	dir := t.TempDir()
	one := open(t, dir, nil)
	if two := open(t, dir, nil); two.Fingerprint() != one.Fingerprint() {
		t.Error("a second start made another authority: every tablet would have to trust it anew")
	}
	for _, name := range []string{"ca.key"} {
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v, want 0600", name, info.Mode(), err)
		}
	}
}

func TestOpen_Broken(t *testing.T) {
	cases := map[string]func(dir string) error{
		"key lost":      func(dir string) error { return os.Remove(filepath.Join(dir, "ca.key")) },
		"cert lost":     func(dir string) error { return os.Remove(filepath.Join(dir, "ca.crt")) },
		"cert cut":      func(dir string) error { return os.Truncate(filepath.Join(dir, "ca.crt"), 100) },
		"another's key": func(dir string) error { return swapKey(dir) },
	}
	for name, breakIt := range cases {
		dir := t.TempDir()
		open(t, dir, nil)
		if err := breakIt(dir); err != nil {
			t.Fatal(err)
		}
		if _, err := Open(dir, "shed", nil); err == nil {
			t.Errorf("%s: opened without a word", name)
		}
	}
}

func swapKey(dir string) error {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	cert, err := readBlock(filepath.Join(dir, "ca.crt"), "CERTIFICATE")
	if err != nil {
		return err
	}
	return writePair(dir, "ca", key, cert)
}

// TestTLS_Renewal walks a year of a server whose address changes once.
func TestTLS_Renewal(t *testing.T) {
	now := time.Now()
	dir := t.TempDir()
	a := open(t, dir, func() time.Time { return now })
	is := names()
	cfg, err := a.TLS(func() Names { return is })
	if err != nil {
		t.Fatal(err)
	}
	serialOf := func() string {
		c, err := cfg.GetCertificate(nil)
		if err != nil {
			t.Fatal(err)
		}
		return c.Leaf.SerialNumber.String()
	}
	first := serialOf()
	steps := []struct {
		name  string
		do    func()
		fresh bool
	}{
		{"a month later", func() { now = now.Add(30 * 24 * time.Hour) }, false},
		{"another address, within the minute", func() { is.IP = append(is.IP, net.IPv4(10, 0, 0, 9)) }, false},
		{"a minute later", func() { now = now.Add(2 * time.Minute) }, true},
		{"an address of the world", func() { now = now.Add(time.Hour); is.IP = append(is.IP, net.IPv4(8, 8, 8, 8)) }, false},
		{"29 days before its end", func() { now = now.Add((365 - 29) * 24 * time.Hour) }, true},
	}
	for _, st := range steps {
		st.do()
		got := serialOf()
		if (got != first) != st.fresh {
			t.Errorf("%s: made anew %v, want %v", st.name, got != first, st.fresh)
		}
		first = got
	}
	again, err := open(t, dir, func() time.Time { return now }).TLS(func() Names { return is })
	if err != nil {
		t.Fatal(err)
	}
	if c, _ := again.GetCertificate(nil); c.Leaf.SerialNumber.String() != first {
		t.Error("a second start made another certificate")
	}
}

func TestOpen_Ended(t *testing.T) {
	dir := t.TempDir()
	open(t, dir, nil)
	_, err := Open(dir, "shed", func() time.Time { return time.Now().Add(11 * 365 * 24 * time.Hour) })
	if err == nil || !strings.Contains(err.Error(), "ended on") {
		t.Errorf("got %v", err)
	}
}

func TestLocal(t *testing.T) {
	n := Local()
	if len(n.DNS) == 0 || n.DNS[0] != "localhost" {
		t.Errorf("names %v, want localhost among them", n.DNS)
	}
	for _, ip := range n.IP {
		if !private(ip) {
			t.Errorf("%v is an address of the world", ip)
		}
	}
}
