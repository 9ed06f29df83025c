package live_test

import (
	"context"
	"testing"
	"time"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/demo"
	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/unit"
)

// open opens the small build in a store in memory. Its clock goes on by a
// minute with each look.
func open(t *testing.T) *live.Shop {
	t.Helper()
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	entries, err := scenario.Entries(file, 0)
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2027, 2, 3, 8, 0, 0, 0, time.UTC)
	s := live.Open(memory.New(), live.Options{Seed: 1, Now: func() time.Time { now = now.Add(time.Minute); return now }})
	if err := s.Create(context.Background(), entries); err != nil {
		t.Fatal(err)
	}
	return s
}

func note(s *live.Shop, text string) build.Change {
	return &build.WriteNote{Note: build.Note{At: s.Now(), By: "SI", Text: text}}
}

func length(t *testing.T, s *live.Shop) int {
	t.Helper()
	all, err := s.Entries(context.Background(), "bjelke")
	if err != nil {
		t.Fatal(err)
	}
	return len(all)
}

// TestRecord_SentAgain sends a list of two again, as a tablet does that got no
// answer: the clock has moved, and the notes hold the time.
func TestRecord_SentAgain(t *testing.T) {
	s, ctx := open(t), context.Background()
	before, who, id := length(t, s), live.Who{Person: "SI", Device: "bench"}, journal.NewID(time.Now())
	send := func(who live.Who) ([]journal.Entry, error) {
		return s.Record(ctx, "bjelke", journal.AnySeq, who, []live.Draft{{ID: id, Change: note(s, "one")}, {Change: note(s, "two")}})
	}
	first, err := send(who)
	if err != nil {
		t.Fatal(err)
	}
	again, err := send(live.Who{Person: "SI", Device: "office"})
	if err != nil {
		t.Fatalf("sent again: %v", err)
	}
	for i := range first {
		if again[i].ID != first[i].ID || again[i].Seq != first[i].Seq {
			t.Errorf("entry %d = %s at %d, want %s at %d", i, again[i].ID, again[i].Seq, first[i].ID, first[i].Seq)
		}
	}
	if got := length(t, s); got != before+2 {
		t.Errorf("%d entries, want %d", got, before+2)
	}
	if _, err := send(live.Who{Person: "RU", Device: "bench"}); fault.KindOf(err) != fault.Conflict {
		t.Errorf("somebody else under the same ID: %v, want a conflict", err)
	}
}

// TestCreate_Name keeps a name for the build that has it.
func TestCreate_Name(t *testing.T) {
	s, ctx := open(t), context.Background()
	file, err := demo.Second()
	if err != nil {
		t.Fatal(err)
	}
	same, err := scenario.Entries(file, 0)
	if err != nil {
		t.Fatal(err)
	}
	before := length(t, s)
	if err := s.Create(ctx, same); err != nil {
		t.Errorf("the same file again: %v, want it to count once", err)
	}
	van, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	van.Build.Name = "bjelke"
	other, err := scenario.Entries(van, unit.Day(2026, 10, 6))
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Create(ctx, other); fault.KindOf(err) != fault.Conflict {
		t.Errorf("another build of that name: %v, want a conflict", err)
	}
	if got := length(t, s); got != before {
		t.Errorf("%d entries, want %d", got, before)
	}
}
