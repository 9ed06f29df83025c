package storetest

import (
	"context"
	"encoding/json"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"fettle/fault"
	"fettle/internal/journal"
)

func appendAnswers(t *testing.T, s journal.Store) {
	before := time.Now().Add(-time.Second)
	kept := must(t, s, "pedlar", 0, run(1, 3)...)
	wantSeqs(t, kept, 1, 2, 3)
	for _, e := range kept {
		if e.Kept.Before(before) || e.Kept.After(time.Now().Add(time.Second)) {
			t.Errorf("entry %d: kept at %v, want now", e.Seq, e.Kept)
		}
		if e.Kept.Location() != time.UTC || e.Kept.Nanosecond()%1e6 != 0 {
			t.Errorf("entry %d: kept at %v, want whole milliseconds UTC", e.Seq, e.Kept)
		}
	}
	if d := cmp.Diff(kept, all(t, s, "pedlar")); d != "" {
		t.Errorf("entries read differ from the answer (-answer +read):\n%s", d)
	}
}

func appendKeepsFields(t *testing.T, s journal.Store) {
	e := entry(2)
	e.At = time.Date(2026, 3, 2, 7, 30, 0, 123_456_789, time.FixedZone("west", -5*3600))
	e.Person, e.Device, e.Note = "Žofia Ågren", "", "two\nlines, \"quoted\""
	e.Kind, e.Version, e.Undoes = journal.KindUndo, 3, entry(1).ID
	e.Change = json.RawMessage("{ \"b\": 1.50,\n \"a\": \"<é\\u00e9>\" }")
	e.Build, e.Seq, e.Kept = "pedlar", 99, noon
	must(t, s, "pedlar", 0, entry(1))
	must(t, s, "pedlar", 1, e)
	got := all(t, s, "pedlar")[1]
	want := e
	want.Seq, want.Kept = 2, got.Kept
	want.At = time.Date(2026, 3, 2, 12, 30, 0, 123_000_000, time.UTC)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("entry read (-want +got):\n%s", d)
	}
	if got.Kept.Equal(noon) {
		t.Errorf("kept at %v, which the caller gave; want the store's own time", got.Kept)
	}
}

func appendCountsBuilds(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, run(1, 2)...)
	wantSeqs(t, must(t, s, "lantern", 0, run(3, 4)...), 1, 2)
	wantSeqs(t, must(t, s, "pedlar", 2, entry(5)), 3)
	for _, e := range all(t, s, "lantern") {
		if e.Build != "lantern" {
			t.Errorf("entry %d: build %q, want lantern", e.Seq, e.Build)
		}
	}
}

func appendNothing(t *testing.T, s journal.Store) {
	if kept := must(t, s, "pedlar", 7); len(kept) != 0 {
		t.Errorf("got %d entries, want none", len(kept))
	}
	_, err := s.Entries(t.Context(), "pedlar", 0, 0)
	wantKind(t, "entries of a build nothing was appended to", err, fault.NotFound)
}

func appendAllOrNone(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	other := entry(1)
	other.Note = "something else"
	_, err := s.Append(t.Context(), "pedlar", 1, []journal.Entry{entry(2), entry(3), other})
	wantKind(t, "a batch whose last entry is refused", err, fault.Conflict)
	wantSeqs(t, all(t, s, "pedlar"), 1)
}

func appendEnded(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.Append(ctx, "pedlar", 1, []journal.Entry{entry(2)})
	wantKind(t, "Append", err, fault.Interrupted)
	_, err = s.Entries(ctx, "pedlar", 0, 0)
	wantKind(t, "Entries", err, fault.Interrupted)
	wantSeqs(t, all(t, s, "pedlar"), 1)
}

func appendAtOnce(t *testing.T, s journal.Store) {
	const writers, each = 6, 12
	var wg sync.WaitGroup
	for w := range writers {
		wg.Go(func() {
			for i := range each {
				if _, err := s.Append(t.Context(), "pedlar", journal.AnySeq, []journal.Entry{entry(w*each + i)}); err != nil {
					t.Errorf("writer %d: %v", w, err)
				}
			}
		})
	}
	wg.Wait()
	list := all(t, s, "pedlar")
	if len(list) != writers*each {
		t.Fatalf("got %d entries, want %d", len(list), writers*each)
	}
	for i, e := range list {
		if e.Seq != int64(i+1) {
			t.Fatalf("entry %d has sequence %d", i+1, e.Seq)
		}
	}
}

func formBroken(t *testing.T, s journal.Store) {
	for _, c := range []struct {
		where  string
		broken func(*journal.Entry)
	}{
		{"entry 2, build", func(e *journal.Entry) { e.Build = "lantern" }},
		{"entry 2, id", func(e *journal.Entry) { e.ID = "" }},
		{"entry 2, id", func(e *journal.Entry) { e.ID = strings.ToUpper("0000000a-0000-7000-8000-000000000002") }},
		{"entry 2, id", func(e *journal.Entry) { e.ID += "\n" }},
		{"entry 2, at", func(e *journal.Entry) { e.At = time.Time{} }},
		{"entry 2, at", func(e *journal.Entry) { e.At = e.At.AddDate(9000, 0, 0) }},
		{"entry 2, person", func(e *journal.Entry) { e.Person = "" }},
		{"entry 2, person", func(e *journal.Entry) { e.Person = "In\x00ka" }},
		{"entry 2, device", func(e *journal.Entry) { e.Device = "\xff" }},
		{"entry 2, kind", func(e *journal.Entry) { e.Kind = "" }},
		{"entry 2, kind", func(e *journal.Entry) { e.Kind = "record finding" }},
		{"entry 2, version", func(e *journal.Entry) { e.Version = 0 }},
		{"entry 2, change", func(e *journal.Entry) { e.Change = nil }},
		{"entry 2, change", func(e *journal.Entry) { e.Change = json.RawMessage(`{"n":}`) }},
		{"entry 2, change", func(e *journal.Entry) { e.Change = json.RawMessage(`{} {}`) }},
		{"entry 2, change", func(e *journal.Entry) { e.Change = json.RawMessage("\"\xff\"") }},
		{"entry 2, note", func(e *journal.Entry) { e.Note = "\x1b[31m" }},
		{"entry 2, undoes", func(e *journal.Entry) { e.Undoes = entry(1).ID }},
		{"entry 2, undoes", func(e *journal.Entry) { e.Kind = journal.KindUndo }},
		{"entry 2, undoes", func(e *journal.Entry) { e.Kind, e.Undoes = journal.KindUndo, e.ID }},
	} {
		batch := run(1, 3)
		c.broken(&batch[1])
		_, err := s.Append(t.Context(), "pedlar", 0, batch)
		wantInvalidAt(t, err, c.where)
	}
	for _, name := range []string{"", "Pedlar", "pedlar van", "../pedlar", strings.Repeat("a", 41), "pedlar\n"} {
		_, err := s.Append(t.Context(), name, 0, run(1, 1))
		wantInvalidAt(t, err, "build")
	}
	if list, err := s.Builds(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("after refusals only: builds %v, error %v; want none", list, err)
	}
}

func wantInvalidAt(t *testing.T, err error, where string) {
	t.Helper()
	f, ok := err.(*fault.Fault)
	if !ok || f.Kind != fault.Invalid || f.Where != where {
		t.Errorf("got %v, want Invalid at %q", err, where)
	}
}

func formLimits(t *testing.T, s journal.Store) {
	large := func(n int) json.RawMessage { return json.RawMessage(`"` + strings.Repeat("x", n-2) + `"`) }
	for i, c := range []struct {
		name string
		set  func(e *journal.Entry, n int)
		most int
	}{
		{"change", func(e *journal.Entry, n int) { e.Change = large(n) }, journal.MaxChange},
		{"person", func(e *journal.Entry, n int) { e.Person = strings.Repeat("x", n) }, 100},
		{"device", func(e *journal.Entry, n int) { e.Device = strings.Repeat("x", n) }, 100},
		{"kind", func(e *journal.Entry, n int) { e.Kind = strings.Repeat("x", n) }, 60},
		{"note", func(e *journal.Entry, n int) { e.Note = strings.Repeat("x", n) }, 10_000},
	} {
		e := entry(i)
		c.set(&e, c.most+1)
		_, err := s.Append(t.Context(), "pedlar", journal.AnySeq, []journal.Entry{e})
		wantInvalidAt(t, err, "entry 1, "+c.name)
		c.set(&e, c.most)
		must(t, s, "pedlar", journal.AnySeq, e)
	}
}
