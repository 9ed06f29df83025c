package sqlite

import (
	"path/filepath"
	"testing"

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
