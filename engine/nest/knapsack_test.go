package nest_test

import (
	"math/rand/v2"
	"testing"

	"fettle/engine/nest"
)

// brick is a rectangle of whole cells.
type brick struct{ w, h, value int }

// mostValue tries every way to lay bricks on a board of cells, none turned:
// each cell in turn stays free or holds the corner of a brick.
func mostValue(w, h int, bricks []brick) int {
	taken := make([]bool, w*h)
	free := func(x, y int, b brick, set bool) bool {
		if x+b.w > w || y+b.h > h {
			return false
		}
		for i := range b.w {
			for k := range b.h {
				at := (y+k)*w + x + i
				if set {
					taken[at] = !taken[at]
				} else if taken[at] {
					return false
				}
			}
		}
		return true
	}
	used := make([]bool, len(bricks))
	var best func(cell int) int
	best = func(cell int) int {
		if cell == w*h {
			return 0
		}
		most := best(cell + 1)
		x, y := cell%w, cell/w
		for i, b := range bricks {
			if !used[i] && free(x, y, b, false) {
				used[i] = true
				free(x, y, b, true)
				most = max(most, b.value+best(cell+1))
				free(x, y, b, true)
				used[i] = false
			}
		}
		return most
	}
	return best(0)
}

// TestSolve_KnapsackAgainstEveryWay compares small boards of bricks, a hair
// smaller than their cells, with what trying everything finds.
func TestSolve_KnapsackAgainstEveryWay(t *testing.T) {
	draw := rand.New(rand.NewPCG(7, 7))
	missed := 0
	for n := range 12 {
		w, h := 3+draw.IntN(2), 3
		var bricks []brick
		p := nest.Problem{Kind: nest.Knapsack, Containers: []nest.Container{sheetOf(float64(w), float64(h), 1)}}
		for range 5 {
			b := brick{1 + draw.IntN(3), 1 + draw.IntN(2), 1 + draw.IntN(9)}
			bricks = append(bricks, b)
			x, y := float64(b.w)-0.01, float64(b.h)-0.01
			p.Pieces = append(p.Pieces, nest.Piece{ID: string(rune('a' + len(bricks))), Shape: ring(0, 0, x, 0, x, y, 0, y), Value: float64(b.value)})
		}
		r := solve(t, p, nest.Options{Seed: uint64(n), Steps: 1500})
		got := 0
		for _, at := range r.Placements {
			got += bricks[at.Piece].value
		}
		if want := mostValue(w, h, bricks); got > want {
			t.Fatalf("board %d: %d, more than the most there is, %d", n, got, want)
		} else if got < want {
			missed++
			t.Logf("board %d (%d by %d, %v): %d of %d", n, w, h, bricks, got, want)
		}
	}
	if missed > 0 {
		t.Errorf("%d of 12 boards are not filled as well as can be", missed)
	}
}
