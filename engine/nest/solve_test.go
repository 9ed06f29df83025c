package nest_test

import (
	"context"
	"math"
	"reflect"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

func ring(xy ...float64) geom.Polygon {
	var p geom.Polygon
	for i := 0; i < len(xy); i += 2 {
		p.Outer = append(p.Outer, geom.Point{X: xy[i], Y: xy[i+1]})
	}
	return p
}

func square(side float64) geom.Polygon { return ring(0, 0, side, 0, side, side, 0, side) }

func ell(a float64) geom.Polygon { return ring(0, 0, 2*a, 0, 2*a, a, a, a, a, 2*a, 0, 2*a) }

func strip(height float64, pieces ...nest.Piece) nest.Problem {
	return nest.Problem{Pieces: pieces, Containers: []nest.Container{{Height: height}}}
}

// mixed is a case with concave pieces, a frame to lie in, turns and mirroring.
func mixed() nest.Problem {
	frame := ring(0, 0, 40, 0, 40, 40, 0, 40)
	frame.Holes = [][]geom.Point{{{X: 8, Y: 8}, {X: 32, Y: 8}, {X: 32, Y: 32}, {X: 8, Y: 32}}}
	quarters := []float64{0, 90, 180, 270}
	return strip(60,
		nest.Piece{ID: "frame", Shape: frame, Count: 2},
		nest.Piece{ID: "ell", Shape: ell(10), Count: 6, Rotations: quarters},
		nest.Piece{ID: "kite", Shape: ring(0, 0, 14, 5, 30, 0, 12, 22), Count: 5, Rotations: []float64{0, 180}, Mirror: true},
		nest.Piece{ID: "wedge", Shape: ring(0, 0, 21, 0, 4, 13), Count: 6, Free: true},
	)
}

func solve(t *testing.T, p nest.Problem, o nest.Options) nest.Result {
	t.Helper()
	r, err := nest.Solve(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestSolve_FillsAsFarAsTouchingAllows(t *testing.T) {
	for _, c := range []struct {
		name string
		p    nest.Problem
		want float64
	}{
		{"squares", strip(100.01, nest.Piece{Shape: square(50), Count: 6}), 0.995},
		{"two ells make a rectangle", strip(30.003, nest.Piece{Shape: ell(10), Count: 2, Rotations: []float64{0, 180}}), 0.79},
		{"pairs of wedges", strip(20.002, nest.Piece{Shape: ring(0, 0, 30, 0, 0, 20), Count: 6, Rotations: []float64{0, 180}}), 0.97},
	} {
		if r := solve(t, c.p, nest.Options{Seed: 1, Steps: 200}); r.Density < c.want || r.Density > 1 {
			t.Errorf("%s: density %.4f, want at least %v", c.name, r.Density, c.want)
		}
	}
}

func TestSolve_PutsSmallPiecesIntoHoles(t *testing.T) {
	r := solve(t, mixed(), nest.Options{Seed: 3, Steps: 400})
	inside := 0
	for _, frame := range r.Placements[:2] {
		hole := geom.Box{Min: geom.Point{X: frame.X + 8, Y: frame.Y + 8}, Max: geom.Point{X: frame.X + 32, Y: frame.Y + 32}}
		for _, at := range r.Placements[2:] {
			if hole.Contains(geom.Point{X: at.X, Y: at.Y}) {
				inside++
			}
		}
	}
	if inside < 2 {
		t.Errorf("%d pieces lie in the holes of the frames", inside)
	}
}

func TestSolve_EveryCopyOnceInsideAndAsAllowed(t *testing.T) {
	p := mixed()
	for seed := range uint64(5) {
		r := solve(t, p, nest.Options{Seed: seed, Steps: 30})
		if len(r.Placements) != 19 {
			t.Fatalf("%d placements, want 19", len(r.Placements))
		}
		if r.Placements[2].Rotation != math.Trunc(r.Placements[2].Rotation/90)*90 || r.Placements[0].Mirrored {
			t.Errorf("seed %d: a piece turned or mirrored as it may not be", seed)
		}
		if r.Stats.Refused > 0 {
			t.Errorf("seed %d: search and exact check differ %d times", seed, r.Stats.Refused)
		}
	}
}

func TestSolve_SameSeedSameAnswer(t *testing.T) {
	for _, workers := range []int{1, 2} {
		o := nest.Options{Seed: 7, Steps: 60, Workers: workers}
		a, b := solve(t, mixed(), o), solve(t, mixed(), o)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%d workers: lengths %v and %v of one seed", workers, a.Length, b.Length)
		}
		o.Seed++
		if c := solve(t, mixed(), o); reflect.DeepEqual(a.Placements, c.Placements) {
			t.Errorf("%d workers: another seed gives the same layout", workers)
		}
	}
}

func TestSolve_MoreStepsAreNeverWorse(t *testing.T) {
	last := math.Inf(1)
	for _, steps := range []int{0, 50, 400} {
		r := solve(t, mixed(), nest.Options{Seed: 2, Steps: steps})
		if r.Length > last {
			t.Errorf("%d steps: length %v, with fewer %v", steps, r.Length, last)
		}
		if over := r.Stats.Steps - steps; over > 60 {
			t.Errorf("%d steps asked for, %d used", steps, r.Stats.Steps)
		}
		last = r.Length
	}
}

func TestSolve_CancelledGivesTheBestSoFar(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	var seen []float64
	r, err := nest.Solve(ctx, mixed(), nest.Options{Seed: 1, Steps: 1 << 30, Progress: func(p nest.Progress) {
		if seen = append(seen, p.Length); len(seen) == 5 {
			cancel()
		}
	}})
	if err != nil || r.Status != nest.Interrupted {
		t.Fatalf("status %v, %v; want interrupted", r.Status, err)
	}
	for i := range seen[1:] {
		if seen[i+1] >= seen[i] {
			t.Errorf("progress %v does not fall", seen)
		}
	}
	if r.Length > seen[4] {
		t.Errorf("length %v, the last told was %v", r.Length, seen[4])
	}
}

func TestSolve_RefusesWhatItCannotDo(t *testing.T) {
	for _, c := range []struct {
		name string
		p    nest.Problem
		want string
	}{
		{"kind", nest.Problem{Kind: nest.Bins}, "nothing to cut"},
		{"no pieces", strip(10), "nothing to cut"},
		{"no height", strip(0, nest.Piece{Shape: square(1)}), "no height"},
		{"too high", strip(10, nest.Piece{ID: "door", Shape: square(11)}), "piece door: it is too high"},
		{"crossed", strip(10, nest.Piece{Shape: ring(0, 0, 4, 4, 4, 0, 0, 4)}), "piece 1"},
		{"axis", strip(10, nest.Piece{Shape: square(1), Axis: &nest.Axis{Angle: 45, Tolerance: 10}}), "in none of its turns"},
		{"angle", strip(10, nest.Piece{Shape: square(1), Rotations: []float64{math.NaN()}}), "an angle"},
	} {
		_, err := nest.Solve(context.Background(), c.p, nest.Options{})
		if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want an invalid input with %q", c.name, err, c.want)
		}
	}
}
