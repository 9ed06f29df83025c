package nest_test

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// TestSolve_Rules has every rule matter once: without it more would fit, or
// elsewhere. Solve holds its own layout to the exact check.
func TestSolve_Rules(t *testing.T) {
	bar := nest.Piece{ID: "bar", Shape: ring(0, 0, 9, 0, 9, 2, 0, 2)}
	with := func(p nest.Piece, change func(*nest.Piece)) nest.Piece {
		change(&p)
		return p
	}
	sheet := func(change func(*nest.Container)) nest.Container {
		c := nest.Container{ID: "sheet", Outline: box(0, 0, 20, 10)}
		change(&c)
		return c
	}
	as := func(*nest.Container) {}
	for _, c := range []struct {
		name     string
		material nest.Container
		piece    nest.Piece
		gap      float64
		laid     int // of so many
	}{
		{"plain", sheet(as), with(bar, func(p *nest.Piece) { p.Count = 8 }), 0, 8},
		{"margin", sheet(func(c *nest.Container) { c.Margin = 0.6 }), with(bar, func(p *nest.Piece) { p.Count = 8 }), 0, 8},
		{"margin that two just fit in", sheet(func(c *nest.Container) { c.Margin = 3 }), with(bar, func(p *nest.Piece) { p.Count = 8 }), 0, 2},
		{"margin too wide for two", sheet(func(c *nest.Container) { c.Margin = 3.01 }), with(bar, func(p *nest.Piece) { p.Count = 8 }), 0, 1},
		{"clearance and kerf", sheet(as), with(bar, func(p *nest.Piece) { p.Count = 8 }), 1.5, 6},
		{"hole", sheet(func(c *nest.Container) { c.Outline.Holes = [][]geom.Point{box(1, 4.5, 18, 1).Outer} }), with(bar, func(p *nest.Piece) { p.Count = 9 }), 0, 8},
		{"keep-out", sheet(func(c *nest.Container) { c.KeepOut = []geom.Polygon{box(0, 3, 20, 7)} }), with(bar, func(p *nest.Piece) { p.Count = 3 }), 0, 2},
		{"zone too poor", sheet(func(c *nest.Container) { c.Zones = []nest.Zone{{Shape: box(0, 3, 20, 7), Quality: 1}} }), with(bar, func(p *nest.Piece) { p.Count, p.Quality = 3, 2 }), 0, 2},
		{"zone good enough", sheet(func(c *nest.Container) { c.Zones = []nest.Zone{{Shape: box(0, 3, 20, 7), Quality: 2}} }), with(bar, func(p *nest.Piece) { p.Count, p.Quality = 3, 2 }), 0, 3},
		{"any angle", sheet(func(c *nest.Container) { c.Outline = ring(0, 0, 8, 6, 6.6, 7.9, -1.4, 1.9) }), with(bar, func(p *nest.Piece) { p.Free = true }), 0, 1},
		{"any angle, too narrow", sheet(func(c *nest.Container) { c.Outline = ring(0, 0, 8, 6, 7, 7.3, -1, 1.3) }), with(bar, func(p *nest.Piece) { p.Free = true }), 0, 0},
		{"tight direction across", sheet(func(c *nest.Container) {
			c.Outline = box(0, 0, 10, 8.5)
			c.Grain = []nest.Heading{{Angle: 90}}
		}), with(bar, func(p *nest.Piece) { p.Free, p.Axis = true, &nest.Axis{Tolerance: 5} }), 0, 0},
		{"tight direction along", sheet(func(c *nest.Container) {
			c.Outline = box(0, 0, 10, 8.5)
			c.Grain = []nest.Heading{{Angle: 4}}
		}), with(bar, func(p *nest.Piece) { p.Free, p.Axis = true, &nest.Axis{Tolerance: 5} }), 0, 1},
		{"a flap that will do with less", sheet(func(c *nest.Container) {
			c.Outline = box(0, 0, 9.1, 2.1)
			c.Zones = []nest.Zone{{Shape: box(0, 0, 3, 3), Quality: 1}}
		}), with(bar, func(p *nest.Piece) { p.Zones = []nest.Zone{{Shape: box(0, 0, 3.5, 2), Quality: 1}} }), 0, 1},
		{"a flap on the other end", sheet(func(c *nest.Container) {
			c.Outline = box(0, 0, 9.1, 2.1)
			c.Zones = []nest.Zone{{Shape: box(0, 0, 3, 3), Quality: 1}}
		}), with(bar, func(p *nest.Piece) { p.Zones = []nest.Zone{{Shape: box(5.5, 0, 3.5, 2), Quality: 1}} }), 0, 0},
		{"the flap turned round", sheet(func(c *nest.Container) {
			c.Outline = box(0, 0, 9.1, 2.1)
			c.Zones = []nest.Zone{{Shape: box(0, 0, 3, 3), Quality: 1}}
		}), with(bar, func(p *nest.Piece) {
			p.Zones, p.Free = []nest.Zone{{Shape: box(5.5, 0, 3.5, 2), Quality: 1}}, true
		}), 0, 1},
		{"a face that asks for more", sheet(func(c *nest.Container) {
			c.Outline = box(0, 0, 9.1, 2.1)
			c.Zones = []nest.Zone{{Shape: box(0, 0, 3, 3), Quality: 1}}
		}), with(bar, func(p *nest.Piece) {
			p.Quality, p.Zones = 1, []nest.Zone{{Shape: box(0, 0, 2, 2), Quality: 2}}
		}), 0, 0},
		{"nap", sheet(func(c *nest.Container) { c.Outline = box(-9.1, -2.1, 9.1, 2.1) }),
			with(bar, func(p *nest.Piece) {
				p.Rotations, p.Axis = []float64{180}, &nest.Axis{Angle: 180, Tolerance: 1, OneWay: true}
			}), 0, 1},
	} {
		p := nest.Problem{Kind: nest.Knapsack, Containers: []nest.Container{c.material}, Pieces: []nest.Piece{c.piece}, Clearance: c.gap}
		if r := solve(t, p, nest.Options{Seed: 1, Steps: 600}); len(r.Placements) != c.laid {
			t.Errorf("%s: %d laid, want %d", c.name, len(r.Placements), c.laid)
		}
	}
}

// TestSolve_LockedStayAndTheRestIsLaid locks two copies and lays the rest, on
// sheets and on a roll, and then goes on from what came out.
func TestSolve_LockedStayAndTheRestIsLaid(t *testing.T) {
	piece := nest.Piece{ID: "cuff", Shape: ell(2), Count: 9, Free: true, Locked: []nest.Placement{
		{X: 6.123, Y: 1.456, Rotation: 33.25}, {X: 25, Y: 5, Rotation: 90, Mirrored: true},
	}}
	for _, p := range []nest.Problem{
		{Kind: nest.Bins, Containers: []nest.Container{{ID: "hide", Outline: box(0, 0, 26, 12), Count: 2}}, Pieces: []nest.Piece{piece}},
		{Kind: nest.Strip, Containers: []nest.Container{{ID: "roll", Height: 12, KeepOut: []geom.Polygon{box(12, 0, 1, 9)}}}, Pieces: []nest.Piece{piece}, Clearance: 0.2, Kerf: 0.1},
	} {
		r := solve(t, p, nest.Options{Seed: 1, Steps: 600})
		if len(r.Placements) != 9 || p.Kind == nest.Bins && r.Used[0] != 1 {
			t.Errorf("kind %d: %d laid on %v: %s", p.Kind, len(r.Placements), r.Used, r.Reason)
		}
		again := solve(t, p, nest.Options{Seed: 2, Steps: 100, Start: r.Placements[2:]})
		if again.Length > r.Length || len(again.Placements) != 9 {
			t.Errorf("kind %d: from a length of %v on to %v, %d laid", p.Kind, r.Length, again.Length, len(again.Placements))
		}
	}
}

func TestSolve_RefusesWhatContradictsItself(t *testing.T) {
	sheet := nest.Container{ID: "sheet", Outline: box(0, 0, 20, 10), Count: 2}
	at := func(x float64, sheet int) []nest.Placement { return []nest.Placement{{X: x, Sheet: sheet}} }
	for want, pieces := range map[string][]nest.Piece{
		"overlaps piece a, copy 1":         {{ID: "a", Shape: square(4), Locked: at(1, 0)}, {ID: "b", Shape: square(4), Locked: at(3, 0)}},
		"beyond the edge":                  {{ID: "a", Shape: square(4), Locked: at(17, 0)}},
		"is on two sheets":                 {{ID: "a", Shape: square(4), Pair: "b", Locked: at(0, 0)}, {ID: "b", Shape: square(4), Pair: "a", Locked: at(0, 1)}},
		"2 copies are locked, and 1":       {{ID: "a", Shape: square(4), Locked: append(at(0, 0), at(8, 0)...)}},
		"in none of its turns":             {{ID: "a", Shape: square(4), Rotations: []float64{30, 60}, Axis: &nest.Axis{Tolerance: 10}}},
		"a quality of -1":                  {{ID: "a", Shape: square(4), Quality: -1}},
		"a list of angles are both":        {{ID: "a", Shape: square(4), Rotations: []float64{30}, Free: true}},
		"to within -2":                     {{ID: "a", Shape: square(4), Axis: &nest.Axis{Tolerance: -2}}},
		"zone 1: the edge from here meets": {{ID: "a", Shape: square(4), Zones: []nest.Zone{{Shape: ring(0, 0, 4, 4, 4, 0, 0, 4)}}}},
	} {
		_, err := nest.Solve(context.Background(), nest.Problem{Kind: nest.Bins, Containers: []nest.Container{sheet}, Pieces: pieces}, nest.Options{})
		if fault.KindOf(err) != fault.Invalid || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want an invalid input with %q", err, want)
		}
	}
}

// TestSolve_WhatComesBackPassesTheCheck is a property of random hides and
// pieces; and what surely has room finds it.
func TestSolve_WhatComesBackPassesTheCheck(t *testing.T) {
	for seed := uint64(1); seed <= 8; seed++ {
		dice := rand.New(rand.NewPCG(seed, 5))
		p := nest.Problem{Kind: nest.Bins, Clearance: 0.3 * dice.Float64(), Kerf: 0.2 * dice.Float64()}
		for range 2 {
			p.Containers = append(p.Containers, drawnHide(dice))
		}
		for range 4 {
			p.Pieces = append(p.Pieces, drawnPiece(dice, len(p.Pieces)))
		}
		r, err := nest.Solve(context.Background(), p, nest.Options{Seed: seed, Steps: 1500})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		if _, err := nest.CheckPart(p, r.Placements); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if r.Status != nest.BestFound {
			t.Errorf("seed %d: %d laid: %s", seed, len(r.Placements), r.Reason)
		}
	}
}

// drawnHide is a star-shaped hide about 60 across with a hole, zones, a
// keep-out and two headings.
func drawnHide(dice *rand.Rand) nest.Container {
	c := nest.Container{ID: "hide", Margin: dice.Float64(), Outline: spiky(dice, geom.Point{}, 25, 35, 14)}
	somewhere := func(r float64) geom.Point {
		a := 2 * math.Pi * dice.Float64()
		return geom.Point{X: r * math.Cos(a), Y: r * math.Sin(a)}
	}
	c.Outline.Holes = [][]geom.Point{spiky(dice, somewhere(4), 1, 2, 7).Outer}
	c.KeepOut = []geom.Polygon{spiky(dice, somewhere(16), 1, 3, 5)}
	for q := range 3 {
		c.Zones = append(c.Zones, nest.Zone{Shape: spiky(dice, somewhere(12), 2, 6, 6), Quality: q})
	}
	c.Grain = []nest.Heading{{At: somewhere(9), Angle: 40 * dice.Float64()}, {At: somewhere(9), Angle: -40 * dice.Float64()}}
	return c
}

// drawnPiece is about 8 across, and asks for something of all there is to ask.
func drawnPiece(dice *rand.Rand, n int) nest.Piece {
	p := nest.Piece{ID: string(rune('a' + n)), Shape: spiky(dice, geom.Point{X: 3}, 3, 5, 6+n), Count: 3, Quality: dice.IntN(4)}
	switch n % 3 {
	case 0:
		p.Free = true
	case 1:
		p.Free, p.Axis = true, &nest.Axis{Angle: 360 * dice.Float64(), Tolerance: 20 * dice.Float64(), OneWay: dice.IntN(2) == 0}
	default:
		p.Rotations, p.Mirror = []float64{10, 100, 190}, true
	}
	if dice.IntN(2) == 0 {
		p.Zones = []nest.Zone{{Shape: spiky(dice, geom.Point{X: 5}, 1, 2, 5), Quality: dice.IntN(4)}}
	}
	return p
}

func spiky(dice *rand.Rand, at geom.Point, least, most float64, corners int) geom.Polygon {
	var p geom.Polygon
	for i := range corners {
		a := 2 * math.Pi * (float64(i) + 0.6*dice.Float64()) / float64(corners)
		r := least + (most-least)*dice.Float64()
		p.Outer = append(p.Outer, geom.Point{X: at.X + r*math.Cos(a), Y: at.Y + r*math.Sin(a)})
	}
	return p
}

func TestSolve_SaysWhyNotAllFits(t *testing.T) {
	poor := []nest.Zone{{Shape: box(-1, -1, 22, 12), Quality: 1}}
	for _, c := range []struct {
		want   string
		zones  []nest.Zone
		pieces []nest.Piece
	}{
		{"piece a: it is too long or too wide", nil, []nest.Piece{{ID: "a", Shape: box(0, 0, 11, 12), Free: true}, {ID: "b", Shape: square(2)}}},
		{"piece a: it is larger than what any sheet has of its quality", poor, []nest.Piece{{ID: "a", Shape: square(3), Quality: 2}, {ID: "b", Shape: square(2), Quality: 1}}},
		{"group seat: together", nil, []nest.Piece{{ID: "a", Shape: box(0, 0, 18, 6), Group: "seat"}, {ID: "b", Shape: box(0, 0, 16, 6), Group: "seat"}, {ID: "c", Shape: square(2)}}},
		{"piece a and its mate: together", nil, []nest.Piece{{ID: "a", Shape: box(0, 0, 18, 6), Pair: "b"}, {ID: "b", Shape: box(0, 0, 16, 6), Pair: "a"}, {ID: "c", Shape: square(2)}}},
	} {
		p := nest.Problem{Kind: nest.Bins, Containers: []nest.Container{{ID: "sheet", Outline: box(0, 0, 20, 10), Zones: c.zones, Count: 3}}, Pieces: c.pieces}
		r := solve(t, p, nest.Options{Seed: 1, Steps: 300})
		if r.Status != nest.Incomplete || !strings.Contains(r.Reason, c.want) || len(r.Placements) != 1 {
			t.Errorf("%d laid, status %d, %q; want the small piece and %q", len(r.Placements), r.Status, r.Reason, c.want)
		}
	}
}

// TestSolve_FlawedRolls lays the same on rolls with flaws: Solve holds what it
// returns to the exact check itself.
func TestSolve_FlawedRolls(t *testing.T) {
	for seed := uint64(1); seed <= 8; seed++ {
		dice := rand.New(rand.NewPCG(seed, 6))
		c := drawnHide(dice)
		c.Outline, c.Height = geom.Polygon{}, 30
		p := nest.Problem{Clearance: 0.3 * dice.Float64(), Containers: []nest.Container{c}}
		for range 4 {
			p.Pieces = append(p.Pieces, drawnPiece(dice, len(p.Pieces)))
		}
		r := solve(t, p, nest.Options{Seed: seed, Steps: 300})
		if first := solve(t, p, nest.Options{Seed: seed}); r.Length >= first.Length {
			t.Errorf("seed %d: length %v, to begin with %v", seed, r.Length, first.Length)
		}
	}
}
