package tlsca

import (
	"crypto/ecdsa"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"os"
	"path/filepath"

	"fettle/fault"
)

// readPair reads NAME.key and NAME.crt. When neither exists the error is
// fs.ErrNotExist; one without the other is another error.
func readPair(folder, name string) (*ecdsa.PrivateKey, *x509.Certificate, error) {
	keyPath, certPath := filepath.Join(folder, name+".key"), filepath.Join(folder, name+".crt")
	keyDER, keyErr := readBlock(keyPath, "PRIVATE KEY")
	certDER, certErr := readBlock(certPath, "CERTIFICATE")
	if os.IsNotExist(keyErr) && os.IsNotExist(certErr) {
		return nil, nil, keyErr
	}
	if keyErr != nil {
		return nil, nil, fmt.Errorf("%s: %s", keyPath, keyErr.Error())
	}
	if certErr != nil {
		return nil, nil, fmt.Errorf("%s: %s", certPath, certErr.Error())
	}
	parsed, err := x509.ParsePKCS8PrivateKey(keyDER)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", keyPath, err)
	}
	key, ok := parsed.(*ecdsa.PrivateKey)
	if !ok {
		return nil, nil, fmt.Errorf("%s: not an ECDSA key", keyPath)
	}
	cert, err := x509.ParseCertificate(certDER)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", certPath, err)
	}
	if !key.PublicKey.Equal(cert.PublicKey) {
		return nil, nil, fmt.Errorf("%s does not belong to %s", keyPath, certPath)
	}
	return key, cert, nil
}

func readBlock(path, kind string) ([]byte, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	block, _ := pem.Decode(text)
	if block == nil || block.Type != kind {
		return nil, fmt.Errorf("no %s in it", kind)
	}
	return block.Bytes, nil
}

// writePair writes the key for its owner's eyes only, then the certificate.
func writePair(folder, name string, key *ecdsa.PrivateKey, cert []byte) error {
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return fault.Wrap(fault.Internal, err, "write the key")
	}
	if err := writeBlock(filepath.Join(folder, name+".key"), "PRIVATE KEY", der, 0o600); err != nil {
		return err
	}
	return writeBlock(filepath.Join(folder, name+".crt"), "CERTIFICATE", cert, 0o644)
}

// writeBlock writes beside the file and renames, so that it is whole or absent.
func writeBlock(path, kind string, der []byte, mode os.FileMode) error {
	part := path + ".part"
	_ = os.Remove(part) // one left by a broken start would keep its mode
	err := os.WriteFile(part, pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}), mode)
	if err == nil {
		err = os.Rename(part, path)
	}
	if err != nil {
		return fault.Wrap(fault.Internal, err, "write "+filepath.Base(path))
	}
	return nil
}
