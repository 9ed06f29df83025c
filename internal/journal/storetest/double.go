package storetest

import (
	"encoding/json"
	"errors"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/fault"
	"fettle/internal/journal"
)

func doubleOnce(t *testing.T, s journal.Store) {
	first := must(t, s, "pedlar", 0, run(1, 2)...)
	must(t, s, "pedlar", 2, entry(3))
	again := must(t, s, "pedlar", 0, run(1, 2)...) // 0 has passed, but nothing is new
	if d := cmp.Diff(first, again); d != "" {
		t.Errorf("second answer (-first +second):\n%s", d)
	}
	wantSeqs(t, all(t, s, "pedlar"), 1, 2, 3)
}

func doubleInBatch(t *testing.T, s journal.Store) {
	wantSeqs(t, must(t, s, "pedlar", 0, entry(1), entry(2), entry(1), entry(3)), 1, 2, 1, 3)
	wantSeqs(t, all(t, s, "pedlar"), 1, 2, 3)
	other := entry(9)
	other.Person = "Tove"
	_, err := s.Append(t.Context(), "pedlar", 3, []journal.Entry{entry(9), other})
	wantKind(t, "one ID with two contents in a batch", err, fault.Conflict)
}

func doublePartly(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, run(1, 2)...)
	wantSeqs(t, must(t, s, "pedlar", 2, run(1, 4)...), 1, 2, 3, 4)
	wantSeqs(t, must(t, s, "pedlar", 4, entry(5), entry(2), entry(5), entry(6)), 5, 2, 5, 6)
	wantSeqs(t, all(t, s, "pedlar"), 1, 2, 3, 4, 5, 6)
}

func doubleRoundTrip(t *testing.T, s journal.Store) {
	e := entry(1)
	e.Change = json.RawMessage("{ \"size\" : \"<3 & >2\",\n\"line\":\"a\u2028b\" }")
	kept := must(t, s, "pedlar", 0, e)
	text, err := json.Marshal(kept[0])
	if err != nil {
		t.Fatal(err)
	}
	var back journal.Entry
	if err := json.Unmarshal(text, &back); err != nil {
		t.Fatal(err)
	}
	wantSeqs(t, must(t, s, "pedlar", 0, back), 1)
	wantSeqs(t, all(t, s, "pedlar"), 1)
}

func doubleOther(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	for _, c := range []struct {
		name, build string
		change      func(*journal.Entry)
	}{
		{"other change", "pedlar", func(e *journal.Entry) { e.Change = json.RawMessage(`{"n":2}`) }},
		{"other number form", "pedlar", func(e *journal.Entry) { e.Change = json.RawMessage(`{"n":1.0}`) }},
		{"other person", "pedlar", func(e *journal.Entry) { e.Person = "Tove" }},
		{"other device", "pedlar", func(e *journal.Entry) { e.Device = "phone" }},
		{"other time", "pedlar", func(e *journal.Entry) { e.At = e.At.Add(1e6) }},
		{"other kind", "pedlar", func(e *journal.Entry) { e.Kind = "clock-on" }},
		{"other version", "pedlar", func(e *journal.Entry) { e.Version = 2 }},
		{"other note", "pedlar", func(e *journal.Entry) { e.Note = "n" }},
		{"other build", "lantern", func(*journal.Entry) {}},
	} {
		e := entry(1)
		c.change(&e)
		_, err := s.Append(t.Context(), c.build, journal.AnySeq, []journal.Entry{e})
		wantKind(t, c.name, err, fault.Conflict)
		if err != nil && !strings.Contains(err.Error(), "pedlar 1 by Inka (record-finding)") {
			t.Errorf("%s: got %q, want it to name the entry kept", c.name, err)
		}
	}
}

func doubleAtOnce(t *testing.T, s journal.Store) {
	const senders, entries = 6, 15
	var wg sync.WaitGroup
	for range senders {
		wg.Go(func() {
			for n := range entries {
				if _, err := s.Append(t.Context(), "pedlar", journal.AnySeq, run(n, n+2)); err != nil {
					t.Errorf("entries from %d: %v", n, err)
				}
			}
		})
	}
	wg.Wait()
	if got, want := len(all(t, s, "pedlar")), entries+2; got != want {
		t.Errorf("%d senders of the same entries: %d kept, want %d", senders, got, want)
	}
}

func expectRight(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, run(1, 3)...)
	wantSeqs(t, must(t, s, "pedlar", 3, entry(4)), 4)
	wantSeqs(t, must(t, s, "pedlar", journal.AnySeq, entry(5)), 5)
}

func expectMoved(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, run(1, 2)...)
	tove := run(3, 6)
	for i := range tove {
		tove[i].Person, tove[i].Kind = "Tove", "clock-on"
	}
	must(t, s, "pedlar", 2, tove...)
	_, err := s.Append(t.Context(), "pedlar", 2, []journal.Entry{entry(7)})
	wantKind(t, "append after others", err, fault.Conflict)
	wantText(t, err, "pedlar has moved on from 2 to 6: 3 by Tove (clock-on), 4 by Tove (clock-on), 5 by Tove (clock-on) and 1 more")
	m, ok := errors.AsType[*journal.Moved](err)
	if !ok {
		t.Fatalf("cause of %v is not *journal.Moved", err)
	}
	var want []journal.Step
	for i, e := range tove {
		want = append(want, journal.Step{Seq: int64(3 + i), ID: e.ID, At: noon, Person: "Tove", Kind: "clock-on"})
	}
	if d := cmp.Diff(&journal.Moved{Build: "pedlar", Expect: 2, Now: 6, Since: want}, m); d != "" {
		t.Errorf("moved (-want +got):\n%s", d)
	}
	if got := len(all(t, s, "pedlar")); got != 6 {
		t.Errorf("after the conflict: %d entries, want 6", got)
	}
}

func expectOwn(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	must(t, s, "pedlar", 1, entry(2)) // the answer to this was lost
	wantSeqs(t, must(t, s, "pedlar", 1, entry(2), entry(3)), 2, 3)
	other := entry(4)
	other.Person = "Tove"
	must(t, s, "pedlar", 3, other)
	_, err := s.Append(t.Context(), "pedlar", 1, run(2, 5))
	wantKind(t, "own entries and one of another person with the same ID", err, fault.Conflict)
	_, err = s.Append(t.Context(), "pedlar", 1, []journal.Entry{entry(2), entry(3), entry(5)})
	wantText(t, err, "pedlar has moved on from 1 to 4: 4 by Tove (record-finding)")
}

func expectBeyond(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	_, err := s.Append(t.Context(), "pedlar", 8, []journal.Entry{entry(2)})
	wantKind(t, "expecting more than there is", err, fault.Conflict)
	wantText(t, err, "pedlar is at 1, not yet at 8")
	_, err = s.Append(t.Context(), "lantern", 1, []journal.Entry{entry(2)})
	wantKind(t, "expecting something of a new build", err, fault.Conflict)
	_, err = s.Append(t.Context(), "pedlar", -2, []journal.Entry{entry(2)})
	wantKind(t, "expecting a negative sequence", err, fault.Invalid)
}

func wantText(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil || err.Error() != want {
		t.Errorf("got error %v\nwant      %s", err, want)
	}
}
