package sqlite

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"fettle/fault"
	"fettle/internal/journal"
)

// TestCheck plants one kind of damage each and wants it found and placed.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name, damage string
		where, what  string // empty: none
	}{
		{"sound", "SELECT 1", "", ""},
		{"a changed change", `UPDATE entry SET change = '{"text":"y"}' WHERE seq = 3`, "pedlar, entry 3", "digest"},
		{"a changed person", "UPDATE entry SET person = 'Tove' WHERE seq = 2", "pedlar, entry 2", "digest"},
		{"a changed build", "UPDATE entry SET build = 'lantern', seq = 1 WHERE seq = 5", "lantern, entry 1", "digest"},
		{"two entries gone", "DELETE FROM entry WHERE seq IN (2, 3)", "pedlar, entry 4", "2 entries before it are missing"},
		{"the first gone", "DELETE FROM entry WHERE seq = 1", "pedlar, entry 2", "1 entries before it are missing"},
		{"an index that lies", "PRAGMA writable_schema=1; UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM sqlite_schema WHERE name = 'slip') WHERE name = 'photo'",
			"database file", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "journal.db")
			s := open(t, path)
			append1(t, s, 5)
			check(t, s.Close())
			spoil(t, path, c.damage)
			problems, err := open(t, path).Check(t.Context())
			if err != nil {
				t.Fatalf("Check: %v", err)
			}
			if c.where == "" && len(problems) == 0 {
				return
			}
			if c.where == "" || len(problems) == 0 {
				t.Fatalf("got problems %v, want one at %q", problems, c.where)
			}
			if p := problems[0]; p.Where != c.where || !strings.Contains(p.What, c.what) {
				t.Errorf("got %v, want %q: … %s …", p, c.where, c.what)
			}
		})
	}
}

// TestBackup makes one while others write: it must be sound, hold all that was
// answered before it began, and open as a store.
func TestBackup(t *testing.T) {
	s := fresh(t)
	append1(t, s, 30)
	path := filepath.Join(t.TempDir(), "copy.db")
	var wg sync.WaitGroup
	wg.Go(func() { append1(t, s, 50) })
	err := s.Backup(t.Context(), path)
	wg.Wait()
	check(t, err)
	if files, _ := os.ReadDir(filepath.Dir(path)); len(files) != 1 {
		t.Errorf("the backup's folder holds %v, want the backup alone", files)
	}
	copied := open(t, path)
	if problems, err := copied.Check(t.Context()); err != nil || len(problems) > 0 {
		t.Errorf("check of the backup: %v, %v", problems, err)
	}
	got, err := copied.Entries(t.Context(), "pedlar", 0, 0)
	if err != nil || len(got) < 30 {
		t.Fatalf("the backup has %d entries, %v; want 30 or more", len(got), err)
	}
	_, err = copied.Append(t.Context(), "pedlar", int64(len(got)), []journal.Entry{sample("after")})
	check(t, err)
}

func TestBackup_Refuses(t *testing.T) {
	s := fresh(t)
	append1(t, s, 1)
	path := filepath.Join(t.TempDir(), "copy.db")
	write("mine")(t, path)
	for _, c := range []struct {
		name, path string
		want       fault.Kind
	}{
		{"a file that is there", path, fault.Conflict},
		{"no such folder", filepath.Join(path+"-none", "copy.db"), fault.NotFound},
		{"the journal itself", s.path, fault.Conflict},
	} {
		err := s.Backup(t.Context(), c.path)
		if fault.KindOf(err) != c.want || fault.HintOf(err) == "" {
			t.Errorf("%s: got %v, want %v with a hint", c.name, err, c.want)
		}
	}
	if text, _ := os.ReadFile(path); string(text) != "mine" {
		t.Errorf("the file that was there now holds %q", text)
	}
}
