package live_test

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/figure"
	"fettle/internal/journal/memory"
	"fettle/internal/live"
	"fettle/internal/scenario"
	"fettle/unit"
)

// taught opens a store with played builds that are over and takes the second
// demo build in as it stood on a day.
func taught(t *testing.T, finished int, now unit.Date) *live.Shop {
	t.Helper()
	shop := live.Open(memory.New(), live.Options{Seed: 7, Runs: 60, Now: func() time.Time { return now.Time().Add(8 * time.Hour) }})
	for i := range finished {
		create(t, shop, playedBuild(t, uint64(i+1), 1.25, false), 0)
	}
	next := playedBuild(t, 99, 1, false)
	create(t, shop, next, next.Build.Promise.In+7)
	return shop
}

func create(t *testing.T, shop *live.Shop, f scenario.File, until unit.Date) {
	t.Helper()
	entries, err := scenario.Entries(f, until)
	if err != nil {
		t.Fatal(err)
	}
	if err := shop.Create(context.Background(), entries); err != nil {
		t.Fatal(err)
	}
}

// TestPlan_LearnsFromEarlierBuilds: builds that took a quarter more than planned
// make the next one later, and its odds say from how many; on a day before they
// were over they teach nothing.
func TestPlan_LearnsFromEarlierBuilds(t *testing.T) {
	after := unit.Day(2028, 1, 10)
	alone, _, err := taught(t, 0, after).Plan(t.Context(), "played-99")
	if err != nil {
		t.Fatal(err)
	}
	shop := taught(t, 4, after)
	p, v, err := shop.Plan(t.Context(), "played-99")
	if err != nil {
		t.Fatal(err)
	}
	if len(shop.Rates(v).Past) != 4 || p.Dates.P50 <= alone.Dates.P50 {
		t.Errorf("%d builds taught, half by %s; alone %s", len(shop.Rates(v).Past), p.Dates.P50, alone.Dates.P50)
	}
	if !slices.ContainsFunc(p.Odds.Figure.Inputs, func(in figure.Input) bool { return strings.Contains(in.Note, "on 4 earlier builds") }) {
		t.Errorf("the working does not say so: %+v", p.Odds.Figure.Inputs)
	}
	v, err = taught(t, 4, unit.Day(2027, 1, 18)).View(t.Context(), "played-99")
	if err != nil || len(shop.Rates(v).Past) != 0 {
		t.Errorf("before they were over %d builds taught, %v", len(shop.Rates(v).Past), err)
	}
}

// TestPlan_OfTwoBuildsAtOnce: each asks what the other teaches.
func TestPlan_OfTwoBuildsAtOnce(t *testing.T) {
	shop := taught(t, 1, unit.Day(2028, 1, 10))
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			if _, _, err := shop.Plan(t.Context(), []string{"played-99", "played-1"}[i%2]); err != nil {
				t.Error(err)
			}
		})
	}
	wait.Wait()
}
