package live_test

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/internal/journal/sqlite"
	"fettle/internal/live"
)

// TestRecord_StaleNumber: whoever looked at an older journal number is told so,
// also where the change itself would no longer apply.
func TestRecord_StaleNumber(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		seen := d.view(t).Seq
		part := func(id build.PartID) build.Change {
			return &build.AddPart{Part: build.Part{ID: id, Name: "hinge", Quantity: 1, Task: "B11"}}
		}
		draft := live.Draft{ID: journal.NewID(noon), Change: part("X1")}
		if _, err := d.Record(d.ctx(), "bjelke", seen, rune1, []live.Draft{draft}); err != nil {
			t.Fatal(err)
		}
		for what, c := range map[string]build.Change{"a change that would apply": said("x"), "a change that would not": part("X1")} {
			_, err := d.Record(d.ctx(), "bjelke", seen, rune1, []live.Draft{{Change: c}})
			if moved, ok := errors.AsType[*journal.Moved](err); fault.KindOf(err) != fault.Conflict || !ok || moved.Now != seen+1 {
				t.Errorf("%s, on an old number: %v, want a conflict that says what has moved", what, err)
			}
		}
		if _, err := d.Record(d.ctx(), "bjelke", seen, rune1, []live.Draft{draft}); err != nil {
			t.Errorf("the change that was kept, sent again: %v, want the same answer", err)
		}
		if got := d.view(t).Seq; got != seen+1 {
			t.Errorf("the journal is at %d, want %d", got, seen+1)
		}
	})
}

func TestRecord_Refused(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		seq := d.view(t).Seq
		tests := []struct {
			what   string
			id     string
			drafts []live.Draft
			kind   fault.Kind
			says   string
		}{
			{"nothing", "bjelke", nil, fault.Invalid, "nothing to keep"},
			{"a broken rule", "bjelke", []live.Draft{{Change: said(" ")}}, fault.Invalid, "note, text"},
			{"the second of two", "bjelke", []live.Draft{{Change: said("a")}, {Change: said(" ")}}, fault.Invalid, "change 2, write-note"},
			{"an unknown build", "wagon", []live.Draft{{Change: said("a")}}, fault.NotFound, "wagon"},
		}
		for _, tt := range tests {
			_, err := d.Record(d.ctx(), tt.id, journal.AnySeq, rune1, tt.drafts)
			if fault.KindOf(err) != tt.kind || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("%s: %v, want %v that says %q", tt.what, err, tt.kind, tt.says)
			}
		}
		if got := d.view(t).Seq; got != seq {
			t.Errorf("refusals moved the journal from %d to %d", seq, got)
		}
	})
}

func TestRecord_KeepsTheWallClock(t *testing.T) {
	d := small(t, newStore(t))
	d.now = time.Date(2027, 2, 3, 7, 30, 0, 0, time.FixedZone("east", 9*3600))
	e := d.keep(t, said("x"))
	if want := time.Date(2027, 2, 3, 7, 30, 0, 0, time.UTC); !e.At.Equal(want) || e.Person != "RU" || e.Device != "bench" {
		t.Errorf("kept at %v by %s on %s, want %v by RU on bench", e.At, e.Person, e.Device, want)
	}
}

// TestRecord_AtOnce: eight people at two doors to one store lose nothing and
// keep nothing twice.
func TestRecord_AtOnce(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		const people, times = 8, 6
		doors := []*desk{d, d.again()}
		before := d.view(t).Seq
		var wg sync.WaitGroup
		for who := range people {
			wg.Go(func() {
				door := doors[who%len(doors)]
				for i := range times {
					draft := live.Draft{ID: journal.NewID(noon), Change: said(fmt.Sprint(who, "-", i))}
					for range 2 { // each is sent twice
						if _, err := door.Record(door.ctx(), "bjelke", journal.AnySeq, rune1, []live.Draft{draft}); err != nil {
							t.Errorf("person %d, change %d: %v", who, i, err)
						}
					}
				}
			})
		}
		wg.Wait()
		for _, door := range doors {
			seen := map[string]int{}
			for _, n := range strings.Fields(door.notes(t)) {
				seen[n]++
			}
			if len(seen) != people*times || door.view(t).Seq != before+people*times {
				t.Errorf("%d notes at number %d, want %d at %d", len(seen), door.view(t).Seq, people*times, before+people*times)
			}
		}
	})
}

// newStore is a store on disk.
func newStore(t *testing.T) journal.Store {
	t.Helper()
	store, err := sqlite.Open(context.Background(), filepath.Join(t.TempDir(), "fettle.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { store.Close() })
	return store
}
