package scenario_test

import (
	"bytes"
	"context"
	"regexp"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/scenario"
	"fettle/unit"
)

func TestUntil_StopsBeforeTheShopOpens(t *testing.T) {
	f := read(t, small(t))
	tests := []struct {
		day  unit.Date
		want int
	}{
		{unit.Day(2026, time.March, 1), 0},
		{unit.Day(2026, time.March, 2), 0},
		{unit.Day(2026, time.March, 3), 2},
		{unit.Day(2026, time.March, 4), 3},
		{0, 3},
	}
	for _, tt := range tests {
		if got := len(scenario.Until(f, tt.day)); got != tt.want {
			t.Errorf("Until(%v) = %d days, want %d", tt.day, got, tt.want)
		}
	}
}

func TestReplay_LeavesTheFactsAlone(t *testing.T) {
	f := read(t, small(t))
	b, err := scenario.Replay(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := b.Panels[0].State, build.Fitted; got != want {
		t.Errorf("panel after all days = %q, want %q", got, want)
	}
	if got, want := f.Build.Panels[0].State, build.Keep; got != want {
		t.Errorf("panel in the file = %q, want %q", got, want)
	}
	if len(f.Build.Findings) != 0 || len(b.Findings) != 1 {
		t.Errorf("findings in file and build = %d and %d, want 0 and 1", len(f.Build.Findings), len(b.Findings))
	}
}

func TestWrite_RoundTrips(t *testing.T) {
	f := read(t, small(t))
	var first, second bytes.Buffer
	if err := scenario.Write(&first, f); err != nil {
		t.Fatal(err)
	}
	if err := scenario.Write(&second, read(t, first.String())); err != nil {
		t.Fatal(err)
	}
	if first.String() != second.String() {
		t.Error("read and written again, the text differs")
	}
	if want := "\n      {\"id\":\"ann\","; !strings.Contains(first.String(), want) {
		t.Errorf("no record on a line of its own in\n%s", first.String())
	}
}

var version7 = regexp.MustCompile(`^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`)

func TestEntries_CountOnce(t *testing.T) {
	f := read(t, small(t))
	entries := mustEntries(t, f, 0)
	if got, want := len(entries), 5; got != want {
		t.Fatalf("entries = %d, want start and 4 changes", got)
	}
	seen := map[string]bool{}
	for i, e := range entries {
		if err := e.Validate(); err != nil {
			t.Errorf("entry %d: %v", i+1, err)
		}
		if !version7.MatchString(e.ID) || seen[e.ID] {
			t.Errorf("entry %d: ID %q has another form or is used", i+1, e.ID)
		}
		seen[e.ID] = true
	}
	store, ctx := memory.New(), context.Background()
	for range 2 {
		if _, err := store.Append(ctx, f.Build.Name, journal.AnySeq, mustEntries(t, f, 0)); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := store.Entries(ctx, f.Build.Name, 0, 0)
	if err != nil || len(kept) != len(entries) {
		t.Errorf("kept after loading twice = %d, %v; want %d", len(kept), err, len(entries))
	}
}

func TestEntries_OfAnEarlierDayAreTheSame(t *testing.T) {
	f := read(t, small(t))
	all, some := mustEntries(t, f, 0), mustEntries(t, f, unit.Day(2026, time.March, 3))
	if len(some) != 4 {
		t.Fatalf("entries before 3 March = %d, want 4", len(some))
	}
	for i, e := range some {
		if e.ID != all[i].ID {
			t.Errorf("entry %d: ID %s, want %s", i+1, e.ID, all[i].ID)
		}
	}
	if got, want := some[1].At, time.Date(2026, time.March, 2, 9, 30, 0, 0, time.UTC); !got.Equal(want) {
		t.Errorf("time of the first change = %v, want %v", got, want)
	}
	if e := some[1]; e.Person != "ann" || e.Device != scenario.Device || e.Note != "seen" || e.Kind != "record-finding" {
		t.Errorf("first change by %q on %q, %q, kind %q", e.Person, e.Device, e.Note, e.Kind)
	}
}

func TestEntries_OfAnotherBuildDiffer(t *testing.T) {
	f, g := read(t, small(t)), read(t, strings.Replace(small(t), `"name": "barrow"`, `"name": "cart"`, 1))
	if a, b := mustEntries(t, f, 0)[0].ID, mustEntries(t, g, 0)[0].ID; a == b {
		t.Errorf("two builds share the ID %s", a)
	}
}

// TestEntries_Replay holds the entries to the build that the file itself gives.
func TestEntries_Replay(t *testing.T) {
	f := read(t, small(t))
	want, err := scenario.Replay(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	var got build.Build
	for _, e := range mustEntries(t, f, 0) {
		c, err := build.Decode(e.Kind, e.Version, e.Change)
		if err != nil {
			t.Fatal(err)
		}
		if err := c.Apply(&got); err != nil {
			t.Fatal(err)
		}
	}
	if a, b := text(t, got), text(t, want); a != b {
		t.Errorf("entries give\n%s\nwant\n%s", a, b)
	}
}

func text(t *testing.T, b build.Build) string {
	t.Helper()
	var out bytes.Buffer
	if err := scenario.Write(&out, scenario.File{Form: scenario.Form, Build: b}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func mustEntries(t *testing.T, f scenario.File, until unit.Date) []journal.Entry {
	t.Helper()
	entries, err := scenario.Entries(f, until)
	if err != nil {
		t.Fatal(err)
	}
	return entries
}
