package sqlite

import (
	"bytes"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/pressly/goose/v3"

	"fettle/fault"
	"fettle/internal/journal"
)

// TestOpen_Refuses states the one clear fault for each thing that is not a
// journal of ours, and that nothing is changed there.
func TestOpen_Refuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		place func(t *testing.T, path string)
		kind  fault.Kind
		say   string
	}{
		{"text", write("Dear diary, today the sills went in.\n"), fault.Invalid, "not a journal"},
		{"long text", write(strings.Repeat("not a database\n", 9999)), fault.Invalid, "not a journal"},
		{"head and then noise", write("SQLite format 3\x00" + strings.Repeat("\xa5", 9000)), fault.Invalid, "not a journal"},
		{"folder", func(t *testing.T, path string) { check(t, os.Mkdir(path, 0o755)) }, fault.Invalid, "not a file"},
		{"another program's", foreign, fault.Invalid, "another program"},
		{"newer tables", newer, fault.Invalid, "a newer fettle"},
		{"cut short", cutShort, fault.Internal, "damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "journal.db")
			c.place(t, path)
			before, _ := os.ReadFile(path)
			s, err := Open(t.Context(), path)
			if err == nil {
				s.Close()
				t.Fatal("got a store, want a fault")
			}
			if got := fault.KindOf(err); got != c.kind || !strings.Contains(err.Error(), c.say) {
				t.Errorf("got %v: %v; want %v: … %s …", got, err, c.kind, c.say)
			}
			if !strings.Contains(err.Error(), path) || fault.HintOf(err) == "" {
				t.Errorf("%v (hint %q): want the path and a hint", err, fault.HintOf(err))
			}
			if after, _ := os.ReadFile(path); !bytes.Equal(before, after) {
				t.Error("the file was changed")
			}
		})
	}
}

func TestOpen_NoSuchFolder(t *testing.T) {
	_, err := Open(t.Context(), filepath.Join(t.TempDir(), "none", "journal.db"))
	if fault.KindOf(err) != fault.NotFound || fault.HintOf(err) == "" {
		t.Errorf("got %v, want NotFound with a hint", err)
	}
}

// TestOpen_OddNames uses letters that mean something in a URI.
func TestOpen_OddNames(t *testing.T) {
	for _, name := range []string{"a b.db", "q?mode=memory.db", "h#1.db", "p%41.db", "späť.db", "file:x.db", ":memory:", "&_pragma=x.db"} {
		dir := t.TempDir()
		append1(t, open(t, filepath.Join(dir, name)), 1)
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Size() == 0 {
			t.Errorf("%q: %v, %v; want a file of that very name", name, info, err)
		}
	}
}

func TestOpen_EmptyFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	write("")(t, path)
	append1(t, open(t, path), 1)
}

func TestOpen_AgainKeepsAll(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	for n := range 3 {
		s := open(t, path)
		append1(t, s, 1)
		list, err := s.Entries(t.Context(), "pedlar", 0, 0)
		if err != nil || len(list) != n+1 {
			t.Errorf("opening %d: %d entries, %v; want %d", n+1, len(list), err, n+1)
		}
		check(t, s.Close())
	}
}

// TestOpen_AtOnce lets several openers meet on a file that is not there yet.
func TestOpen_AtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.db")
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			s, err := Open(t.Context(), path)
			if err != nil {
				t.Errorf("Open: %v", err)
				return
			}
			append1(t, s, 2)
			s.Close()
		})
	}
	wg.Wait()
	if list, err := open(t, path).Entries(t.Context(), "pedlar", 0, 0); err != nil || len(list) != 16 {
		t.Errorf("got %d entries, %v; want 16", len(list), err)
	}
}

// TestOpen_Private wants the journal and what SQLite puts beside it to be its
// owner's alone.
func TestOpen_Private(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("rights are inherited from the folder on this system")
	}
	s := fresh(t)
	append1(t, s, 1)
	files, err := filepath.Glob(s.path + "*")
	check(t, err)
	if len(files) < 2 {
		t.Errorf("found %v, want the journal and its write-ahead file", files)
	}
	for _, f := range files {
		info, err := os.Stat(f)
		check(t, err)
		if got := info.Mode().Perm(); got != 0o600 {
			t.Errorf("%s: rights %o, want 600", f, got)
		}
	}
}

// TestAppend_Waits lets another program hold the journal longer than we wait.
func TestAppend_Waits(t *testing.T) {
	s := fresh(t)
	append1(t, s, 1)
	other := open(t, s.path)
	tx, err := other.Write().BeginTx(t.Context(), nil)
	check(t, err)
	_, err = s.write.ExecContext(t.Context(), "PRAGMA busy_timeout=20")
	check(t, err)
	_, err = s.Append(t.Context(), "pedlar", 1, []journal.Entry{sample("x")})
	if fault.KindOf(err) != fault.Interrupted || fault.HintOf(err) == "" {
		t.Errorf("while another program writes: got %v, want Interrupted with a hint", err)
	}
	check(t, tx.Rollback())
	append1(t, s, 1)
}

func TestRead_CannotWrite(t *testing.T) {
	s := fresh(t)
	append1(t, s, 1)
	_, err := s.Read().ExecContext(t.Context(), "DELETE FROM entry")
	if fault.KindOf(s.fault(err, "write through the readers")) != fault.Denied {
		t.Errorf("got %v, want it refused", err)
	}
}

// TestMigrations_Numbered holds the set to 0001, 0002, … without a way back.
func TestMigrations_Numbered(t *testing.T) {
	files, err := migrations.ReadDir("migration")
	check(t, err)
	for i, f := range files {
		if n, err := goose.NumericComponent(f.Name()); err != nil || n != int64(i+1) || len(f.Name()) < 6 || f.Name()[4] != '_' {
			t.Errorf("migration %d is called %s, want %04d_*.sql", i+1, f.Name(), i+1)
		}
		text, err := migrations.ReadFile("migration/" + f.Name())
		check(t, err)
		if bytes.Contains(text, []byte("+goose Down")) || bytes.Contains(text, []byte("NO TRANSACTION")) {
			t.Errorf("%s: want one transaction and no way back", f.Name())
		}
	}
}

// TestFull_PageLimit reaches the database's own limit, which it reports as it
// does a full disk, on systems where TestDisk cannot run.
func TestFull_PageLimit(t *testing.T) {
	s := fresh(t)
	append1(t, s, 1)
	var pages int
	check(t, s.write.QueryRowContext(t.Context(), "PRAGMA page_count").Scan(&pages))
	_, err := s.write.ExecContext(t.Context(), fmt.Sprintf("PRAGMA max_page_count=%d", pages+3))
	check(t, err)
	_, err = s.Append(t.Context(), "pedlar", 1, []journal.Entry{sample(strings.Repeat("x", 50_000))})
	if err == nil || !strings.Contains(err.Error(), "the disk is full") || fault.HintOf(err) == "" {
		t.Errorf("got %v, want a full disk with a hint", err)
	}
	if list, err := s.Entries(t.Context(), "pedlar", 0, 0); err != nil || len(list) != 1 {
		t.Errorf("after it: %d entries, %v; want 1", len(list), err)
	}
}

func write(text string) func(*testing.T, string) {
	return func(t *testing.T, path string) { check(t, os.WriteFile(path, []byte(text), 0o600)) }
}

func foreign(t *testing.T, path string) {
	spoil(t, path, "CREATE TABLE song (name TEXT)", "INSERT INTO song VALUES ('x')")
}

func newer(t *testing.T, path string) {
	check(t, open(t, path).Close())
	spoil(t, path, "INSERT INTO migration (version_id, is_applied) VALUES (9999, 1)")
}

func cutShort(t *testing.T, path string) {
	s := open(t, path)
	append1(t, s, 40)
	check(t, s.Close())
	check(t, os.Truncate(path, 9000))
}

func spoil(t *testing.T, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	check(t, err)
	defer db.Close()
	for _, q := range statements {
		_, err := db.ExecContext(t.Context(), q)
		check(t, err)
	}
}

func check(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
