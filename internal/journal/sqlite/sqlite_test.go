package sqlite

import (
	"encoding/json"
	"path/filepath"
	"testing"
	"time"

	"fettle/internal/journal"
	"fettle/internal/journal/storetest"
)

func TestStore(t *testing.T) {
	storetest.Run(t, func(t *testing.T) journal.Store { return fresh(t) })
	storetest.RunPhotos(t, func(t *testing.T) journal.Photos { return fresh(t) })
}

// fresh opens a new store in a folder of its own.
func fresh(t testing.TB) *Store { return open(t, filepath.Join(t.TempDir(), "journal.db")) }

func open(t testing.TB, path string) *Store {
	t.Helper()
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatalf("Open: %v", err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// sample makes a sound entry of now with a change of about the given size.
func sample(text string) journal.Entry {
	return journal.Entry{
		ID: journal.NewID(time.Now()), At: time.Now(), Person: "Inka", Device: "bench tablet",
		Kind: "record-finding", Version: 1, Change: json.RawMessage(`{"text":"` + text + `"}`),
	}
}

func append1(t testing.TB, s *Store, n int) {
	t.Helper()
	for range n {
		if _, err := s.Append(t.Context(), "pedlar", journal.AnySeq, []journal.Entry{sample("x")}); err != nil {
			t.Fatal(err)
		}
	}
}
