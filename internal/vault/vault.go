// Package vault is the contract of the store of photos and scans. Each is kept
// under the SHA-256 of its bytes, so the same photo sent twice is there once,
// and a photo that was changed after it was kept can be told. The package also
// knows what counts as a photo (by content, never by name) and makes smaller
// pictures of them.
package vault

import (
	"context"
	"io"
	"regexp"

	"fettle/fault"
)

// Photo is what the vault knows of one photo or scan.
type Photo struct {
	Hash  string // SHA-256 in lower-case hex
	Size  int64  // bytes
	Media Media
}

// Vault keeps photos and scans. Every error is a fault.
type Vault interface {
	// Put keeps what r holds, which survives a power cut once Put returns.
	// TooLarge beyond limit bytes, Invalid when it is empty or none of the media
	// we keep. Nothing stays behind after a fault.
	Put(ctx context.Context, r io.Reader, limit int64) (Photo, error)
	// Open returns the bytes, which the caller closes, or NotFound.
	Open(ctx context.Context, hash string) (io.ReadSeekCloser, Photo, error)
	// Has tells whether a photo of that hash is there, without reading it.
	Has(ctx context.Context, hash string) (bool, error)
	// Walk reads every photo again, by hash, and calls visit with it; problem
	// says what is wrong with it, such as content that does not match its hash.
	// It ends early with the error of visit.
	Walk(ctx context.Context, visit func(p Photo, problem error) error) error
}

var hashForm = regexp.MustCompile(`^[0-9a-f]{64}$`)

// ValidHash returns an Invalid fault unless hash is a SHA-256 in lower-case
// hex. A hash that passes is safe as a file's name.
func ValidHash(hash string) error {
	if hashForm.MatchString(hash) {
		return nil
	}
	if len(hash) > 80 {
		hash = hash[:80] + "…"
	}
	return fault.New(fault.Invalid, "%q is not the hash of a photo", hash).At("hash")
}
