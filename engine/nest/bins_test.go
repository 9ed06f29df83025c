package nest_test

import (
	"reflect"
	"testing"

	"fettle/engine/nest"
)

func sheetOf(w, h float64, count int) nest.Container {
	return nest.Container{ID: "sheet", Outline: ring(0, 0, w, 0, w, h, 0, h), Count: count}
}

func TestSolve_BinsUseAsFewSheetsAsTheAreaAllows(t *testing.T) {
	p := nest.Problem{
		Kind: nest.Bins, Containers: []nest.Container{sheetOf(100, 60, 9)},
		Pieces: []nest.Piece{
			{ID: "a", Shape: ring(0, 0, 49, 0, 49, 29, 0, 29), Count: 6},
			{ID: "b", Shape: ring(0, 0, 29, 0, 29, 19, 0, 19), Count: 9, Rotations: []float64{0, 90}},
		},
	}
	r := solve(t, p, nest.Options{Seed: 1, Steps: 2000})
	if r.Status != nest.BestFound || r.Used[0] != 3 {
		t.Errorf("status %v, %d sheets, want 3: %+v", r.Status, r.Used[0], r.Stats)
	}
}

// TestSolve_BinsTrade has bars of which two sheets are filled only if each takes
// a wide one; the widest first, each where it fits, is three sheets.
func TestSolve_BinsTrade(t *testing.T) {
	bar := func(id string, w float64, count int) nest.Piece {
		return nest.Piece{ID: id, Shape: ring(0, 0, w, 0, w, 9, 0, 9), Count: count}
	}
	p := nest.Problem{Kind: nest.Bins, Containers: []nest.Container{sheetOf(10, 10, 5)}, Pieces: []nest.Piece{bar("wide", 3.9, 2), bar("narrow", 2.9, 4)}}
	for seed := uint64(1); seed < 4; seed++ {
		r := solve(t, p, nest.Options{Seed: seed, Steps: 1000, Workers: 2})
		if r.Status != nest.BestFound || r.Used[0] != 2 {
			t.Errorf("seed %d: status %v, %d sheets, want 2", seed, r.Status, r.Used[0])
		}
		if again := solve(t, p, nest.Options{Seed: seed, Steps: 1000, Workers: 2}); !reflect.DeepEqual(r, again) {
			t.Errorf("seed %d: a second run gave another layout", seed)
		}
	}
}
