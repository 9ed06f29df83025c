package live_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"fettle/fault"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/unit"
)

func TestUndone(t *testing.T) {
	change := func(id string) journal.Entry { return journal.Entry{ID: id, Kind: "write-note"} }
	undo := func(id, of string) journal.Entry { return journal.Entry{ID: id, Kind: journal.KindUndo, Undoes: of} }
	tests := []struct {
		what    string
		entries []journal.Entry
		want    string
	}{
		{"nothing", nil, ""},
		{"no undo", []journal.Entry{change("a"), change("b")}, ""},
		{"the last", []journal.Entry{change("a"), change("b"), undo("c", "b")}, "b"},
		{"one in the middle", []journal.Entry{change("a"), change("b"), change("c"), undo("d", "b")}, "b"},
		{"an undo taken back", []journal.Entry{change("a"), undo("b", "a"), undo("c", "b")}, "b"},
		{"and taken back again", []journal.Entry{change("a"), undo("b", "a"), undo("c", "b"), undo("d", "c")}, "a c"},
		{"an undo taken back, then a new one", []journal.Entry{change("a"), undo("b", "a"), undo("c", "b"), undo("d", "a")}, "a b"},
		{"twice the same", []journal.Entry{change("a"), undo("b", "a"), undo("c", "a"), undo("d", "b")}, "a b"},
		{"several", []journal.Entry{change("a"), change("b"), undo("c", "b"), undo("d", "a")}, "a b"},
	}
	for _, tt := range tests {
		got := slices.Sorted(maps.Keys(live.Undone(tt.entries)))
		if strings.Join(got, " ") != tt.want {
			t.Errorf("%s: taken back %v, want %s", tt.what, got, tt.want)
		}
	}
}

func TestReplay_NamesTheEntryThatDoesNotHold(t *testing.T) {
	d := small(t, memory.New())
	d.keep(t, said("one"))
	all := entriesOf(t, d)
	for _, tt := range []struct {
		what  string
		spoil func(*journal.Entry)
		says  string
	}{
		{"a change that breaks a rule", func(e *journal.Entry) { e.Change = []byte(`{"note":{"at":"","by":"","text":""}}`) }, "(rule 10)"},
		{"a kind nobody knows", func(e *journal.Entry) { e.Kind = "sing" }, `"sing"`},
		{"a newer form", func(e *journal.Entry) { e.Version = 9 }, "newer"},
	} {
		broken := slices.Clone(all)
		last := &broken[len(broken)-1]
		tt.spoil(last)
		_, err := live.Replay(broken)
		if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.Contains(err.Error(), "3 Feb 2027") {
			t.Errorf("%s: %v, want the entry of 3 Feb 2027 and %q", tt.what, err, tt.says)
		}
	}
}

func TestUntil(t *testing.T) {
	d := small(t, memory.New())
	d.keep(t, said("today"))
	all := entriesOf(t, d)
	for _, tt := range []struct {
		day  unit.Date
		want int
	}{{day, len(all) - 1}, {day + 1, len(all)}, {0, 0}} {
		if got := len(live.Until(all, tt.day)); got != tt.want {
			t.Errorf("before %s: %d entries, want %d", tt.day, got, tt.want)
		}
	}
}

func TestNamed(t *testing.T) {
	var all []journal.Entry
	for i, id := range []string{"aa", "bb", "cc", "dd", "7"} {
		all = append(all, journal.Entry{ID: id, Seq: int64(i + 1)})
	}
	for text, want := range map[string]string{
		"bb": "bb", "2": "bb", "2-4": "dd cc bb", "4-4": "dd", "4-99": "7 dd", "7": "7",
	} {
		got, err := live.Named(all, text)
		if strings.Join(got, " ") != want || err != nil {
			t.Errorf("%q names %v, %v, want %s", text, got, err, want)
		}
	}
	for _, text := range []string{"", "0", "6", "ee", "4-2", "-2", "2-", "2x", "2-4x", "1-2-3", "2 4", "two"} {
		if got, err := live.Named(all, text); fault.KindOf(err) != fault.NotFound {
			t.Errorf("%q names %v, %v, want not found", text, got, err)
		}
	}
}
