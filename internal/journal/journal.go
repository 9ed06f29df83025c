// Package journal is the contract of the store: entries that are only ever
// added, from which every build is replayed. Nothing here knows a database;
// the folders below hold the stores, and storetest is the one suite they pass.
package journal

import (
	"context"
	"encoding/json"
	"time"
)

// Entry is one kept change of one build.
type Entry struct {
	ID      string          `json:"id"`    // UUIDv7 made on the device: the same entry sent twice counts once
	Build   string          `json:"build"` // the build's short name, such as pedlar
	Seq     int64           `json:"seq"`   // 1, 2, 3 … within the build, given by the store
	At      time.Time       `json:"at"`    // when the person made it, millisecond UTC
	Kept    time.Time       `json:"kept"`  // when the store kept it, millisecond UTC
	Person  string          `json:"person"`
	Device  string          `json:"device"`
	Kind    string          `json:"kind"`    // the kind of change, or KindUndo
	Version int             `json:"version"` // of the change's form; older ones are upgraded on read
	Change  json.RawMessage `json:"change"`  // kept byte for byte, at most MaxChange
	Note    string          `json:"note,omitempty"`
	Undoes  string          `json:"undoes,omitempty"` // the entry it takes back, for KindUndo
}

// KindUndo marks an entry that takes another back.
const KindUndo = "undo"

// AnySeq tells Append that the caller does not mind what came before.
const AnySeq int64 = -1

// Build is a line of the list of builds.
type Build struct {
	ID   string    `json:"id"`
	Seq  int64     `json:"seq"`  // of its last entry
	Last time.Time `json:"last"` // when its last entry was kept
}

// Snapshot is a replayed build kept to save time. It is never the truth: a
// store may drop any of them.
type Snapshot struct {
	Build string
	Seq   int64
	Form  string // which code made it; another form is ignored
	State []byte
}

// Store keeps entries. Every error is a fault: Conflict when the expected
// sequence has passed (its cause is a *Moved) or an ID was used for different
// content, NotFound for a build without entries, Invalid for an entry that
// breaks a rule of form (form.go), Interrupted for a cancelled context.
type Store interface {
	// Append keeps all entries or none, in order, and returns them with Seq and
	// Kept filled in. expect is the sequence the caller last saw, or AnySeq.
	// An entry already kept (same ID, same content) is returned as it was kept
	// and neither stored again nor counted against expect, also when only a part
	// of the entries was kept before. The first entry of a build makes the build.
	// An entry's own Seq and Kept are ignored; its Build may be left empty.
	// When Append returns without error the entries survive a power cut.
	Append(ctx context.Context, build string, expect int64, entries []Entry) ([]Entry, error)
	// Entries returns the entries with after < Seq <= upTo in order; upTo 0 is all.
	Entries(ctx context.Context, build string, after, upTo int64) ([]Entry, error)
	// Builds lists all builds by ID.
	Builds(ctx context.Context) ([]Build, error)
	// SaveSnapshot keeps a snapshot; Snapshot returns the newest with Seq <= upTo
	// (0: any) and that form, or ok false.
	SaveSnapshot(ctx context.Context, s Snapshot) error
	Snapshot(ctx context.Context, build, form string, upTo int64) (s Snapshot, ok bool, err error)
	// SaveSlip keeps what a person has put together for a build and not kept yet,
	// so that nothing typed is lost; an empty slip clears it. Slip returns it.
	SaveSlip(ctx context.Context, build, person string, slip []byte) error
	Slip(ctx context.Context, build, person string) ([]byte, error)
}
