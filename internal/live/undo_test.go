package live_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/unit"
)

func (d *desk) undo(ids ...string) ([]journal.Entry, error) {
	return d.Undo(d.ctx(), "bjelke", rune1, ids...)
}

func TestUndo_AndBack(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		before := asJSON(t, d.view(t).Build)
		one, two := d.keep(t, said("one")), d.keep(t, said("two"))
		steps := []struct {
			what string
			id   func() string
			want string
		}{
			{"the first of two", func() string { return one.ID }, "two "},
			{"that undo", func() string { return lastID(t, d) }, "one two "},
			{"that undo of the undo", func() string { return lastID(t, d) }, "two "},
			{"the other one too", func() string { return two.ID }, ""},
		}
		for _, s := range steps {
			if _, err := d.undo(s.id()); err != nil {
				t.Fatalf("taking back %s: %v", s.what, err)
			}
			if got := d.notes(t); got != s.want {
				t.Errorf("after taking back %s: notes %q, want %q", s.what, got, s.want)
			}
			if got := d.again().notes(t); got != s.want {
				t.Errorf("after taking back %s and a restart: notes %q, want %q", s.what, got, s.want)
			}
		}
		if after := asJSON(t, d.view(t).Build); after != before {
			t.Error("with everything taken back the build is not what it was")
		}
	})
}

func TestUndo_Refused(t *testing.T) {
	each(t, func(t *testing.T, d *desk) {
		part := d.keep(t, &build.AddPart{Part: build.Part{ID: "X1", Name: "hinge", Quantity: 1, Task: "B11"}})
		order := d.keep(t, &build.OrderPart{Parts: []build.PartID{"X1"}, Day: day})
		taken := d.keep(t, said("taken"))
		if _, err := d.undo(taken.ID); err != nil {
			t.Fatal(err)
		}
		length := len(entriesOf(t, d))
		tests := []struct {
			what string
			ids  []string
			kind fault.Kind
			says string
		}{
			{"what a later entry needs", []string{part.ID}, fault.Conflict, fmt.Sprintf("entry %d (order-part", order.Seq)},
			{"one that is taken back", []string{taken.ID}, fault.Conflict, fmt.Sprintf("entry %d is taken back already", taken.Seq)},
			{"one twice", []string{order.ID, order.ID}, fault.Conflict, "taken back already"},
			{"the first entry", []string{entriesOf(t, d)[0].ID}, fault.Invalid, "opens the build"},
			{"none", nil, fault.Invalid, "no entry"},
			{"an unknown one", []string{"nobody"}, fault.NotFound, "nobody"},
			{"one right, one wrong", []string{order.ID, "nobody"}, fault.NotFound, "nobody"},
		}
		for _, tt := range tests {
			if _, err := d.undo(tt.ids...); fault.KindOf(err) != tt.kind || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("taking back %s: %v, want %v that says %q", tt.what, err, tt.kind, tt.says)
			}
		}
		if got := len(entriesOf(t, d)); got != length {
			t.Errorf("refusals kept %d entries", got-length)
		}
		if _, err := d.undo(part.ID, order.ID); err != nil {
			t.Errorf("both at once: %v", err)
		}
		if b := d.view(t).Build; b.Part("X1") != nil {
			t.Error("the part is still there")
		}
	})
}

// TestSnapshot_AsAFullReplay keeps enough for a snapshot, then goes on with
// changes, undos and restarts: what stands is always a replay of the whole.
func TestSnapshot_AsAFullReplay(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := (&desk{store: memory.New(), now: noon}).again()
		if err := d.Create(d.ctx(), tiny(t)); err != nil {
			r.Fatal(err)
		}
		var drafts []live.Draft
		for i := range 220 {
			drafts = append(drafts, live.Draft{Change: said(fmt.Sprint(i))})
		}
		if _, err := d.Record(d.ctx(), "bjelke", journal.AnySeq, rune1, drafts); err != nil {
			r.Fatal(err)
		}
		d.view(t)
		if _, ok, err := d.store.Snapshot(d.ctx(), "bjelke", "build-1", 0); !ok || err != nil {
			r.Fatalf("no snapshot after 220 entries: %v", err)
		}
		for range rapid.IntRange(1, 6).Draw(r, "acts") {
			switch rapid.IntRange(0, 3).Draw(r, "act") {
			case 0:
				d = d.again()
			case 1:
				d.keep(t, said("more"))
			default:
				all := entriesOf(t, d)
				_, err := d.undo(rapid.SampledFrom(all[1:]).Draw(r, "entry").ID)
				if kind := fault.KindOf(err); err != nil && kind != fault.Conflict {
					r.Fatal(err)
				}
			}
			want, err := live.Replay(entriesOf(t, d))
			if err != nil {
				r.Fatal(err)
			}
			if got := d.view(t).Build; asJSON(t, got) != asJSON(t, want) {
				r.Fatal("the build is not a replay of its journal")
			}
			if got := d.again().view(t).Build; asJSON(t, got) != asJSON(t, want) {
				r.Fatal("after a restart the build is not a replay of its journal")
			}
		}
	})
}

// tiny is the journal of a build with hardly anything in it.
func tiny(t *testing.T) []journal.Entry {
	t.Helper()
	b := build.Build{Name: "bjelke", Title: "t", Vehicle: build.Vehicle{Name: "v", Label: "l", Length: 1}, Currency: unit.Currency{Code: "NOK"},
		Promise: build.Promise{In: day, Ready: day, Day: day},
		People:  []build.Person{{ID: "RU", Name: "Rune", Starts: "08:00", Week: [7]unit.Effort{unit.Hour}}}}
	list, err := scenario.Entries(scenario.File{Build: b}, 0)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func lastID(t *testing.T, d *desk) string {
	t.Helper()
	all := entriesOf(t, d)
	return all[len(all)-1].ID
}
