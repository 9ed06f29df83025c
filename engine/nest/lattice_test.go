package nest_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/geom"
)

// TestSolve_KeepsToAPattern compares lengths with what the pattern leaves.
func TestSolve_KeepsToAPattern(t *testing.T) {
	for _, c := range []struct {
		name   string
		long   float64 // a bar as high as the roll
		match  *nest.Match
		repeat nest.Repeat
		want   float64
	}{
		{"none", 9, nil, nest.Repeat{X: 10}, 27},
		{"every bar on a repeat", 9, &nest.Match{X: true}, nest.Repeat{X: 10}, 29},
		{"longer than one", 11, &nest.Match{X: true}, nest.Repeat{X: 10}, 51},
		{"anchor and phase", 9, &nest.Match{X: true, Anchor: geom.Point{X: 4}}, nest.Repeat{X: 10, Phase: geom.Point{X: 1}}, 36},
		{"fine", 9, &nest.Match{X: true}, nest.Repeat{X: 2.5}, 29},
	} {
		bar := nest.Piece{ID: "bar", Shape: ring(0, 0, c.long, 0, c.long, 4, 0, 4), Count: 3, Match: c.match}
		p := nest.Problem{Containers: []nest.Container{{Height: 4.001, Repeat: c.repeat}}, Pieces: []nest.Piece{bar}}
		if r := solve(t, p, nest.Options{Seed: 1, Steps: 60}); math.Abs(r.Length-c.want) > 0.01 {
			t.Errorf("%s: length %.4f, want %.2f", c.name, r.Length, c.want)
		}
	}
}

// plaid is a case with all that a pattern meets: turns, mirroring, any angle,
// a locked copy, clearance and margin.
func plaid(kind nest.Kind) nest.Problem {
	both := func(x, y float64) *nest.Match { return &nest.Match{Anchor: geom.Point{X: x, Y: y}, X: true, Y: true} }
	p := nest.Problem{Kind: kind, Clearance: 0.5, Pieces: []nest.Piece{
		{ID: "ell", Shape: ell(10), Count: 5, Rotations: []float64{0, 90, 180, 270}, Match: both(10, 10)},
		{ID: "kite", Shape: ring(0, 0, 14, 5, 30, 0, 12, 22), Count: 4, Rotations: []float64{0, 180}, Mirror: true, Match: &nest.Match{X: true}},
		{ID: "wedge", Shape: ring(0, 0, 21, 0, 4, 13), Count: 4, Free: true, Match: &nest.Match{Anchor: geom.Point{X: 3}, Y: true}},
		{ID: "frame", Shape: square(11), Count: 3, Match: both(0, 0), Locked: []nest.Placement{{X: 2.25, Y: 3.5}}},
		{ID: "loose", Shape: square(6), Count: 5},
	}}
	m := nest.Container{ID: "plaid", Margin: 1, Repeat: nest.Repeat{X: 7, Y: 9, Phase: geom.Point{X: 0.3, Y: -0.6}}}
	if m.Height = 60; kind != nest.Strip {
		m.Height, m.Outline, m.Count = 0, ring(0, 0, 62, 4, 60, 70, -3, 66), 3
	}
	p.Containers = []nest.Container{m}
	return p
}

// offLattice is how far a copy's anchor is from the lattice along x and y,
// worked out by complex numbers.
func offLattice(p nest.Problem, at nest.Placement) (x, y float64) {
	m, r := p.Pieces[at.Piece].Match, p.Containers[at.Container].Repeat
	a := complex(m.Anchor.X, m.Anchor.Y)
	if at.Mirrored {
		a = complex(-m.Anchor.X, m.Anchor.Y)
	}
	sin, cos := math.Sincos(at.Rotation * math.Pi / 180)
	a = a*complex(cos, sin) + complex(at.X-r.Phase.X, at.Y-r.Phase.Y)
	return real(a) - r.X*math.Round(real(a)/r.X), imag(a) - r.Y*math.Round(imag(a)/r.Y)
}

func TestSolve_EveryAnchorOnThePlaid(t *testing.T) {
	for _, kind := range []nest.Kind{nest.Strip, nest.Bins, nest.Knapsack} {
		for seed := range uint64(3) {
			p := plaid(kind)
			r := solve(t, p, nest.Options{Seed: seed, Steps: 150})
			if len(r.Placements) != 21 || r.Stats.Refused > 0 {
				t.Errorf("kind %d, seed %d: %d copies laid, want 21; %d layouts were off the pattern, or too near", kind, seed, len(r.Placements), r.Stats.Refused)
			}
			for _, at := range r.Placements {
				piece := p.Pieces[at.Piece]
				if piece.Match == nil || at.Copy < len(piece.Locked) {
					continue
				}
				x, y := offLattice(p, at)
				if piece.Match.X && math.Abs(x) > 2e-6 || piece.Match.Y && math.Abs(y) > 2e-6 {
					t.Errorf("kind %d, seed %d: %s %d lies %g, %g off the lattice", kind, seed, piece.ID, at.Copy, x, y)
				}
			}
		}
	}
}

func TestCheck_Pattern(t *testing.T) {
	p := nest.Problem{Containers: []nest.Container{{ID: "cloth", Height: 20, Repeat: nest.Repeat{X: 10, Y: 4, Phase: geom.Point{X: 1}}}},
		Pieces: []nest.Piece{{ID: "panel", Shape: square(5), Rotations: []float64{0, 90}, Match: &nest.Match{Anchor: geom.Point{X: 2, Y: 1}, X: true, Y: true}}}}
	for _, c := range []struct {
		at   nest.Placement
		want string
	}{
		{nest.Placement{X: 9, Y: 3}, ""},
		{nest.Placement{X: 9 + 1e-6, Y: 3}, ""},
		{nest.Placement{X: 12, Y: 2, Rotation: 90}, ""}, // the anchor is at 11, 4
		{nest.Placement{X: 9.001, Y: 3}, "0.001 along x"},
		{nest.Placement{X: 9, Y: 5}, "2 along y"},
		{nest.Placement{X: 9, Y: 3, Rotation: 90}, "3 along x"},
		{nest.Placement{X: 13, Y: 2, Rotation: 90}, "1 along x"},
	} {
		_, err := nest.Check(p, []nest.Placement{c.at})
		if said := errorText(err); (c.want == "") != (err == nil) || !strings.Contains(said, c.want) {
			t.Errorf("%+v: %q, want %q", c.at, said, c.want)
		}
	}
	p.Pieces[0].Locked = []nest.Placement{{X: 3.3, Y: 3.3}}
	if _, err := nest.Check(p, p.Pieces[0].Locked); err != nil {
		t.Errorf("a locked copy is held to the pattern: %v", err)
	}
}

func errorText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func TestSolve_RefusesPatterns(t *testing.T) {
	nan := math.NaN()
	held := &nest.Match{X: true}
	for _, c := range []struct {
		repeat nest.Repeat
		match  *nest.Match
		want   string
	}{
		{nest.Repeat{X: -1}, held, "material cloth, pattern along x"},
		{nest.Repeat{X: 1, Y: nan}, held, "material cloth, pattern along y"},
		{nest.Repeat{X: math.Inf(1)}, held, "material cloth, pattern along x"},
		{nest.Repeat{X: 1, Phase: geom.Point{X: nan}}, held, "material cloth, pattern along x"},
		{nest.Repeat{X: 1, Phase: geom.Point{Y: 2}}, held, "material cloth, pattern along y"},
		{nest.Repeat{Y: 1}, held, "piece panel"},
		{nest.Repeat{X: 1}, &nest.Match{Y: true}, "piece panel"},
		{nest.Repeat{X: 1}, &nest.Match{}, "piece panel"},
		{nest.Repeat{X: 1}, &nest.Match{X: true, Anchor: geom.Point{Y: nan}}, "piece panel"},
		{nest.Repeat{Y: 9}, &nest.Match{Y: true, Anchor: geom.Point{Y: -4}}, "piece panel"}, // its rows begin at 4: it would reach to 10
	} {
		p := nest.Problem{Containers: []nest.Container{{ID: "cloth", Height: 9.5, Repeat: c.repeat}}, Pieces: []nest.Piece{{ID: "panel", Shape: square(6), Match: c.match}}}
		if _, err := nest.Solve(context.Background(), p, nest.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v with %+v: %v, want %q", c.match, c.repeat, err, c.want)
		}
	}
}
