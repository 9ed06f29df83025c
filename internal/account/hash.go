package account

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"strings"

	"golang.org/x/crypto/argon2"

	"fettle/fault"
)

// The cost of one hash: two passes over 19 MiB in one lane, as the OWASP
// password storage guide gives for argon2id; about 40 ms on a small machine.
const (
	passes    = 2
	memoryKiB = 19 * 1024
	lanes     = 1
	saltLen   = 16
	keyLen    = 32
	atOnce    = 2 // hashes under way, so that a rush costs 38 MiB and no more
)

// Hasher makes and compares hashes of PINs and passwords, two at a time. The
// zero Hasher is not ready; use NewHasher.
type Hasher struct{ slots chan struct{} }

// NewHasher returns a hasher.
func NewHasher() *Hasher { return &Hasher{slots: make(chan struct{}, atOnce)} }

// Hash returns the argon2id hash of a secret in the usual text form, with a
// salt of its own. It waits for a free slot until ctx ends.
func (h *Hasher) Hash(ctx context.Context, secret string) (string, error) {
	salt := make([]byte, saltLen)
	_, _ = rand.Read(salt) // never fails: crypto/rand ends the program instead
	key, err := h.key(ctx, secret, salt)
	if err != nil {
		return "", err
	}
	b64 := base64.RawStdEncoding
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, memoryKiB, passes, lanes,
		b64.EncodeToString(salt), b64.EncodeToString(key)), nil
}

// Match tells whether a secret belongs to a hash. For an empty hash it does
// the same work and answers no, so that time does not tell who exists.
func (h *Hasher) Match(ctx context.Context, hash, secret string) (bool, error) {
	salt, want, err := parse(hash)
	if err != nil {
		return false, err
	}
	got, err := h.key(ctx, secret, salt)
	if err != nil {
		return false, err
	}
	return hash != "" && subtle.ConstantTimeCompare(got, want) == 1, nil
}

func (h *Hasher) key(ctx context.Context, secret string, salt []byte) ([]byte, error) {
	select {
	case h.slots <- struct{}{}:
		defer func() { <-h.slots }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	return argon2.IDKey([]byte(secret), salt, passes, memoryKiB, lanes, keyLen), nil
}

func parse(hash string) (salt, key []byte, err error) {
	if hash == "" {
		return make([]byte, saltLen), nil, nil
	}
	head := fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$", argon2.Version, memoryKiB, passes, lanes)
	rest, ok := strings.CutPrefix(hash, head)
	saltText, keyText, both := strings.Cut(rest, "$")
	if !ok || !both {
		return nil, nil, fault.New(fault.Internal, "the stored hash is not of a form this program knows")
	}
	salt, errSalt := base64.RawStdEncoding.DecodeString(saltText)
	key, errKey := base64.RawStdEncoding.DecodeString(keyText)
	if errSalt != nil || errKey != nil || len(key) != keyLen {
		return nil, nil, fault.New(fault.Internal, "the stored hash is damaged")
	}
	return salt, key, nil
}
