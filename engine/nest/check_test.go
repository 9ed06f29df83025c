package nest_test

import (
	"math"
	"strings"
	"testing"

	"fettle/engine/nest"
	"fettle/geom"
)

func box(x, y, w, h float64) geom.Polygon {
	return geom.Polygon{Outer: []geom.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}}
}

// hideCase is a hide of 100 by 80 with a hole, zones and a keep-out, and on it
// an L, a ring with a small box in it, and a box with a lenient flap.
func hideCase() (nest.Problem, []nest.Placement) {
	ell := geom.Polygon{Outer: []geom.Point{{X: 0, Y: 0}, {X: 20, Y: 0}, {X: 20, Y: 10}, {X: 10, Y: 10}, {X: 10, Y: 30}, {X: 0, Y: 30}}}
	ring := box(0, 0, 20, 20)
	ring.Holes = [][]geom.Point{box(5, 5, 10, 10).Outer}
	hide := nest.Container{ID: "H1", Outline: box(0, 0, 100, 80), Margin: 1, Count: 2,
		Zones:   []nest.Zone{{Shape: box(60, 0, 40, 30), Quality: 1}, {Shape: box(80, 60, 5, 5), Quality: 0}},
		KeepOut: []geom.Polygon{box(0, 70, 10, 10)},
	}
	hide.Outline.Holes = [][]geom.Point{box(40, 40, 10, 10).Outer}
	p := nest.Problem{Kind: nest.Bins, Clearance: 1, Kerf: 0.5, Containers: []nest.Container{hide}, Pieces: []nest.Piece{
		{ID: "ell", Shape: ell, Count: 2, Rotations: []float64{0, 180}, Locked: []nest.Placement{{X: 2, Y: 2}}},
		{ID: "ring", Shape: ring, Rotations: []float64{0, 90}, Mirror: true, Group: "g"},
		{ID: "plug", Shape: box(0, 0, 4, 4), Free: true, Group: "g", Axis: &nest.Axis{Tolerance: 15}},
		{ID: "flap", Shape: box(0, 0, 20, 10), Zones: []nest.Zone{{Shape: box(10, 0, 10, 10), Quality: 1}}},
		{ID: "under", Shape: box(0, 0, 10, 5), Quality: 1},
	}}
	return p, []nest.Placement{
		{Piece: 0, X: 2, Y: 2},
		{Piece: 0, Copy: 1, X: 33.5, Y: 43.5, Rotation: 180},
		{Piece: 1, X: 78, Y: 55, Rotation: 90, Mirrored: true},
		{Piece: 2, X: 66, Y: 43, Rotation: 10},
		{Piece: 3, X: 50, Y: 15},
		{Piece: 4, X: 85, Y: 3},
	}
}

func TestCheck_OneRuleBrokenAtATime(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(p *nest.Problem, at []nest.Placement) []nest.Placement
		want  string // "" is no fault
	}{
		{"nothing", func(_ *nest.Problem, at []nest.Placement) []nest.Placement { return at }, ""},
		{"missing", func(_ *nest.Problem, at []nest.Placement) []nest.Placement { return at[:5] }, "piece under, copy 1: it lies nowhere"},
		{"knapsack", func(p *nest.Problem, at []nest.Placement) []nest.Placement { p.Kind = nest.Knapsack; return at[:5] }, ""},
		{"twice", func(_ *nest.Problem, at []nest.Placement) []nest.Placement { return append(at, at[2]) }, "ring, copy 1: it is placed twice"},
		{"too many", set(2, func(at *nest.Placement) { at.Copy = 1 }), "only 1 are wanted"},
		{"no such piece", set(2, func(at *nest.Placement) { at.Piece = 9 }), "placement 3: there is no piece 9"},
		{"no such sheet", set(2, func(at *nest.Placement) { at.Sheet = 2 }), "no sheet 3"},
		{"rotation", set(1, func(at *nest.Placement) { at.Rotation = 90 }), "ell, copy 2: it is turned by 90 degrees"},
		{"rotation the long way", set(1, func(at *nest.Placement) { at.Rotation = -540 }), ""},
		{"no angle", set(3, func(at *nest.Placement) { at.Rotation = math.NaN() }), "turned by NaN"},
		{"mirror", set(3, func(at *nest.Placement) { at.Mirrored = true }), "it is mirrored"},
		{"locked", set(0, func(at *nest.Placement) { at.X += 1 }), "ell, copy 1: it is locked at 2, 2"},
		{"locked away", func(_ *nest.Problem, at []nest.Placement) []nest.Placement { return at[1:] }, "it is locked, and lies nowhere"},
		{"beyond the edge", set(5, func(at *nest.Placement) { at.X = 91 }), "under, copy 1: it reaches beyond the edge of material H1, sheet 1 near"},
		{"outside", set(5, func(at *nest.Placement) { at.X = 200 }), "reaches beyond"},
		{"no place", set(5, func(at *nest.Placement) { at.X = math.NaN() }), "coordinates go to"},
		{"far out", set(5, func(at *nest.Placement) { at.X = 1e300 }), "coordinates go to"},
		{"margin", set(5, func(at *nest.Placement) { at.X = 89.5 }), "it lies 0.5 from the edge of material H1, sheet 1, less than the margin of 1"},
		{"in the hole", set(5, func(at *nest.Placement) { at.X, at.Y = 35, 42 }), "it lies on hole 1"},
		{"around the hole", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Pieces[1].Shape = box(0, 0, 20, 20)
			at[2].Rotation, at[2].Mirrored, at[2].X, at[2].Y = 0, false, 35, 35
			return at
		}, "ring, copy 1: it lies on hole 1"},
		{"keep-out", set(5, func(at *nest.Placement) { at.X, at.Y = 5, 72 }), "it lies on keep-out 1"},
		{"poor zone", set(1, func(at *nest.Placement) { at.X, at.Y = 85, 33 }), "ell, copy 2: it lies on zone 1 (quality 1)"},
		{"hole of quality 0", set(5, func(at *nest.Placement) { at.X, at.Y = 78, 61 }), "it lies on zone 2 (quality 0)"},
		{"wrong half of the flap", set(4, func(at *nest.Placement) { at.X = 51 }), "flap, copy 1: it lies on zone 1"},
		{"strict part", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Pieces[4].Zones = []nest.Zone{{Shape: box(0, 0, 2, 2), Quality: 2}}
			return at
		}, "under, copy 1: a part of it that may not lies on zone 1"},
		{"overlap", set(5, func(at *nest.Placement) { at.X, at.Y = 65, 20 }), "under, copy 1: it overlaps piece flap, copy 1 on material H1, sheet 1 near"},
		{"on another sheet", set(5, func(at *nest.Placement) { at.X, at.Y, at.Sheet = 65, 20, 1 }), ""},
		{"all inside another", set(5, func(at *nest.Placement) { at.X, at.Y = 52, 17 }), "it overlaps piece flap"},
		{"same place", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Pieces[4].Shape = p.Pieces[3].Shape
			at[5].X, at[5].Y = at[4].X, at[4].Y
			return at
		}, "it overlaps piece flap"},
		{"clearance", set(3, func(at *nest.Placement) { at.X, at.Y, at.Rotation = 64.4, 43, 0 }), "plug, copy 1: it lies 1.4 from piece ring, copy 1"},
		{"group apart", set(3, func(at *nest.Placement) { at.Sheet = 1 }), "the group g is on two sheets"},
		{"axis", set(3, func(at *nest.Placement) { at.Rotation, at.X = 20, 67 }), "its tight direction strays by 20 degrees"},
		{"axis half turned", set(3, func(at *nest.Placement) { at.Rotation, at.X, at.Y = 190, 70, 47.6 }), ""},
		{"nap", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Pieces[2].Axis.OneWay = true
			at[3].Rotation, at[3].X, at[3].Y = 190, 70, 47.6
			return at
		}, "strays by 170 degrees"},
		{"grain", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Containers[0].Grain = []nest.Heading{{Angle: 0}, {At: geom.Point{X: 90, Y: 50}, Angle: 45}}
			return at
		}, "strays by 35 degrees"},
		{"bad piece", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Pieces[4].Shape.Outer = []geom.Point{{}, {X: 1, Y: 1}, {X: 1}, {Y: 1}}
			return at
		}, "piece under, outer, point 1: the edge from here meets"},
		{"bad margin", func(p *nest.Problem, at []nest.Placement) []nest.Placement {
			p.Containers[0].Margin = math.NaN()
			return at
		}, "material H1: a margin of NaN"},
	} {
		p, at := hideCase()
		at = c.spoil(&p, at)
		r, err := nest.Check(p, at)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
		if c.name == "nothing" && (math.Abs(r.SmallestGap-2) > 2*r.Step || !strings.Contains(r.Nearest, "ell, copy 1 and the edge of material H1")) {
			t.Errorf("smallest gap %v between %s, want 2 at the edge", r.SmallestGap, r.Nearest)
		}
	}
}

func set(i int, f func(*nest.Placement)) func(*nest.Problem, []nest.Placement) []nest.Placement {
	return func(_ *nest.Problem, at []nest.Placement) []nest.Placement {
		f(&at[i])
		return at
	}
}

// Touching is allowed, to the last step of the grid and not beyond.
func TestCheck_Touching(t *testing.T) {
	star := geom.Polygon{Outer: []geom.Point{{X: 0, Y: -2}, {X: 2, Y: 0}, {X: 0, Y: 2}, {X: -2, Y: 0}}}
	for _, c := range []struct {
		name   string
		shape  geom.Polygon
		x, y   float64
		passes bool
	}{
		{"side by side", box(0, 0, 10, 10), 10, 0, true},
		{"half a side", box(0, 0, 10, 10), 10, 5, true},
		{"corner to corner", box(0, 0, 10, 10), 10, 10, true},
		{"corner on a side", star, 12, 5, true},
		{"one step in", box(0, 0, 10, 10), 9.999999, 0, false},
		{"one step apart", box(0, 0, 10, 10), 10.000001, 0, true},
		{"corners on corners, across", star, 0, 2, false}, // a diamond half in, edges crossing at corners only
		{"a bar through both sides at corners", geom.Polygon{Outer: []geom.Point{{X: 0, Y: 0}, {X: 10, Y: 10}, {X: 5, Y: 12}}}, 0, 0, false},
		{"the same", box(0, 0, 10, 10), 0, 0, false},
		{"inside, touching all round", star, 2, 2, false},
	} {
		p := nest.Problem{Kind: nest.Strip, Containers: []nest.Container{{ID: "roll", Height: 40}}, Pieces: []nest.Piece{
			{ID: "a", Shape: box(0, 0, 10, 10)}, {ID: "b", Shape: c.shape},
		}}
		_, err := nest.Check(p, []nest.Placement{{X: 10, Y: 10}, {Piece: 1, X: 10 + c.x, Y: 10 + c.y}})
		if (err == nil) != c.passes {
			t.Errorf("%s: %v, want it to pass: %v", c.name, err, c.passes)
		}
	}
}

func TestCheck_Strip(t *testing.T) {
	p := nest.Problem{Kind: nest.Strip, Containers: []nest.Container{{ID: "roll", Height: 10}}, Pieces: []nest.Piece{{ID: "a", Shape: box(0, 0, 10, 10)}}}
	r, err := nest.Check(p, []nest.Placement{{X: 30}})
	if err != nil || r.Length != 40 || !math.IsInf(r.SmallestGap, 1) {
		t.Errorf("length %v, gap %v, %v; want 40, and nothing to measure", r.Length, r.SmallestGap, err)
	}
	for _, at := range []nest.Placement{{X: -0.000001}, {Y: 0.000001}, {Y: -0.000001}} {
		if _, err := nest.Check(p, []nest.Placement{at}); err == nil {
			t.Errorf("%v passes", at)
		}
	}
}
