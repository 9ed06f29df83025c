package nest_test

import (
	"reflect"
	"testing"

	"fettle/engine/nest"
)

// TestSolve_TellsStepsBetweenBetterLayouts: on a roll, and on sheets that never
// take all, a bar moves to near the end of the budget, and nothing else is
// changed by it. Under -race it shows that one goroutine tells.
func TestSolve_TellsStepsBetweenBetterLayouts(t *testing.T) {
	crowd := nest.Problem{Kind: nest.Bins, Clearance: 1, Containers: []nest.Container{sheetOf(61, 61, 2)},
		Pieces: []nest.Piece{{ID: "disc", Shape: ring(0, 10, 10, 0, 20, 0, 30, 10, 30, 20, 20, 30, 10, 30, 0, 20), Count: 8, Free: true}, {ID: "ell", Shape: ell(9), Count: 3, Free: true}}}
	for name, p := range map[string]nest.Problem{"roll": mixed(), "sheets": crowd} {
		for _, workers := range []int{1, 2} {
			o := nest.Options{Seed: 3, Steps: 500, Workers: workers}
			plain := solve(t, p, o)
			var told []int
			o.Stepped = func(steps int) { told = append(told, steps) }
			if r := solve(t, p, o); !reflect.DeepEqual(r, plain) {
				t.Errorf("%s: told of steps it is laid otherwise", name)
			}
			if len(told) < 4 || told[len(told)-1] < plain.Stats.Steps-300 {
				t.Errorf("%s: of %d steps told at %v", name, plain.Stats.Steps, told)
			}
			for i := range told[1:] {
				if told[i+1] < told[i]+nest.SteppedEvery {
					t.Errorf("%s: told at %d and at %d", name, told[i], told[i+1])
				}
			}
		}
	}
}

// TestSolve_ManyCopiesLieTheSameForOneToThreeWorkers: from 64 copies on as many
// looks are taken whoever takes them.
func TestSolve_ManyCopiesLieTheSameForOneToThreeWorkers(t *testing.T) {
	p := strip(60, nest.Piece{ID: "ell", Shape: ell(6), Count: 66, Rotations: []float64{0, 90, 180, 270}})
	one := solve(t, p, nest.Options{Seed: 1, Steps: 150, Workers: 1})
	for workers := 2; workers <= 3; workers++ {
		if r := solve(t, p, nest.Options{Seed: 1, Steps: 150, Workers: workers}); !reflect.DeepEqual(r, one) {
			t.Errorf("%d workers lay to %v, one to %v", workers, r.Length, one.Length)
		}
	}
}
