package nest

import (
	"context"
	"math/rand/v2"
	"testing"

	"fettle/geom"
)

// hide is a lopsided shape with a hole, two zones and a keep-out.
func hide() Container {
	var p []geom.Point
	for _, c := range [][2]float64{{120, 0}, {420, 30}, {520, 0}, {600, 110}, {560, 240}, {640, 380}, {560, 470}, {330, 430}, {140, 500}, {0, 420}, {60, 250}, {10, 90}} {
		p = append(p, geom.Point{X: c[0], Y: c[1]})
	}
	box := func(x, y, w, h float64) geom.Polygon {
		return geom.Polygon{Outer: []geom.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}}
	}
	return Container{
		ID: "hide", Margin: 8, Outline: geom.Polygon{Outer: p, Holes: [][]geom.Point{box(300, 200, 30, 40).Outer}},
		Zones:   []Zone{{Shape: box(40, 60, 110, 120), Quality: 1}, {Shape: box(450, 300, 90, 90), Quality: 2}, {Shape: box(200, 90, 20, 15)}},
		KeepOut: []geom.Polygon{box(400, 120, 40, 40)},
		Grain:   []Heading{{At: geom.Point{X: 300, Y: 100}}, {At: geom.Point{X: 300, Y: 400}, Angle: 30}},
	}
}

// TestFloor_WhatIsSeparatedPassesTheCheck lays pieces of all demands on a hide
// at random, moves them apart, and has the exact checker judge.
func TestFloor_WhatIsSeparatedPassesTheCheck(t *testing.T) {
	rect := func(w, h float64) geom.Polygon {
		return geom.Polygon{Outer: []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}}
	}
	ell := geom.Polygon{Outer: []geom.Point{{}, {X: 120}, {X: 120, Y: 40}, {X: 50, Y: 40}, {X: 50, Y: 110}, {Y: 110}}}
	p := Problem{Kind: Bins, Clearance: 3, Kerf: 1, Containers: []Container{hide()}, Pieces: []Piece{
		{ID: "seat", Shape: ell, Count: 7, Free: true},
		{ID: "flap", Shape: rect(110, 50), Count: 8, Free: true, Quality: 1},
		{ID: "strip", Shape: rect(160, 22), Count: 6, Free: true, Quality: 2, Axis: &Axis{Tolerance: 15}},
	}}
	s := newShop(&p)
	f := newFloor(s, 0)
	done := 0
	for seed := uint64(1); seed <= 5; seed++ {
		l := newLayout(s, s.items(), f.bounds(), f)
		k := newSeparator(context.Background(), l, Options{Seed: seed}, 1)
		k.until = 3_000_000
		dice := rand.New(rand.NewPCG(seed, 1))
		for i, it := range l.items {
			turns := s.forms[it.piece].turns
			l.put(i, spot{turn: &turns[dice.IntN(len(turns))], x: 600 * dice.Float64(), y: 500 * dice.Float64()})
		}
		k.lead.all()
		if !k.separate(exploring) {
			continue
		}
		done++
		var at []Placement
		for i, it := range l.items {
			at = append(at, placement(it, l.spots[i]))
		}
		if _, err := Check(p, at); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
	if done < 3 {
		t.Errorf("%d of 5 were separated", done)
	}
}
