package journal

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"time"

	"fettle/fault"
)

// Digest is the SHA-256 of an entry's content.
type Digest [sha256.Size]byte

// Sealed is an entry with the digest of its content, as a store keeps it.
type Sealed struct {
	Entry
	Digest Digest
}

// Seal adds the digest of the content: all that the person's device made, in
// the order build, ID, time in ms, person, device, kind, version, change,
// note, undoes, each behind its length, after a mark with the digest's own
// version. Seq and Kept are the store's and stay out. The change counts in the
// form that encoding/json gives it, so that white space and the escapes a
// round trip through Go adds do not make another entry of it.
func Seal(e Entry) Sealed {
	h := sha256.New()
	field := func(b []byte) {
		h.Write(binary.BigEndian.AppendUint64(nil, uint64(len(b))))
		h.Write(b)
	}
	number := func(n int64) { field(binary.BigEndian.AppendUint64(nil, uint64(n))) }
	field([]byte("entry 1"))
	field([]byte(e.Build))
	field([]byte(e.ID))
	number(e.At.UnixMilli())
	field([]byte(e.Person))
	field([]byte(e.Device))
	field([]byte(e.Kind))
	number(int64(e.Version))
	field(plainChange(e.Change))
	field([]byte(e.Note))
	field([]byte(e.Undoes))
	s := Sealed{Entry: e}
	h.Sum(s.Digest[:0])
	return s
}

// plainChange leaves a change that is not JSON as it is: it can only come from
// a damaged store, and must then not match its digest.
func plainChange(c json.RawMessage) []byte {
	var compact, escaped bytes.Buffer
	if err := json.Compact(&compact, c); err != nil {
		return c
	}
	json.HTMLEscape(&escaped, compact.Bytes())
	return escaped.Bytes()
}

// Prepare validates a batch for one build and seals it: the build's name is
// filled in, times are cut to the millisecond in UTC, an undo without a change
// gets null. A broken rule is an Invalid fault such as "entry 3, id: …".
func Prepare(build string, entries []Entry) ([]Sealed, error) {
	if err := ValidateBuild(build); err != nil {
		return nil, err
	}
	batch := make([]Sealed, len(entries))
	for i, e := range entries {
		e, err := prepare(build, e)
		if err != nil {
			return nil, atEntry(i, err)
		}
		batch[i] = Seal(e)
	}
	return batch, nil
}

func prepare(build string, e Entry) (Entry, error) {
	if e.Build == "" {
		e.Build = build
	}
	if e.Build != build {
		return e, fault.New(fault.Invalid, "%q cannot be kept in the journal of %s", clip(e.Build), build).At("build")
	}
	if e.Kind == KindUndo && len(e.Change) == 0 {
		e.Change = json.RawMessage("null")
	}
	if err := e.Validate(); err != nil {
		return e, err
	}
	e.At = e.At.UTC().Truncate(time.Millisecond)
	e.Change = bytes.Clone(e.Change)
	e.Seq, e.Kept = 0, time.Time{}
	return e, nil
}

// atEntry puts the number of the entry, from 1, before the place in a fault.
func atEntry(i int, err error) error {
	if f, ok := err.(*fault.Fault); ok {
		return f.At(fmt.Sprintf("entry %d", i+1))
	}
	return err
}
