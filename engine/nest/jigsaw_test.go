package nest

import (
	"context"
	"fmt"
	"testing"

	"fettle/geom"
)

// crazy cuts a rectangle of 120 by 90 into twelve four-cornered pieces.
func crazy() Problem {
	corner := func(i, j int) geom.Point {
		p := geom.Point{X: 30 * float64(i), Y: 30 * float64(j)}
		if i > 0 && i < 4 {
			p.X += float64((7*i+11*j)%13) - 6
		}
		if j > 0 && j < 3 {
			p.Y += float64((5*i+3*j)%15) - 7
		}
		return p
	}
	p := Problem{Containers: []Container{{Height: 90}}}
	for i := range 4 {
		for j := range 3 {
			ring := []geom.Point{corner(i, j), corner(i+1, j), corner(i+1, j+1), corner(i, j+1)}
			for k := range ring {
				ring[k] = ring[k].Sub(geom.Point{X: 17 * float64(j), Y: 4 * float64(i)})
			}
			p.Pieces = append(p.Pieces, Piece{ID: fmt.Sprint(i, j), Shape: geom.Polygon{Outer: ring}})
		}
	}
	return p
}

func TestSolve_ClosesAJigsaw(t *testing.T) {
	p := crazy()
	if !jigsaw(&p) {
		t.Fatal("it is one")
	}
	r, err := Solve(context.Background(), p, Options{Seed: 1, Steps: 8000})
	if err != nil || r.Density < 0.99999 || r.Stats.Steps > 6000 {
		t.Errorf("%v, %.4f of it filled after %d steps", err, r.Density, r.Stats.Steps)
	}
}

func TestJigsaw_IsNone(t *testing.T) {
	bent, gap, turned := crazy(), crazy(), crazy()
	bent.Pieces[5].Shape.Outer[0].X += 0.5
	gap.Clearance = 1
	turned.Pieces[0].Rotations = []float64{0, 180}
	for name, p := range map[string]Problem{"one corner off": bent, "a gap": gap, "a piece may turn": turned} {
		if jigsaw(&p) {
			t.Errorf("%s: it is none", name)
		}
	}
}
