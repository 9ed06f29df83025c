package sqlite

import (
	"bufio"
	"context"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/internal/journal"
)

// The load of the kill test: builds share writers, batches of 1 to batchMost.
const (
	killWriters = 6
	killBuilds  = 3
	batchMost   = 5
)

// TestKill ends a real process with SIGKILL at random moments while it appends
// from several goroutines. Every entry it answered must be there after each
// kill, in sequences without gaps, in a sound file.
func TestKill(t *testing.T) {
	kills := 24
	if testing.Short() {
		kills = 5
	}
	path := filepath.Join(t.TempDir(), "journal.db")
	rng := rand.New(rand.NewPCG(1, 2))
	answered := map[string]bool{}
	kept := 0
	for range kills {
		ids := killed(t, "append", path, time.Duration(5+rng.IntN(200))*time.Millisecond)
		if len(ids) == 0 {
			t.Fatal("the process answered nothing before it was killed; the test shows nothing")
		}
		for _, id := range ids {
			answered[id] = true
		}
		kept = wantAll(t, path, answered)
	}
	t.Logf("%d kills: %d entries answered, all there; %d kept in all (the rest committed but not yet answered)",
		kills, len(answered), kept)
}

// killed runs the appending process, kills it some time after its first
// answer, and returns the IDs it answered.
func killed(t *testing.T, part, path string, after time.Duration) []string {
	t.Helper()
	c := child(t.Context(), part, path)
	pipe, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewReader(pipe)
	first, err := lines.ReadString('\n')
	if err != nil {
		t.Fatalf("the process ended by itself: %v", err)
	}
	timer := time.AfterFunc(after, func() { c.Process.Kill() })
	defer timer.Stop()
	rest, err := io.ReadAll(lines)
	if err != nil {
		t.Fatal(err)
	}
	if c.Wait() == nil {
		t.Fatal("the process ended by itself")
	}
	return strings.Fields(first + string(rest))
}

// wantAll opens the store anew, checks it and returns how many entries it has.
func wantAll(t *testing.T, path string, answered map[string]bool) int {
	t.Helper()
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatalf("open after the kill: %v", err)
	}
	defer s.Close()
	problems, err := s.Check(t.Context())
	if err != nil || len(problems) > 0 {
		t.Fatalf("check after the kill: %v, %v", problems, err)
	}
	builds, err := s.Builds(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	for _, b := range builds {
		list, err := s.Entries(t.Context(), b.ID, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		for i, e := range list {
			there[e.ID] = true
			if e.Seq != int64(i+1) {
				t.Fatalf("%s: entry %d has sequence %d", b.ID, i+1, e.Seq)
			}
		}
	}
	for id := range answered {
		if !there[id] {
			t.Fatalf("entry %s was answered and is lost", id)
		}
	}
	return len(there)
}

// appendForEver is the process that is killed: it prints the ID of each entry
// once Append has returned.
func appendForEver(path string) error {
	s, err := Open(context.Background(), path)
	if err != nil {
		return err
	}
	errs := make(chan error)
	var out sync.Mutex
	for w := range killWriters {
		go func() { errs <- appendLoop(s, w, &out) }()
	}
	return <-errs
}

func appendLoop(s *Store, w int, out *sync.Mutex) error {
	for n := 0; ; n++ {
		batch := make([]journal.Entry, 1+(n+w)%batchMost)
		var ids strings.Builder
		for i := range batch {
			batch[i] = sample(strings.Repeat("x", 50*n%3000))
			ids.WriteString(batch[i].ID + "\n")
		}
		build := "build-" + string(rune('a'+(n+w)%killBuilds))
		if _, err := s.Append(context.Background(), build, journal.AnySeq, batch); err != nil {
			return err
		}
		out.Lock()
		_, err := os.Stdout.WriteString(ids.String())
		out.Unlock()
		if err != nil {
			return err
		}
	}
}

// openForEver is the process that is killed while it makes stores in a folder.
func openForEver(dir string) error {
	os.Stdout.WriteString("begun\n")
	for {
		s, err := Open(context.Background(), filepath.Join(dir, journal.NewID(time.Now())+".db"))
		if err != nil {
			return err
		}
		s.Close()
	}
}

// TestKill_Opening kills the process while it makes new stores; what it leaves
// must open and take entries.
func TestKill_Opening(t *testing.T) {
	kills := 12
	if testing.Short() {
		kills = 4
	}
	dir := t.TempDir()
	rng := rand.New(rand.NewPCG(3, 4))
	for range kills {
		killed(t, "open", dir, time.Duration(1+rng.IntN(40))*time.Millisecond)
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.db"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no stores were begun: %v", err)
	}
	for _, path := range files {
		s := open(t, path)
		if _, err := s.Append(t.Context(), "pedlar", journal.AnySeq, []journal.Entry{sample("")}); err != nil {
			t.Errorf("append after the kill: %v", err)
		}
		if problems, err := s.Check(t.Context()); err != nil || len(problems) > 0 {
			t.Errorf("check after the kill: %v, %v", problems, err)
		}
		s.Close()
	}
	t.Logf("%d kills: %d stores, all open", kills, len(files))
}
