package sqlite

import (
	"path/filepath"
	"testing"
)

// TestClaim: one has a task at a time, of all that have the journal open;
// another task is another's.
func TestClaim(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fettle.db")
	one, two := open(t, path), open(t, path)
	claim := func(s *Store, task string, want bool) func() {
		t.Helper()
		release, ok, err := s.Claim(t.Context(), task)
		if err != nil || ok != want {
			t.Fatalf("claimed %s: %v, %v; want %v", task, ok, err, want)
		}
		return release
	}
	release := claim(one, "work", true)
	claim(two, "work", false)
	claim(two, "tidying", true)()
	release()
	claim(two, "work", true)()
}
