package tlsca

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/hex"
	"encoding/pem"
	"errors"
	"io/fs"
	"math/big"
	"path/filepath"
	"strings"
	"time"

	"fettle/fault"
)

const (
	authorityLife = 10 * 365 * 24 * time.Hour
	backdate      = 24 * time.Hour // a tablet's clock may be behind
)

// Authority signs for the machines of one shop.
type Authority struct {
	folder string
	key    *ecdsa.PrivateKey
	cert   *x509.Certificate
	now    func() time.Time
}

// Open reads the authority in a folder, or makes it for a machine of that name
// if there is none. now nil is the clock. A key without its certificate, or one
// that does not fit, is an Invalid fault.
func Open(folder, host string, now func() time.Time) (*Authority, error) {
	if now == nil {
		now = time.Now
	}
	a := &Authority{folder: folder, now: now}
	var err error
	a.key, a.cert, err = readPair(folder, "ca")
	if errors.Is(err, fs.ErrNotExist) {
		return a, a.make(host)
	}
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "read the shop's certificate authority")
	}
	if now().After(a.cert.NotAfter) {
		return nil, fault.New(fault.Invalid, "the shop's certificate authority ended on %s", a.cert.NotAfter.Format("2 Jan 2006")).
			At(filepath.Join(folder, "ca.crt")).WithHint("Move ca.crt and ca.key away, start again, and let each tablet trust the new one.")
	}
	return a, nil
}

func (a *Authority) make(host string) error {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	t := a.template(host)
	der, err := x509.CreateCertificate(rand.Reader, t, t, &key.PublicKey, key)
	if err != nil {
		return fault.Wrap(fault.Internal, err, "make the shop's certificate authority")
	}
	if a.cert, err = x509.ParseCertificate(der); err != nil {
		return err
	}
	a.key = key
	return writePair(a.folder, "ca", key, der)
}

func (a *Authority) template(host string) *x509.Certificate {
	at := a.now().UTC()
	return &x509.Certificate{
		SerialNumber: serial(),
		Subject:      pkix.Name{CommonName: "fettle at " + label(host), Organization: []string{"fettle, for this shop only"}},
		NotBefore:    at.Add(-backdate),
		NotAfter:     at.Add(authorityLife),
		IsCA:         true, MaxPathLenZero: true, BasicConstraintsValid: true,
		KeyUsage:                    x509.KeyUsageCertSign | x509.KeyUsageCRLSign,
		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         permittedNames(host),
		PermittedIPRanges:           permittedRanges(),
	}
}

// serial is 127 random bits, never nought.
func serial() *big.Int {
	n, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 127))
	if err != nil || n.Sign() == 0 {
		return big.NewInt(1)
	}
	return n
}

// DER is the authority's certificate as a tablet takes it.
func (a *Authority) DER() []byte { return a.cert.Raw }

// PEM is the same as text.
func (a *Authority) PEM() []byte {
	return pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: a.cert.Raw})
}

// Ends is the day on which tablets stop trusting it.
func (a *Authority) Ends() time.Time { return a.cert.NotAfter }

// Fingerprint is the SHA-256 of the certificate, in pairs with colons, as
// tablets show it.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.cert.Raw)
	pairs := make([]string, len(sum))
	for i := range sum {
		pairs[i] = strings.ToUpper(hex.EncodeToString(sum[i : i+1]))
	}
	return strings.Join(pairs, ":")
}
