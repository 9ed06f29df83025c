package tlsca

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"sync"
	"time"

	"fettle/fault"
)

const (
	serverLife = 365 * 24 * time.Hour // tablets refuse much longer ones
	renewal    = 30 * 24 * time.Hour
	lookAgain  = time.Minute // how often names and end are looked at
)

// server holds the certificate in use and makes it anew when needed.
type server struct {
	a     *Authority
	names func() Names

	mu     sync.Mutex
	pair   *tls.Certificate
	looked time.Time
}

// TLS returns the configuration of a server that is reached under the names
// that names gives, asked at most once a minute; nil is Local. Names outside
// the authority's bounds are left out. It makes the first certificate at once,
// so that a folder that cannot be written shows at start-up.
func (a *Authority) TLS(names func() Names) (*tls.Config, error) {
	if names == nil {
		names = Local
	}
	s := &server{a: a, names: names}
	if _, err := s.certificate(nil); err != nil {
		return nil, err
	}
	return &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: s.certificate}, nil
}

func (s *server) certificate(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := s.a.now()
	if s.pair != nil && now.Sub(s.looked) < lookAgain {
		return s.pair, nil
	}
	s.looked = now
	names := s.a.within(s.names())
	if s.pair == nil {
		s.pair = s.a.kept()
	}
	if s.pair != nil && s.fits(s.pair.Leaf, names) {
		return s.pair, nil
	}
	fresh, err := s.a.issue(names)
	if err != nil {
		return s.pair, err
	}
	s.pair = fresh
	return fresh, nil
}

func (s *server) fits(leaf *x509.Certificate, names Names) bool {
	return s.a.now().Add(renewal).Before(leaf.NotAfter) && names.equal(leaf.DNSNames, leaf.IPAddresses) &&
		leaf.CheckSignatureFrom(s.a.cert) == nil
}

// kept is the certificate of an earlier start, or nil when there is none of use.
func (a *Authority) kept() *tls.Certificate {
	key, leaf, err := readPair(a.folder, "server")
	if err != nil {
		return nil
	}
	return a.chain(key, leaf)
}

func (a *Authority) chain(key *ecdsa.PrivateKey, leaf *x509.Certificate) *tls.Certificate {
	return &tls.Certificate{Certificate: [][]byte{leaf.Raw, a.cert.Raw}, PrivateKey: key, Leaf: leaf}
}

func (a *Authority) issue(n Names) (*tls.Certificate, error) {
	if len(n.DNS) == 0 && len(n.IP) == 0 {
		return nil, fault.New(fault.Invalid, "this machine has no local name and no private address to sign for")
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	at := a.now().UTC()
	ends := at.Add(serverLife)
	if ends.After(a.cert.NotAfter) {
		ends = a.cert.NotAfter
	}
	t := &x509.Certificate{
		SerialNumber: serial(), Subject: pkix.Name{CommonName: "fettle server"},
		NotBefore: at.Add(-backdate), NotAfter: ends, DNSNames: n.DNS, IPAddresses: n.IP,
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true,
	}
	der, err := x509.CreateCertificate(rand.Reader, t, a.cert, &key.PublicKey, a.key)
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "sign the server's certificate")
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	if err := writePair(a.folder, "server", key, der); err != nil {
		return nil, err
	}
	return a.chain(key, leaf), nil
}
