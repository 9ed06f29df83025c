// Package crash ends the real program at random moments while several people
// keep changes, and wants every answered change to be there afterwards.
package crash

import (
	"bytes"
	"context"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"fettle/internal/journal"
	"fettle/internal/journal/sqlite"
)

// day is the replay day of the demo build under test.
const day = "2026-10-06"

func newID() string { return uuid.Must(uuid.NewV7()).String() }

func kills() int {
	if testing.Short() {
		return 5
	}
	return 24
}

// TestServer kills the server while five tablets clock people on and over.
// What was sent but not answered is sent again to the next server, and must
// count once.
func TestServer(t *testing.T) {
	fettle, data := program(t), t.TempDir()
	rng := rand.New(rand.NewPCG(1, 2))
	var tablets []*tablet
	for _, who := range []string{"LD", "MW", "PT", "WA", "TR"} {
		tablets = append(tablets, &tablet{person: who, tasks: []string{"T07", "T24", "T18"}, client: http.Client{Timeout: 20 * time.Second}})
	}
	s := start(t, fettle, data)
	before := len(entries(t, data))
	answered := map[string]bool{}
	for range kills() {
		round := atWork(t, s, tablets, time.Duration(5+rng.IntN(300))*time.Millisecond)
		for _, id := range round {
			answered[id] = true
		}
		wantAll(t, fettle, data, answered)
		s = start(t, fettle, data)
	}
	again := 0
	for _, tab := range tablets {
		if tab.held == nil {
			continue
		}
		id, err := tab.send(s.base)
		if err != nil {
			t.Fatal(err)
		}
		answered[id] = true
		again++
	}
	s.kill()
	wantAll(t, fettle, data, answered)
	if got, want := len(entries(t, data)), before+len(answered); got != want {
		t.Errorf("%d entries, want %d: an act that was sent twice counts once", got, want)
	}
	t.Logf("%d kills: %d entries answered, all there, none twice; %d were answered only after the last kill", kills(), len(answered), again)
}

// atWork lets the tablets work, kills the server a while after the first
// answer, and returns the IDs of the answered acts.
func atWork(t *testing.T, s *server, tablets []*tablet, after time.Duration) []string {
	t.Helper()
	var mu sync.Mutex
	var ids []string
	first := make(chan struct{})
	var once sync.Once
	var all sync.WaitGroup
	for _, tab := range tablets {
		all.Go(func() {
			err := tab.work(s.base, func(id string) {
				mu.Lock()
				defer mu.Unlock()
				ids = append(ids, id)
				once.Do(func() { close(first) })
			})
			if err != nil {
				t.Error(err)
				once.Do(func() { close(first) })
			}
		})
	}
	select {
	case <-first:
	case <-time.After(30 * time.Second):
		t.Error("the server answered nothing in 30 s; the test shows nothing")
	}
	time.Sleep(after)
	s.kill()
	all.Wait()
	if t.Failed() {
		t.FailNow()
	}
	return ids
}

// program builds the program and returns its path.
func program(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "fettle")
	if out, err := exec.Command("go", "build", "-o", path, "fettle/cmd/fettle").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return path
}

// wantAll wants a sound store that holds every answered entry, in a sequence
// without gaps.
func wantAll(t *testing.T, fettle, data string, answered map[string]bool) {
	t.Helper()
	if out, err := exec.Command(fettle, "check", "--data", data).CombinedOutput(); err != nil {
		t.Fatalf("check after the kill: %v\n%s", err, out)
	}
	there := map[string]bool{}
	for i, e := range entries(t, data) {
		there[e.ID] = true
		if e.Seq != int64(i+1) {
			t.Fatalf("entry %d has the number %d", i+1, e.Seq)
		}
	}
	for id := range answered {
		if !there[id] {
			t.Fatalf("entry %s was answered and is lost", id)
		}
	}
}

func entries(t *testing.T, data string) []journal.Entry {
	t.Helper()
	store, err := sqlite.Open(context.Background(), filepath.Join(data, "fettle.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer store.Close()
	list, err := store.Entries(context.Background(), "pedlar", 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// TestRecord kills the command line while three of them keep changes in turn.
// What one has printed is kept; what was cut off is kept whole or not at all.
func TestRecord(t *testing.T) {
	fettle, data := program(t), t.TempDir()
	run := func(args ...string) []byte {
		out, err := exec.Command(fettle, append(args, "--data", data)...).Output()
		if err != nil {
			t.Fatalf("fettle %v: %v", args, err)
		}
		return out
	}
	run("new", "pedlar", "--from", "../../internal/demo/pedlar.json", "--until", day)
	const each = 3 // notes in one list: all are kept, or none
	before := len(entries(t, data))
	changes := filepath.Join(t.TempDir(), "notes.json")
	note := `{"kind":"write-note","note":{"at":"2026-10-06T09:30","by":"LD","text":"A word."}}`
	if err := os.WriteFile(changes, []byte("["+note+","+note+","+note+"]"), 0o600); err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(3, 4))
	answered, cut := map[string]bool{}, 0
	for range kills() {
		var all sync.WaitGroup
		var mu sync.Mutex
		for range 3 {
			after := time.Duration(10+rng.IntN(120)) * time.Millisecond
			all.Go(func() {
				ids, whole := recorded(fettle, data, changes, after)
				mu.Lock()
				defer mu.Unlock()
				if !whole {
					cut++
				}
				for _, id := range ids {
					answered[id] = true
				}
			})
		}
		all.Wait()
		wantAll(t, fettle, data, answered)
		if n := len(entries(t, data)) - before; n%each != 0 {
			t.Fatalf("%d notes are kept; lists of %d are kept whole or not at all", n, each)
		}
	}
	if cut == 0 || len(answered) == 0 {
		t.Errorf("%d processes were cut off, %d entries answered; the test shows nothing", cut, len(answered))
	}
	t.Logf("%d processes, %d cut off: %d entries answered, all there; %d kept in all", 3*kills(), cut, len(answered), len(entries(t, data))-before)
}

// recorded keeps a list in a process that is killed after a while, and returns
// the IDs that it printed.
func recorded(fettle, data, changes string, after time.Duration) (ids []string, whole bool) {
	c := exec.Command(fettle, "record", "pedlar", changes, "--data", data)
	var out bytes.Buffer
	c.Stdout = &out
	if c.Start() != nil {
		return nil, false
	}
	timer := time.AfterFunc(after, func() { c.Process.Kill() })
	defer timer.Stop()
	whole = c.Wait() == nil
	for _, line := range bytes.Split(out.Bytes(), []byte("\n")) {
		if columns := bytes.Split(line, []byte("\t")); len(columns) == 3 {
			ids = append(ids, string(columns[2]))
		}
	}
	return ids, whole
}
