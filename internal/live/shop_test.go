package live_test

import (
	"context"
	"encoding/json"
	"path/filepath"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/journal/sqlite"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/unit"
)

// noon is a day on which the small build is under way.
var noon = time.Date(2027, 2, 3, 12, 0, 0, 0, time.UTC)

var rune1 = live.Who{Person: "RU", Device: "bench"}

// desk is a shop with its store and a clock that a test can turn.
type desk struct {
	*live.Shop
	store journal.Store
	now   time.Time
}

// again opens the same store anew, as after a restart.
func (d *desk) again() *desk {
	other := &desk{store: d.store, now: d.now}
	other.Shop = live.Open(d.store, live.Options{Seed: 1, Runs: 20, Now: func() time.Time { return other.now }})
	return other
}

// small opens the small build in a store.
func small(t testing.TB, store journal.Store) *desk {
	t.Helper()
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	entries, err := scenario.Entries(file, 0)
	if err != nil {
		t.Fatal(err)
	}
	d := (&desk{store: store, now: noon}).again()
	if err := d.Create(context.Background(), entries); err != nil {
		t.Fatal(err)
	}
	return d
}

// each runs a test on every store.
func each(t *testing.T, test func(*testing.T, *desk)) {
	t.Run("memory", func(t *testing.T) { test(t, small(t, memory.New())) })
	t.Run("sqlite", func(t *testing.T) {
		store, err := sqlite.Open(t.Context(), filepath.Join(t.TempDir(), "fettle.db"))
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { store.Close() })
		test(t, small(t, store))
	})
}

// ctx is the context of calls that nobody ends.
func (d *desk) ctx() context.Context { return context.Background() }

func said(text string) build.Change { return &build.WriteNote{Note: build.Note{Text: text}} }

// keep records one change and returns its entry.
func (d *desk) keep(t testing.TB, c build.Change) journal.Entry {
	t.Helper()
	kept, err := d.Record(context.Background(), "bjelke", journal.AnySeq, rune1, []live.Draft{{Change: c}})
	if err != nil {
		t.Fatal(err)
	}
	return kept[0]
}

// view returns the build as it stands.
func (d *desk) view(t testing.TB) live.View {
	t.Helper()
	v, err := d.View(context.Background(), "bjelke")
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// notes returns the texts of the notes that a test wrote after the build's own.
func (d *desk) notes(t testing.TB) string {
	t.Helper()
	text := ""
	for _, n := range d.view(t).Build.Notes[1:] {
		text += n.Text + " "
	}
	return text
}

func asJSON(t testing.TB, v any) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// day is the day of noon.
var day = unit.DateOf(noon)

func entriesOf(t testing.TB, d *desk) []journal.Entry {
	t.Helper()
	all, err := d.Entries(context.Background(), "bjelke")
	if err != nil {
		t.Fatal(err)
	}
	return all
}
