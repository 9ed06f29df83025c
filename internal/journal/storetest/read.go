package storetest

import (
	"bytes"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/fault"
	"fettle/internal/journal"
)

func entriesRange(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, run(1, 9)...)
	for _, c := range []struct {
		after, upTo int64
		want        []int64
	}{
		{0, 0, []int64{1, 2, 3, 4, 5, 6, 7, 8, 9}},
		{3, 5, []int64{4, 5}},
		{7, 0, []int64{8, 9}},
		{0, 1, []int64{1}},
		{8, 99, []int64{9}},
		{9, 0, nil},
		{5, 5, nil},
		{6, 2, nil},
	} {
		list, err := s.Entries(t.Context(), "pedlar", c.after, c.upTo)
		if err != nil {
			t.Errorf("Entries after %d up to %d: %v", c.after, c.upTo, err)
		}
		wantSeqs(t, list, c.want...)
	}
}

func entriesUnknown(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	for _, name := range []string{"lantern", "", "' OR 1=1 --"} {
		_, err := s.Entries(t.Context(), name, 0, 0)
		wantKind(t, "entries of "+name, err, fault.NotFound)
	}
}

func entriesCopies(t *testing.T, s journal.Store) {
	e := entry(1)
	kept := must(t, s, "pedlar", 0, e)
	for _, change := range [][]byte{e.Change, kept[0].Change, all(t, s, "pedlar")[0].Change} {
		copy(change, "spoiled")
	}
	if got := string(all(t, s, "pedlar")[0].Change); got != `{"n":1}` {
		t.Errorf("change after callers wrote into theirs: %s", got)
	}
}

func buildsByID(t *testing.T, s journal.Store) {
	if list, err := s.Builds(t.Context()); err != nil || len(list) != 0 {
		t.Errorf("empty store: got %v, %v", list, err)
	}
	must(t, s, "pedlar", 0, run(1, 2)...)
	must(t, s, "a-9", 0, entry(3))
	must(t, s, "lantern", 0, run(4, 8)...)
	must(t, s, "pedlar", 2, entry(9))
	got, err := s.Builds(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	var want []journal.Build
	for _, name := range []string{"a-9", "lantern", "pedlar"} {
		list := all(t, s, name)
		last := list[len(list)-1]
		want = append(want, journal.Build{ID: name, Seq: last.Seq, Last: last.Kept})
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("builds (-want +got):\n%s", d)
	}
}

func snapshotNewest(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, run(1, 9)...)
	for _, seq := range []int64{3, 6, 5} {
		saveSnapshot(t, s, journal.Snapshot{Build: "pedlar", Seq: seq, Form: "one", State: []byte{byte(seq)}})
	}
	saveSnapshot(t, s, journal.Snapshot{Build: "pedlar", Seq: 9, Form: "two", State: []byte("other")})
	saveSnapshot(t, s, journal.Snapshot{Build: "pedlar", Seq: 6, Form: "one", State: []byte("again")})
	for _, c := range []struct {
		form string
		upTo int64
		seq  int64 // 0: none
		want string
	}{
		{"one", 0, 6, "again"}, {"one", 9, 6, "again"}, {"one", 5, 5, "\x05"}, {"one", 4, 3, "\x03"},
		{"one", 2, 0, ""}, {"two", 0, 9, "other"}, {"two", 8, 0, ""}, {"three", 0, 0, ""},
	} {
		n, ok, err := s.Snapshot(t.Context(), "pedlar", c.form, c.upTo)
		if err != nil || ok != (c.seq > 0) {
			t.Errorf("%s up to %d: ok %v, error %v; want ok %v", c.form, c.upTo, ok, err, c.seq > 0)
		}
		if n.Seq != c.seq || string(n.State) != c.want {
			t.Errorf("%s up to %d: got %d %q, want %d %q", c.form, c.upTo, n.Seq, n.State, c.seq, c.want)
		}
	}
}

func saveSnapshot(t *testing.T, s journal.Store, n journal.Snapshot) {
	t.Helper()
	if err := s.SaveSnapshot(t.Context(), n); err != nil {
		t.Fatalf("SaveSnapshot %d: %v", n.Seq, err)
	}
}

func snapshotRefused(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	for _, c := range []struct {
		name string
		n    journal.Snapshot
		want fault.Kind
	}{
		{"unknown build", journal.Snapshot{Build: "lantern", Seq: 1, Form: "one"}, fault.NotFound},
		{"bad name", journal.Snapshot{Build: "Lantern", Seq: 1, Form: "one"}, fault.Invalid},
		{"before the first", journal.Snapshot{Build: "pedlar", Seq: 0, Form: "one"}, fault.Invalid},
		{"beyond the last", journal.Snapshot{Build: "pedlar", Seq: 2, Form: "one"}, fault.Invalid},
		{"no form", journal.Snapshot{Build: "pedlar", Seq: 1}, fault.Invalid},
	} {
		wantKind(t, c.name, s.SaveSnapshot(t.Context(), c.n), c.want)
	}
	_, _, err := s.Snapshot(t.Context(), "lantern", "one", 0)
	wantKind(t, "snapshot of an unknown build", err, fault.NotFound)
}

func slipKept(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	must(t, s, "lantern", 0, entry(2))
	wantSlip(t, s, "pedlar", "Inka", "")
	for _, c := range []struct{ build, person, slip string }{
		{"pedlar", "Inka", "first"}, {"pedlar", "Tove", "hers"}, {"lantern", "Inka", "there"}, {"pedlar", "Inka", "\x00second"},
	} {
		if err := s.SaveSlip(t.Context(), c.build, c.person, []byte(c.slip)); err != nil {
			t.Fatal(err)
		}
		wantSlip(t, s, c.build, c.person, c.slip)
	}
	if err := s.SaveSlip(t.Context(), "pedlar", "Inka", nil); err != nil {
		t.Fatal(err)
	}
	wantSlip(t, s, "pedlar", "Inka", "")
	wantSlip(t, s, "pedlar", "Tove", "hers")
	wantSlip(t, s, "lantern", "Inka", "there")
}

func wantSlip(t *testing.T, s journal.Store, build, person, want string) {
	t.Helper()
	got, err := s.Slip(t.Context(), build, person)
	if err != nil || string(got) != want {
		t.Errorf("slip of %s in %s: got %q, %v; want %q", person, build, got, err, want)
	}
}

func slipRefused(t *testing.T, s journal.Store) {
	must(t, s, "pedlar", 0, entry(1))
	save := func(build, person string, n int) error {
		return s.SaveSlip(t.Context(), build, person, bytes.Repeat([]byte("x"), n))
	}
	wantKind(t, "unknown build", save("lantern", "Inka", 1), fault.NotFound)
	wantKind(t, "no person", save("pedlar", "", 1), fault.Invalid)
	wantKind(t, "a person on two lines", save("pedlar", "In\nka", 1), fault.Invalid)
	wantKind(t, "one byte too many", save("pedlar", "Inka", journal.MaxChange+1), fault.TooLarge)
	if err := save("pedlar", "Inka", journal.MaxChange); err != nil {
		t.Errorf("the largest slip: %v", err)
	}
	_, err := s.Slip(t.Context(), "lantern", strings.Repeat("x", 300))
	wantKind(t, "slip of an unknown build", err, fault.NotFound)
}
