package journal

import (
	"crypto/rand"
	"encoding/binary"
	"fmt"
	"time"
)

// NewID makes an entry's ID: a UUID of version 7 (RFC 9562, section 5.7), the
// time in milliseconds followed by 74 random bits.
func NewID(at time.Time) string {
	var b [16]byte
	rand.Read(b[:]) // never fails: it stops the program instead
	var ms [8]byte
	binary.BigEndian.PutUint64(ms[:], uint64(at.UnixMilli()))
	copy(b[:6], ms[2:])
	b[6] = b[6]&0x0f | 0x70
	b[8] = b[8]&0x3f | 0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", b[:4], b[4:6], b[6:8], b[8:10], b[10:])
}
