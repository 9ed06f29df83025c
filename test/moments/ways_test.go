package moments

import (
	"bytes"
	"context"
	"slices"
	"testing"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/journal/sqlite"
	"fettle/internal/live"
	"fettle/plan"
	"fettle/takeoff"
	"fettle/unit"

	"path/filepath"
	"time"
)

type (
	takeoffCheck = takeoff.Check
	entry        struct {
		ID  string `json:"id"`
		Seq int64  `json:"seq"`
	}
)

// ways opens the shop's door that the Wall uses, on the same data folder.
func (s shop) ways(day unit.Date) []plan.Way {
	s.t.Helper()
	store, err := sqlite.Open(context.Background(), filepath.Join(s.dir, "fettle.db"))
	if err != nil {
		s.t.Fatal(err)
	}
	defer store.Close()
	at := day.Time().Add(8 * time.Hour)
	open := live.Open(store, live.Options{Now: func() time.Time { return at }, Seed: 1})
	ways, err := open.WaysOut(context.Background(), "pedlar")
	if err != nil {
		s.t.Fatal(err)
	}
	return ways
}

func way(t *testing.T, ways []plan.Way, levers ...string) plan.Way {
	t.Helper()
	for _, w := range ways {
		own := slices.Clone(w.Levers)
		slices.Sort(own)
		slices.Sort(levers)
		if slices.Equal(own, levers) {
			return w
		}
	}
	t.Fatalf("no way out with %v", levers)
	return plan.Way{}
}

func TestGetTheDateBack(t *testing.T) {
	s := morning(t, "2026-10-06")
	s.run("record", "pedlar", s.file("blast.json", demo.BlastSheet()))
	base := s.run("plan", "pedlar", "--json")
	ways := s.ways(unit.Day(2026, 10, 6))
	for _, w := range ways {
		t.Logf("%s: %.3f ± %.3f, half by %s, %d", w.Name, w.Ready, w.StdErr, w.P50, w.Price)
	}
	const saturdays, sublet, lend, painter = "saturdays/MW", "sublet/1", "lend/WA", "saturdays/PT"
	for _, lever := range []string{saturdays, sublet, lend} {
		if w := way(t, ways, lever); w.Gain < 0.20 {
			t.Errorf("%s wins %.3f, want at least 0.20", w.Name, w.Gain)
		}
	}
	for _, c := range []struct {
		a, b string
		want float64
	}{{saturdays, lend, 0.97}, {saturdays, sublet, 0.95}, {saturdays, painter, 0.92}} {
		pair, a, b := way(t, ways, c.a, c.b), way(t, ways, c.a), way(t, ways, c.b)
		if pair.Ready <= a.Ready || pair.Ready <= b.Ready {
			t.Errorf("%s: %.3f does not beat %.3f and %.3f", pair.Name, pair.Ready, a.Ready, b.Ready)
		}
		if pair.Ready < c.want-0.2 || pair.Ready > c.want+0.2 {
			t.Errorf("%s: %.3f, want %.2f within 0.20", pair.Name, pair.Ready, c.want)
		}
	}
	equal(t, "premium of 36 h at half the rate", way(t, ways, saturdays).Price, unit.Money(612_00))
	equal(t, "price of the sublet", way(t, ways, sublet).Price, unit.Money(1150_00))
	equal(t, "price of both", way(t, ways, saturdays, sublet).Price, unit.Money(1762_00))
	equal(t, "hours lent cost less", way(t, ways, lend).Cash, unit.Money(-56_00))

	picked := way(t, ways, saturdays, lend)
	kept := decode[[]entry](t, s.run("record", "pedlar", s.changes(picked.Changes...), "--json"))
	after := s.plan()
	equal(t, "chance once kept", after.Odds.Ready, picked.Ready)
	before := decode[plan.Plan](t, base)
	for _, id := range []build.PersonID{"MW", "WA"} {
		if person(before, id).Left == person(after, id).Left {
			t.Errorf("the list of %s did not change", id)
		}
	}
	args := []string{"undo", "pedlar"}
	for _, e := range kept {
		args = append(args, e.ID)
	}
	s.run(args...)
	if now := s.run("plan", "pedlar", "--json"); !bytes.Equal(now, base) {
		t.Error("taking the way back did not return the old plan byte for byte")
	}
}

func person(p plan.Plan, id build.PersonID) plan.Person {
	for _, who := range p.People {
		if who.ID == id {
			return who
		}
	}
	return plan.Person{}
}
