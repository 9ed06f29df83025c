package live_test

import (
	"context"
	"testing"
	"time"

	"fettle/fault"
	"fettle/internal/demo"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/plan"
	"fettle/rates"
	"fettle/unit"
)

// replayed is the demo's shop on the morning of a day.
func replayed(t *testing.T, day unit.Date) *live.Shop {
	t.Helper()
	f, err := demo.Pedlar()
	if err != nil {
		t.Fatal(err)
	}
	entries, err := scenario.Entries(f, day)
	if err != nil {
		t.Fatal(err)
	}
	morning := day.Time().Add(8 * time.Hour)
	shop := live.Open(memory.New(), live.Options{Now: func() time.Time { return morning }, Runs: 300, Seed: 1})
	if err := shop.Create(context.Background(), entries); err != nil {
		t.Fatal(err)
	}
	return shop
}

// even is the day by which half of the builds are finished, by a plan made
// apart from any share.
func even(t *testing.T, shop *live.Shop, facts, now unit.Date) unit.Date {
	t.Helper()
	b, err := shop.Past(context.Background(), "pedlar", facts)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), &b, rates.Learn(b), plan.Options{Now: now.At(8, 0), Runs: 300, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return p.Dates.P50
}

func TestShares_AddUpToTheWholeMove(t *testing.T) {
	for _, c := range []struct{ since, now unit.Date }{
		{unit.Day(2026, time.October, 6), unit.Day(2026, time.October, 7)},
		{unit.Day(2026, time.October, 6), unit.Day(2026, time.October, 14)},
		{unit.Day(2026, time.October, 6), unit.Day(2026, time.December, 3)}, // told by weeks
	} {
		shop := replayed(t, c.now)
		shares, err := shop.Shares(context.Background(), "pedlar", c.since)
		if err != nil {
			t.Fatalf("since %v: %v", c.since, err)
		}
		sum := 0
		for i, s := range shares {
			sum += s.Days()
			if i > 0 && s.Before != shares[i-1].After {
				t.Errorf("share %d begins at %v, the one before ends at %v", i, s.Before, shares[i-1].After)
			}
		}
		before, after := even(t, shop, c.since, c.since), even(t, shop, c.now, c.now)
		if sum != int(after-before) || shares[0].Before != before {
			t.Errorf("%v to %v: shares add up to %d days, want %d: %v to %v", c.since, c.now, sum, after-before, before, after)
		}
	}
}

func TestShares_TheBlastMovedTheDate(t *testing.T) {
	shop := replayed(t, unit.Day(2026, time.October, 7))
	shares, err := shop.Shares(context.Background(), "pedlar", unit.Day(2026, time.October, 6))
	if err != nil {
		t.Fatal(err)
	}
	worst := shares[0]
	for _, s := range shares {
		if s.Days() > worst.Days() {
			worst = s
		}
	}
	if worst.Cause != live.ByChange || worst.Days() < 4 || len(worst.Seqs) < 14 {
		t.Errorf("largest share = %s of %s, %d days, %d entries; want the fourteen findings and at least 4 days", worst.Cause, worst.Person, worst.Days(), len(worst.Seqs))
	}
}

func TestShares_RefusesDaysOutsideTheBuild(t *testing.T) {
	shop := replayed(t, unit.Day(2026, time.October, 7))
	for day, want := range map[unit.Date]fault.Kind{unit.Day(2026, time.September, 1): fault.NotFound, unit.Day(2026, time.October, 8): fault.Invalid} {
		if _, err := shop.Shares(context.Background(), "pedlar", day); fault.KindOf(err) != want {
			t.Errorf("since %v: %v, want %v", day, err, want)
		}
	}
}
