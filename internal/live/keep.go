package live

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
)

// Who keeps a change.
type Who struct{ Person, Device string }

// Draft is a change on its way into the journal. ID and At may be empty: then
// they are made here; an ID so that it follows from that of the first draft,
// where that has one.
type Draft struct {
	ID     string
	At     time.Time
	Change build.Change
	Note   string
}

// tries is how often a change is offered again when another was kept first.
const tries = 20

// Record keeps changes, all or none, after they have applied to the build as
// it stands. expect is the journal number the person last saw, or
// journal.AnySeq where the changes stand on their own. Drafts whose IDs were
// kept before, by the same person and of the same kind, are the same act sent
// again: they are answered with what was kept, though the clock has moved on.
func (s *Shop) Record(ctx context.Context, id string, expect int64, who Who, drafts []Draft) ([]journal.Entry, error) {
	entries, err := s.entries(id, who, drafts)
	if err != nil {
		return nil, err
	}
	return s.keep(ctx, id, expect, entries)
}

func (s *Shop) entries(id string, who Who, drafts []Draft) ([]journal.Entry, error) {
	if len(drafts) == 0 {
		return nil, fault.New(fault.Invalid, "there is nothing to keep")
	}
	entries := make([]journal.Entry, 0, len(drafts))
	for i, d := range drafts {
		if d.ID == "" && i > 0 && drafts[0].ID != "" {
			d.ID = following(drafts[0].ID, i)
		}
		body, err := json.Marshal(d.Change)
		if err != nil {
			return nil, fault.Wrap(fault.Internal, err, "write "+d.Change.Kind())
		}
		kind, _ := build.KindOf(d.Change.Kind())
		entries = append(entries, s.entry(id, who, d, journal.Entry{Kind: kind.Name, Version: kind.Version, Change: body}))
	}
	return entries, nil
}

// following is the ID of a later draft of a list, the same however often the
// list is sent.
func following(first string, i int) string {
	return uuid.NewSHA1(uuid.NameSpaceOID, fmt.Appendf(nil, "%s %d", first, i)).String()
}

func (s *Shop) entry(id string, who Who, d Draft, e journal.Entry) journal.Entry {
	e.ID, e.Build, e.At, e.Person, e.Device, e.Note = d.ID, id, d.At, who.Person, who.Device, d.Note
	if e.ID == "" {
		e.ID = uuid.Must(uuid.NewV7()).String()
	}
	if e.At.IsZero() {
		e.At = s.options.Now()
	}
	e.At = wall(e.At)
	return e
}

// wall keeps a clock reading as it stood on the shop's wall: the journal's
// times are written as if the wall showed UTC, so that a replay reads the same
// hour everywhere.
func wall(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, t.Hour(), t.Minute(), t.Second(), t.Nanosecond()/1e6*1e6, time.UTC)
}

// keep appends entries once they have replayed. Where the caller named no
// journal number it offers them again after somebody else's entry.
func (s *Shop) keep(ctx context.Context, id string, expect int64, entries []journal.Entry) ([]journal.Entry, error) {
	s.keeping.Lock()
	defer s.keeping.Unlock()
	for try := 0; ; try++ {
		seq, err := s.check(ctx, id, expect, entries)
		if err != nil {
			return nil, err
		}
		at := expect
		if expect == journal.AnySeq {
			at = seq
		}
		kept, err := s.store.Append(ctx, id, at, entries)
		if err == nil {
			s.watch.tell(Event{Build: id, Seq: kept[len(kept)-1].Seq})
			return kept, nil
		}
		if expect != journal.AnySeq || try >= tries || fault.KindOf(err) != fault.Conflict {
			return nil, err
		}
	}
}

// check applies entries to the build as it stands and returns its journal
// number. Entries kept before are passed over: the store answers for them. An
// act that was sent again takes the form in which it was kept. Where the build
// has moved on from expect nothing is applied: the store says what has moved.
func (s *Shop) check(ctx context.Context, id string, expect int64, entries []journal.Entry) (int64, error) {
	k, err := s.load(ctx, id)
	if err != nil {
		return 0, err
	}
	defer k.mu.Unlock()
	all, err := s.store.Entries(ctx, id, 0, 0)
	if err != nil {
		return 0, err
	}
	known := make(map[string]journal.Entry, len(all))
	for _, e := range all {
		known[e.ID] = e
	}
	for i, e := range entries {
		if old, ok := known[e.ID]; ok && old.Person == e.Person && old.Kind == e.Kind {
			entries[i] = old
		}
	}
	if expect != journal.AnySeq && expect != k.seq {
		return k.seq, nil
	}
	b := k.build.Clone()
	for i, e := range entries {
		if _, ok := known[e.ID]; ok || e.Kind == journal.KindUndo {
			continue
		}
		c, err := build.Decode(e.Kind, e.Version, e.Change)
		if err != nil {
			return 0, err
		}
		if err := c.Apply(&b); err != nil {
			return 0, among(err, i, entries)
		}
	}
	return k.seq, nil
}

// among says which of several changes did not apply.
func among(err error, i int, entries []journal.Entry) error {
	if f, ok := errors.AsType[*fault.Fault](err); ok && len(entries) > 1 {
		return f.At(fmt.Sprintf("change %d, %s", i+1, entries[i].Kind))
	}
	return err
}

// Undo takes entries back, all or none, once the rest has replayed without
// them. What no longer holds is a Conflict that names the later entry. Taking
// back an undo makes its entry hold again.
func (s *Shop) Undo(ctx context.Context, id string, who Who, ids ...string) ([]journal.Entry, error) {
	all, err := s.store.Entries(ctx, id, 0, 0)
	if err != nil {
		return nil, err
	}
	var undo []journal.Entry
	for _, entry := range ids {
		target, err := undoable(all, undo, entry)
		if err != nil {
			return nil, err
		}
		body, _ := json.Marshal(map[string]int64{"entry": target.Seq})
		undo = append(undo, s.entry(id, who, Draft{}, journal.Entry{Kind: journal.KindUndo, Version: 1, Change: body, Undoes: entry}))
	}
	if len(undo) == 0 {
		return nil, fault.New(fault.Invalid, "no entry was named to take back")
	}
	if _, err := Replay(append(all[:len(all):len(all)], undo...)); err != nil {
		return nil, fault.New(fault.Conflict, "without it this would no longer hold: %v", err).
			WithHint("take the later entry back first")
	}
	return s.keep(ctx, id, all[len(all)-1].Seq, undo)
}

// undoable returns an entry that can be taken back, beside others that are
// about to be.
func undoable(all, undo []journal.Entry, entry string) (journal.Entry, error) {
	undone := Undone(append(all[:len(all):len(all)], undo...))
	for _, e := range all {
		switch {
		case e.ID != entry:
			continue
		case e.Seq == 1:
			return e, fault.New(fault.Invalid, "the first entry opens the build and cannot be taken back")
		case undone[e.ID]:
			return e, fault.New(fault.Conflict, "entry %d is taken back already", e.Seq)
		}
		return e, nil
	}
	return journal.Entry{}, fault.New(fault.NotFound, "there is no entry %s", entry)
}

// Create keeps the entries of a new build, the first of which opens it. Those
// kept before are passed over. Conflict when the name belongs to another
// build, or when what was kept since leaves no room for them.
func (s *Shop) Create(ctx context.Context, entries []journal.Entry) error {
	id := entries[0].Build
	all, err := s.store.Entries(ctx, id, 0, 0)
	if err != nil && fault.KindOf(err) != fault.NotFound {
		return err
	}
	if len(all) > 0 && all[0].ID != entries[0].ID {
		return fault.New(fault.Conflict, "there is another build called %s", id).WithHint("choose another name; nothing was kept")
	}
	known := make(map[string]bool, len(all))
	for _, e := range all {
		known[e.ID] = true
	}
	old := int64(len(all))
	for _, e := range entries {
		if !known[e.ID] {
			e.Seq = int64(len(all)) + 1
			all = append(all, e)
		}
	}
	if _, err := Replay(all); err != nil {
		if old > 0 {
			err = fault.New(fault.Conflict, "%s was worked on since, and this no longer fits: %v", id, err)
		}
		return err
	}
	_, err = s.store.Append(ctx, id, old, entries)
	return err
}

// Entries returns the whole journal of a build.
func (s *Shop) Entries(ctx context.Context, id string) ([]journal.Entry, error) {
	return s.store.Entries(ctx, id, 0, 0)
}
