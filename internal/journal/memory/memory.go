// Package memory is a journal store without a file, for tests: it keeps every
// promise of the contract but the one about power cuts.
package memory

import (
	"bytes"
	"context"
	"maps"
	"slices"
	"strings"
	"sync"
	"time"

	"fettle/fault"
	"fettle/internal/journal"
)

// Store keeps everything in maps. The zero value is not ready; use New.
type Store struct {
	mu        sync.Mutex
	entries   map[string][]journal.Sealed // by build, in order
	byID      map[string]journal.Sealed
	snapshots map[string][]journal.Snapshot // by build, as saved
	slips     map[[2]string][]byte          // by build and person
	photos    map[string]journal.Photo
}

// New returns an empty store.
func New() *Store {
	return &Store{
		entries:   map[string][]journal.Sealed{},
		byID:      map[string]journal.Sealed{},
		snapshots: map[string][]journal.Snapshot{},
		slips:     map[[2]string][]byte{},
		photos:    map[string]journal.Photo{},
	}
}

// Append keeps all entries or none.
func (s *Store) Append(ctx context.Context, build string, expect int64, entries []journal.Entry) ([]journal.Entry, error) {
	batch, err := journal.Prepare(build, entries)
	if err != nil {
		return nil, err
	}
	defer s.lock()()
	if err := ended(ctx); err != nil {
		return nil, err
	}
	out, err := journal.Settle(ledger{s, build}, build, expect, batch, time.Now())
	if err != nil {
		return nil, err
	}
	for _, e := range out.Fresh {
		s.entries[build] = append(s.entries[build], e)
		s.byID[e.ID] = e
	}
	return copied(out.Answer), nil
}

// Entries returns the entries with after < Seq <= upTo; upTo 0 is all.
func (s *Store) Entries(ctx context.Context, build string, after, upTo int64) ([]journal.Entry, error) {
	defer s.lock()()
	if err := s.known(ctx, build); err != nil {
		return nil, err
	}
	var out []journal.Entry
	for _, e := range s.entries[build] {
		if e.Seq > after && (upTo == 0 || e.Seq <= upTo) {
			out = append(out, e.Entry)
		}
	}
	return copied(out), nil
}

// Builds lists all builds by ID.
func (s *Store) Builds(ctx context.Context) ([]journal.Build, error) {
	defer s.lock()()
	if err := ended(ctx); err != nil {
		return nil, err
	}
	var out []journal.Build
	for _, name := range slices.Sorted(maps.Keys(s.entries)) {
		list := s.entries[name]
		last := list[len(list)-1]
		out = append(out, journal.Build{ID: name, Seq: last.Seq, Last: last.Kept})
	}
	return out, nil
}

// SaveSnapshot keeps a snapshot.
func (s *Store) SaveSnapshot(ctx context.Context, n journal.Snapshot) error {
	if err := n.Validate(); err != nil {
		return err
	}
	defer s.lock()()
	if err := s.known(ctx, n.Build); err != nil {
		return err
	}
	if err := journal.WithinBuild(n, int64(len(s.entries[n.Build]))); err != nil {
		return err
	}
	n.State = bytes.Clone(n.State)
	s.snapshots[n.Build] = append(s.snapshots[n.Build], n)
	return nil
}

// Snapshot returns the newest snapshot of a form with Seq <= upTo; 0 is any.
func (s *Store) Snapshot(ctx context.Context, build, form string, upTo int64) (best journal.Snapshot, ok bool, err error) {
	defer s.lock()()
	if err := s.known(ctx, build); err != nil {
		return best, false, err
	}
	for _, n := range s.snapshots[build] {
		if n.Form == form && (upTo == 0 || n.Seq <= upTo) && n.Seq >= best.Seq {
			best, ok = n, true
		}
	}
	best.State = bytes.Clone(best.State)
	return best, ok, nil
}

// SaveSlip keeps a person's slip; an empty one clears it.
func (s *Store) SaveSlip(ctx context.Context, build, person string, slip []byte) error {
	if err := journal.ValidateSlip(build, person, slip); err != nil {
		return err
	}
	defer s.lock()()
	if err := s.known(ctx, build); err != nil {
		return err
	}
	key := [2]string{build, person}
	if len(slip) == 0 {
		delete(s.slips, key)
		return nil
	}
	s.slips[key] = bytes.Clone(slip)
	return nil
}

// Slip returns a person's slip, or nothing.
func (s *Store) Slip(ctx context.Context, build, person string) ([]byte, error) {
	defer s.lock()()
	if err := s.known(ctx, build); err != nil {
		return nil, err
	}
	return bytes.Clone(s.slips[[2]string{build, person}]), nil
}

// SavePhoto keeps a photo's record; one that is there stays.
func (s *Store) SavePhoto(ctx context.Context, p journal.Photo) error {
	if err := p.Validate(); err != nil {
		return err
	}
	defer s.lock()()
	if err := ended(ctx); err != nil {
		return err
	}
	if _, ok := s.photos[p.Hash]; !ok {
		s.photos[p.Hash] = p.KeptAt(time.Now())
	}
	return nil
}

// Photo returns a photo's record.
func (s *Store) Photo(ctx context.Context, hash string) (journal.Photo, error) {
	defer s.lock()()
	if err := ended(ctx); err != nil {
		return journal.Photo{}, err
	}
	p, ok := s.photos[hash]
	if !ok {
		return p, journal.NoPhoto(hash)
	}
	return p, nil
}

// Photos lists all records by hash.
func (s *Store) Photos(ctx context.Context) ([]journal.Photo, error) {
	defer s.lock()()
	if err := ended(ctx); err != nil {
		return nil, err
	}
	return slices.SortedFunc(maps.Values(s.photos), func(a, b journal.Photo) int {
		return strings.Compare(a.Hash, b.Hash)
	}), nil
}

func (s *Store) lock() (unlock func()) {
	s.mu.Lock()
	return s.mu.Unlock
}

func (s *Store) known(ctx context.Context, build string) error {
	if err := ended(ctx); err != nil {
		return err
	}
	if len(s.entries[build]) == 0 {
		return journal.NoBuild(build)
	}
	return nil
}

func ended(ctx context.Context) error {
	return fault.Wrap(fault.Interrupted, ctx.Err(), "use the journal")
}

// copied keeps callers from changing what is kept.
func copied(entries []journal.Entry) []journal.Entry {
	for i := range entries {
		entries[i].Change = bytes.Clone(entries[i].Change)
	}
	return entries
}

// ledger shows one build to journal.Settle.
type ledger struct {
	s     *Store
	build string
}

func (l ledger) Last() (int64, error) { return int64(len(l.s.entries[l.build])), nil }

func (l ledger) ByID(id string) (journal.Sealed, bool, error) {
	e, ok := l.s.byID[id]
	return e, ok, nil
}

func (l ledger) Since(seq int64) ([]journal.Step, error) {
	var out []journal.Step
	for _, e := range l.s.entries[l.build][seq:] {
		out = append(out, journal.Step{Seq: e.Seq, ID: e.ID, At: e.At, Person: e.Person, Kind: e.Kind})
	}
	return out, nil
}
