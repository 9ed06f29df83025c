package nest_test

import (
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
