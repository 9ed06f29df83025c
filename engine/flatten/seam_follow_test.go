package flatten

import (
	"context"
	"math"
	"testing"

	"fettle/geom"
	"fettle/geom/mesh"
)

// square is a flat square of 100 and the edge of it that lay at x = 100.
func square(t *testing.T) (Problem, Result, []int32) {
	t.Helper()
	p := Problem{Surface: patch(8, 8, func(u, v float64) mesh.Vec { return mesh.Vec{X: 100 * u, Y: 100 * v} })}
	var edge []int32
	for j := range int32(9) {
		edge = append(edge, 8*9+j)
	}
	return p, lay(t, p), edge
}

// An edge that is moved out by 2 % of the piece stretches it by that, evenly.
func TestFollow_InsideFollowsTheEdge(t *testing.T) {
	p, r, edge := square(t)
	var other []int32
	for j := range int32(9) {
		other = append(other, j)
	}
	var to []geom.Point
	step := r.Flat.Points[edge[0]].Sub(r.Flat.Points[other[0]]).Scale(0.02)
	for _, v := range edge {
		to = append(to, r.Flat.Points[v].Add(step))
	}
	for _, v := range other {
		to = append(to, r.Flat.Points[v])
	}
	got, err := Follow(context.Background(), p, r, append(edge, other...), to, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range edge {
		if got.Flat.Points[v] != to[i] {
			t.Errorf("vertex %d lies at %v, not %v", v, got.Flat.Points[v], to[i])
		}
	}
	if got.Material.Flips > 0 {
		t.Errorf("%d faces are turned over", got.Material.Flips)
	}
	// Pattern longer by 2 %, so it is pushed together by as much on the surface,
	// a little more at the corners, which cannot give sideways.
	if low := got.Material.Stretch[1]; math.Abs(low-(1/1.02-1)) > 0.005 {
		t.Errorf("least stretch %g", low)
	}
	if none := lay(t, p); math.Abs(none.Material.Stretch[2]) > 1e-6 {
		t.Errorf("the square itself is strained: %v", none.Material.Stretch)
	}
}

func TestFollow_MatchedSeamOfADome(t *testing.T) {
	leather := even(0.1)
	p := Problem{Surface: dome(8, 300, 0.5), Material: leather}
	r := lay(t, p)
	var edge []int32
	var line []geom.Point
	for i := range int32(20) { // part of the rim
		v := 1 + 3*8*7 + i
		edge, line = append(edge, v), append(line, r.Flat.Points[v])
	}
	other := straight(lengthOf(line)*1.02, 20)
	m, err := Match(line, other, 0, 0, 1)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Follow(context.Background(), p, r, edge, m.Edges[0], Options{})
	if err != nil {
		t.Fatal(err)
	}
	var moved []geom.Point
	for _, v := range edge {
		moved = append(moved, got.Flat.Points[v])
	}
	if math.Abs(lengthOf(moved)-lengthOf(other)) > 1e-9 || got.Material.Flips > 0 {
		t.Errorf("edge of %.4f for one of %.4f, %d flips", lengthOf(moved), lengthOf(other), got.Material.Flips)
	}
}

func TestFollow_Bad(t *testing.T) {
	p, r, edge := square(t)
	here := make([]geom.Point, len(edge))
	for i, v := range edge {
		here[i] = r.Flat.Points[v]
	}
	for name, try := range map[string]func() (Result, error){
		"too few": func() (Result, error) { return Follow(context.Background(), p, r, edge[:1], here[:1], Options{}) },
		"unlike":  func() (Result, error) { return Follow(context.Background(), p, r, edge, here[:3], Options{}) },
		"twice": func() (Result, error) {
			return Follow(context.Background(), p, r, []int32{1, 1}, here[:2], Options{})
		},
		"outside": func() (Result, error) {
			return Follow(context.Background(), p, r, []int32{1, 999}, here[:2], Options{})
		},
		"nowhere": func() (Result, error) {
			return Follow(context.Background(), p, r, edge[:2], []geom.Point{here[0], {X: math.NaN()}}, Options{})
		},
		"other surface": func() (Result, error) {
			return Follow(context.Background(), Problem{Surface: dome(3, 1, 1)}, r, edge, here, Options{})
		},
		"onto one place": func() (Result, error) {
			return Follow(context.Background(), p, r, edge, make([]geom.Point, len(edge)), Options{})
		},
	} {
		if _, err := try(); err == nil {
			t.Errorf("%s passed", name)
		}
	}
}
