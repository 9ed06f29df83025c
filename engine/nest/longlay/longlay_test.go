package longlay_test

import (
	"context"
	"reflect"
	"testing"

	"fettle/engine/nest"
	"fettle/engine/nest/longlay"
	"fettle/geom"
)

func box(w, h float64) geom.Polygon {
	return geom.Polygon{Outer: []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}}
}

// crowd asks for more than its two sheets take: the whole budget is spent.
func crowd(steps int) longlay.Work {
	return longlay.Work{Seed: 4, Steps: steps, Problem: nest.Problem{Kind: nest.Bins, Containers: []nest.Container{{ID: "s", Outline: box(60, 60), Count: 2}},
		Pieces: []nest.Piece{{ID: "kite", Count: 12, Free: true, Shape: geom.Polygon{Outer: []geom.Point{{}, {X: 14, Y: 5}, {X: 30}, {X: 12, Y: 22}}}}, {ID: "plate", Count: 3, Shape: box(31, 40)}}}}
}

func do(t *testing.T, ctx context.Context, w longlay.Work, tell longlay.Tell) longlay.Result {
	t.Helper()
	r, err := longlay.Do(ctx, w, tell)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestDo_GoesOnFromTheBestTold: what is cut off spends only what is left, never
// tells of less than was told, and comes to the same however often it is asked.
func TestDo_GoesOnFromTheBestTold(t *testing.T) {
	w := crowd(600)
	ctx, cancel := context.WithCancel(t.Context())
	do(t, ctx, w, func(best []nest.Placement, steps int) {
		if steps > 250 && len(best) > 0 {
			w.From, w.Done = best, steps
			cancel()
		}
	})
	if !w.GoesOn() || w.Done > 500 {
		t.Fatalf("cut off at %d steps with %d placed", w.Done, len(w.From))
	}
	var last longlay.Result
	for i := range 2 {
		told := 0
		r := do(t, t.Context(), w, func(best []nest.Placement, steps int) {
			if len(best) < len(w.From) || steps < w.Done || steps > w.Steps+200 {
				t.Errorf("told of %d placed at %d steps, of %d at %d before", len(best), steps, len(w.From), w.Done)
			}
			told++
		})
		if told < 2 || r.Steps < w.Steps || r.Steps > w.Steps+200 || len(r.Placements) < len(w.From) {
			t.Errorf("told %d times, %d of %d steps, %d placed of %d", told, r.Steps, w.Steps, len(r.Placements), len(w.From))
		}
		if i > 0 && !reflect.DeepEqual(r, last) {
			t.Error("gone on twice it came to two results")
		}
		last = r
	}
	w.Steps = w.Done
	if r := do(t, t.Context(), w, func([]nest.Placement, int) {}); len(r.Placements) < len(w.From) || r.Steps > w.Done+200 {
		t.Errorf("with nothing left of the budget: %d placed of %d, %d steps", len(r.Placements), len(w.From), r.Steps)
	}
}

// TestDo_BeginsAnewWhereThereIsNothingToGoOnFrom: a layout that no longer holds
// is not begun with.
func TestDo_BeginsAnewWhereThereIsNothingToGoOnFrom(t *testing.T) {
	w := crowd(60)
	quiet := func([]nest.Placement, int) {}
	plain := do(t, t.Context(), w, quiet)
	w.From = []nest.Placement{{X: 3}, {Copy: 1, X: 4}}
	if r := do(t, t.Context(), w, quiet); w.GoesOn() || !reflect.DeepEqual(r, plain) {
		t.Error("it goes on from two pieces in one place")
	}
	w.Problem.Pieces[0].Shape.Outer = nil
	if _, err := longlay.Do(t.Context(), w, quiet); err == nil {
		t.Error("a piece without a shape is laid")
	}
}
